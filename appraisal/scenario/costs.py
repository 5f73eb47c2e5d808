"""Work and running costs."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Section, choice, number, text


class Labour(Section):
    """Hours of work; the family's hours are shown even if nobody pays them."""

    hired_hours_per_week: float = number("hour/week", 0, 1000, default=0.0, label="Hired hours",
        help="Paid hours of all hired people at the plant.")
    family_hours_per_week: float = number("hour/week", 0, 200, default=0.0, label="Family hours",
        help="Unpaid, but shown.")
    hired_wage_per_hour: float = number("money/hour", 0, 200, label="Hired wage", help="With employer's costs.")
    escalation: float = number("share/year", -0.2, 0.3, default=0.025, basis=PRACTICE, label="Yearly rise of wages",
        help="0.025 is 2.5 % a year.")
    night_calls_per_year: float = number(
        "1/year", 0, 365, default=0.0, label="Calls at night a year", help="Alarms that get the family out of bed.")
    night_call_hours: float = number(
        "hour", 0, 12, default=1.5, basis=PRACTICE, label="Hours of a call at night", help="Counted as family hours.")
    stand_in_weeks_per_year: float = number(
        "week/year", 0, 52, default=0.0, label="Weeks a year with a stand-in",
        help="The family is away: its weekly hours are then done and paid at the hired wage.")
    job_hours_per_year: float = number(
        "hour/year", 500, 3000, default=1800.0, source="Eurostat, annual work unit of farming: at least 1,800 hours",
        basis="from memory", label="Hours counted as one job",
        help="A year of one full-time job; the programme may ask for another figure.")
    building_hours: float = number(
        "hour", 0, 1e6, default=0.0, label="Hours of work while building",
        help="Of local firms and the family, as the suppliers say; shown as jobs, moves no money.")


class Task(Section):
    """One kind of work at the plant, by hours; on top of the weekly hours above."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    done_by: Literal["family", "hired"] = choice(
        "family", "hired", default="family", label="Who does it", help="Hired hours are paid, family hours are shown.")
    hours_per_week: float = number("hour/week", 0, 1000, default=0.0, label="Hours a week", help="While the plant is fed.")
    hours_per_year: float = number("hour/year", 0, 10000, default=0.0, label="Hours a year",
        help="Spread evenly over the months in which the plant is fed.")
    hours_per_t_fed: float = number("hour/t", 0, 10, default=0.0, label="Hours per tonne fed",
        help="For every tonne that enters the digester, water included.")


class RunningCost(Section):
    """One more yearly cost: insurance, laboratory, upkeep, land, property tax, administration, full-service fees."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    per_year: float = number("money/year", 0, 1e8, default=0.0, label="Fixed part",
        help="From the first month of feeding.")
    share_of_capital_per_year: float = number(
        "share/year", 0, 0.2, default=0.0, label="Part of the capital",
        help="0.007 is 0.7 % of the capital a year: insurance, property tax.")
    per_kw_year: float = number("money/kW/year", 0, 1000, default=0.0, label="Part per rated kW",
        help="Standby charges, or costs published per kW; rated power of all engines.")
    per_t_fed: float = number("money/t", 0, 1000, default=0.0, label="Part per tonne fed",
        help="For every tonne that enters the digester, water included.")
    per_kwh: float = number("money/kWh", 0, 1, default=0.0, label="Part per gross kWh",
        help="For every gross kWh of all engines.")
    escalation: float = number("share/year", -0.2, 0.3, default=0.02, basis=PRACTICE, label="Yearly rise",
        help="0.02 is 2 % a year.")
