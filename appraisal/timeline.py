"""Months, project years and the masks that say when the plant is fed.

Month 0 is the first month of spending. A project year is twelve months from there; building years count. A model
year has 365 days, months have their calendar lengths.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from appraisal.lines.define import line
from appraisal.lines.names import MONTHS as MONTHS

MONTH_NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
FULL_NAMES = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
)  # fmt: skip
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
HOURS_PER_DAY = 24
SERIES_LABELS = {  # what time itself gives, month by month: label and unit
    "month_number": ("Month of the project, the first is 0", "month"),
    "calendar_month": ("Calendar month, January is 1", "1"),
    "year_number": ("Project year, the first is 1", "year"),
    "last_of_year": ("Last month of a project year", "1"),
    "years_on": ("Whole years since the first month", "year"),
    "days": ("Days in the month", "day/month"),
    "hours": ("Hours in the month", "hour/month"),
}
SERIES = tuple(SERIES_LABELS)


@dataclass(frozen=True)
class Timeline:
    """The months of one scenario: calendar year and month (1 to 12) of month 0, and the number of project years."""

    first_year: int
    first_month: int
    years: int

    @property
    def months(self) -> int:
        """Number of months in the model."""
        return self.years * MONTHS

    def calendar_month(self) -> npt.NDArray[np.int64]:
        """Calendar month of each model month, 0 for January; shape (months,)."""
        return (np.arange(self.months) + self.first_month - 1) % MONTHS

    def name(self, month: int) -> str:
        """A model month as 2027-04."""
        year, place = divmod(self.first_month - 1 + month, MONTHS)
        return f"{self.first_year + year}-{place + 1:02d}"

    def in_words(self, month: int) -> str:
        """A model month as April 2027, for sentences."""
        return said_month(self.name(month))


def said_month(name: str) -> str:
    """A month written 2027-04 as April 2027."""
    year, month = name.split("-")[:2]
    return f"{FULL_NAMES[int(month) - 1]} {year}"


def series(timeline: Timeline) -> dict[str, npt.NDArray[np.float64]]:
    """The monthly inputs that time itself gives, by full name, each of shape (1, months).

    month_number [month] from 0; calendar_month 1 to 12; year_number [year] from 1; last_of_year 1 in the twelfth month;
    years_on [year] whole years since month 0, the exponent of every price rise; days [day] and hours [hour] in the month.
    """
    month = np.arange(timeline.months, dtype=np.float64)
    days = np.array(DAYS, dtype=np.float64)[timeline.calendar_month()]
    year = np.floor(month / MONTHS)
    rows = {
        "month_number": month,
        "calendar_month": timeline.calendar_month() + 1.0,
        "year_number": year + 1,
        "last_of_year": (month % MONTHS == MONTHS - 1).astype(np.float64),
        "years_on": year,
        "days": days,
        "hours": days * HOURS_PER_DAY,
    }
    return {f"timeline.{name}": row[None, :] for name, row in rows.items()}


@line()
def closed(
    month_number, project_build_months, project_closes_after_years, months_per_year, rounding_tolerance
):
    """Plant is closed for good [1]

    1 in every month from the closing on, so many years after the first feeding. Flows stop then; loans and their interest do not.
    """
    until = project_build_months + project_closes_after_years * months_per_year
    return np.where(month_number >= until - rounding_tolerance, 1, 0)


@line()
def feeding(month_number, project_build_months, closed):
    """Plant is fed [1]

    1 in every month from the first feeding to the closing, 0 while building and after.
    """
    return np.where(month_number >= project_build_months, 1, 0) * (1 - closed)


@line()
def building(feeding, closed):
    """Plant is being built [1]

    1 in every month before the first feeding, and never again.
    """
    return 1 - feeding - closed


@line()
def months_fed(month_number, project_build_months, feeding):
    """Months since the first feeding [month]

    Counts the running month, so the first month of feeding is 1; 0 while building.
    """
    return (month_number - project_build_months + 1) * feeding


@line()
def ramp(months_fed, digester_ramp_months):
    """Share of full gas after start-up [share]

    Rises evenly from the first feeding to 1 after the ramp; a young digester does not yet give its full gas.
    """
    return np.minimum(months_fed / np.maximum(digester_ramp_months, 1), 1)


@line()
def first_full_year(project_build_months, digester_ramp_months, months_per_year, rounding_tolerance):
    """First full project year after the ramp [year]

    The first project year that begins when building and ramp are over; the year most figures are quoted for.
    """
    return 1 - np.floor(rounding_tolerance - (project_build_months + digester_ramp_months) / months_per_year)


@line()
def in_first_full_year(year_number, first_full_year):
    """In the first full year [1]

    1 in the twelve months of the first full project year.
    """
    return np.where(np.equal(year_number, first_full_year), 1, 0)
