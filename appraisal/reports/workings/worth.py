"""Discounting and present values: what every result rests on."""

from appraisal.lines.define import line


@line()
def years_dated(month_number, months_per_year):
    """Time from today [year]

    Month m falls m/12 years from today.
    """
    return month_number / months_per_year


@line()
def discount_factor(years_dated, judging_discount_rate):
    """Worth today of one unit of money [1]

    (1 + discount rate) to the power of minus the time.
    """
    return (1 + judging_discount_rate) ** (-years_dated)


@line()
def price_level(years_dated, project_inflation):
    """Price level, today is 1 [1]

    General inflation compounded month by month.
    """
    return (1 + project_inflation) ** years_dated


@line()
def months_in_all(project_years, months_per_year):
    """Months of the model [month]

    Project years x 12.
    """
    return project_years * months_per_year


@line()
def costs_worth(investment, running_costs, overhauls_paid, disposals_before_grants, discount_factor):
    """All costs but tax, before grants, worth today [money/month]

    Capital, running costs, overhauls and what is sold or removed at the end, as spent.
    """
    return (0 - (investment + running_costs + overhauls_paid + disposals_before_grants)) * discount_factor


@line()
def gained_worth(cash_income, evidenced_savings, modelled_savings, discount_factor):
    """Income and savings, worth today [money/month]

    Without grants.
    """
    return (cash_income + evidenced_savings + modelled_savings) * discount_factor


@line()
def grants_worth(grants, discount_factor):
    """Grants, worth today [money/month]

    As received.
    """
    return grants * discount_factor


@line()
def costs_with_tax_worth(cash_income, evidenced_savings, modelled_savings, grants, project_cash, discount_factor):
    """All costs and the project's tax, worth today [money/month]

    Income, savings and grants less the project's cash after tax: whatever went out.
    """
    return (cash_income + evidenced_savings + modelled_savings + grants - project_cash) * discount_factor


@line()
def by_products_worth(cash_income, evidenced_savings, modelled_savings, power_gained, discount_factor):
    """Income and savings but those of power, worth today [money/month]

    What is taken off the cost of a kilowatt-hour for the net figures.
    """
    return (cash_income + evidenced_savings + modelled_savings - power_gained) * discount_factor


@line()
def sold_worth(power_sold, discount_factor):
    """Power sold, discounted [kWh/month]

    Discounted like money, because the price is earned when it is sold.
    """
    return power_sold * discount_factor


@line()
def used_worth(power_sold, power_to_farm, discount_factor):
    """Power sold or used on the farm, discounted [kWh/month]

    As above, with what the farm uses.
    """
    return (power_sold + power_to_farm) * discount_factor


@line()
def running_worth(running_costs, discount_factor):
    """Running costs, worth today [money/month]

    As spent, without overhauls.
    """
    return (0 - running_costs) * discount_factor


@line()
def overhauls_worth(overhauls_paid, discount_factor):
    """Overhauls, worth today [money/month]

    As spent.
    """
    return (0 - overhauls_paid) * discount_factor


@line()
def invested_worth(investment, disposals, discount_factor):
    """Capital less what is left at the end, worth today [money/month]

    As spent.
    """
    return (0 - (investment + disposals)) * discount_factor


@line()
def counted_by_programmes(energy_and_by_products, in_first_full_year):
    """Energy and by-products of the first full year [money/month]

    What farm-energy programmes divide the eligible cost by.
    """
    return energy_and_by_products * in_first_full_year
