"""Income with a name of its own: capacity payments, certificates, operating grants, anything else paid by a rule."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line()
def rated_power(each_engine_rated_kw):
    """Rated power of all engines [kW]

    As on their plates.
    """
    return total(each_engine_rated_kw)


@line(per="other_income")
def other_income_runs(months_fed, feeding, other_income_years, months_per_year, rounding_tolerance):
    """It is paid [1]

    From the first feeding, for so many years.
    """
    return feeding * np.where(months_fed > other_income_years * months_per_year + rounding_tolerance, 0, 1)


@line(per="other_income")
def other_income_amount(
    other_income_per_year,
    other_income_per_kw_year,
    rated_power,
    days,
    days_per_year,
    other_income_per_kwh_gross,
    power_gross,
    other_income_per_kwh_sold,
    power_sold,
    other_income_per_t_fed,
    tonnes_fed,
    other_income_per_t_digestate,
    digestate_mass,
    other_income_runs,
    other_income_escalation,
    years_on,
):
    """Other income [money/month]

    Fixed part, parts per rated kW, per kWh made or sold, per tonne fed or digested, with its own yearly rise.
    """
    by_time = (other_income_per_year + other_income_per_kw_year * rated_power) * days / days_per_year
    by_power = other_income_per_kwh_gross * power_gross + other_income_per_kwh_sold * power_sold
    by_mass = other_income_per_t_fed * tonnes_fed + other_income_per_t_digestate * digestate_mass
    return (by_time + by_power + by_mass) * other_income_runs * (1 + other_income_escalation) ** years_on


@line(per="other_income", when={"other_income_counted_as": "cash"}, role="cash_income")
def other_income_received(other_income_amount):
    """Other income [money/month]

    Somebody pays it.
    """
    return other_income_amount


@line(per="other_income", when={"other_income_counted_as": "evidenced_saving"}, role="evidenced_saving")
def other_income_bill_saved(other_income_amount):
    """Other bill saved [money/month]

    A bill of the farm falls.
    """
    return other_income_amount


@line(per="other_income", when={"other_income_counted_as": "modelled_saving"}, role="modelled_saving")
def other_income_worth(other_income_amount):
    """Other worth [money/month]

    Worth to the family; no bill proves it.
    """
    return other_income_amount


@line(per="other_income", when={"other_income_counted_as": "benefit_to_others"})
def other_income_benefit__named(other_income_amount):
    """Benefit to others [money/month]

    Somebody else has it: in no total, shown to a public funder.
    """
    return other_income_amount


@line(per="other_income", when={"other_income_counted_as": "cash|evidenced_saving|modelled_saving"})
def other_income_benefit__none(other_income_amount):
    """Benefit to others [money/month]

    None.
    """
    return 0 * other_income_amount


@line()
def benefits_to_others(each_other_income_benefit):
    """Benefits to others [money/month]

    Nobody pays the plant for them; a public funder counts them, a lender and a family do not.
    """
    return total(each_other_income_benefit)
