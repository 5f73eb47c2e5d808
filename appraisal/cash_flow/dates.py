"""Which month of the year it is, which is the last, and which project years are years of operation."""

import numpy as np

from appraisal.lines.define import line


@line()
def month_of_year(month_number, year_number, months_per_year):
    """Month of the project year [month]

    1 to 12.
    """
    return month_number + 1 - (year_number - 1) * months_per_year


@line()
def first_of_year(month_of_year):
    """First month of a project year [1]

    1 there.
    """
    return np.where(month_of_year > 1, 0, 1)


@line()
def last_month(month_number, project_years, months_per_year):
    """Last month of the project [1]

    1 there: what the plant is still worth comes in, what it costs to remove goes out, and every bill is settled.
    """
    return np.where(month_number + 1 >= project_years * months_per_year, 1, 0)


@line()
def closing_month(closed, previous_closed):
    """Month in which the plant closes [1]

    1 in the first month without feeding after the last with it; 0 throughout when it runs to the end.
    """
    return closed - previous_closed


@line()
def plant_goes(closing_month, last_month, closed):
    """Month in which the plant is sold or removed [1]

    The month of closing, or the last of the project when it runs to the end.
    """
    return closing_month + last_month * (1 - closed)


@line()
def plant_gone(cumulative_plant_goes):
    """The plant is sold or removed [1]

    1 from that month on.
    """
    return cumulative_plant_goes


@line(yearly=True)
def months_fed_in_year(year_sum_feeding):
    """Months in which the plant is fed [month/year]

    12 in a full operating year.
    """
    return year_sum_feeding


@line(yearly=True)
def full_year(months_fed_in_year, months_per_year):
    """Full operating year [1]

    1 where the plant is fed in all twelve months; the ramp is inside it.
    """
    return np.where(months_fed_in_year >= months_per_year, 1, 0)


@line(yearly=True)
def before_full_years(full_year, next_full_year):
    """Last year before the full operating years [1]

    1 in the project year before the first full one.
    """
    return next_full_year * (1 - full_year)


@line(yearly=True)
def opens_full_years(full_year, previous_full_year):
    """First full operating year [1]

    1 in that project year.
    """
    return full_year * (1 - previous_full_year)
