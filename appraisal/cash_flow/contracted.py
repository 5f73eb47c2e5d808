"""The lender's case: income on signed contracts only, while they run; every cost stays."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total

NO_CASH = "evidenced_saving|modelled_saving|benefit_to_others"


@line(when={"power_contract_signed": "yes"})
def power_income_signed__yes(power_sales, power_under_contract):
    """Power sales under a signed contract [money/month]

    Until the end of its term.
    """
    return power_sales * power_under_contract


@line(when={"power_contract_signed": "no"})
def power_income_signed__no(power_sales):
    """Power sales under a signed contract [money/month]

    None.
    """
    return 0 * power_sales


@line(when={"upgrading_takes": "share_of_gas"})
def gas_income_signed__share_of_gas(gas_sales, gas_under_contract):
    """Gas sales under contract [money/month]

    Until the end of its term.
    """
    return gas_sales * gas_under_contract


@line(when={"upgrading_takes": "nothing"})
def gas_income_signed__nothing(power_sales):
    """Gas sales under contract [money/month]

    No gas is sold.
    """
    return 0 * power_sales


@line(when={"heat_sold_signed": "yes"})
def heat_income_signed__yes(
    heat_sales, months_fed, feeding, heat_sold_signed_years, months_per_year, rounding_tolerance
):
    """Heat sales under a signed contract [money/month]

    Until the end of its term.
    """
    over = np.where(months_fed > heat_sold_signed_years * months_per_year + rounding_tolerance, 1, 0)
    return heat_sales * feeding * (1 - over)


@line(when={"heat_sold_signed": "no"})
def heat_income_signed__no(heat_sales):
    """Heat sales under a signed contract [money/month]

    None.
    """
    return 0 * heat_sales


@line(per="substrate", when={"substrate_origin": "herd"})
def substrate_fee_signed__herd(substrate_tonnes):
    """Tipping fees under contract [money/month]

    Own manure brings none.
    """
    return 0 * substrate_tonnes


@line(per="substrate", when={"substrate_origin": "feed", "substrate_supply_by": "contract"})
def substrate_fee_signed__contract(substrate_tipping_fee, substrate_contract_over):
    """Tipping fees under contract [money/month]

    Until the end of the contract.
    """
    return substrate_tipping_fee * (1 - substrate_contract_over)


@line(per="substrate", when={"substrate_origin": "feed", "substrate_supply_by": "own"})
def substrate_fee_signed__own(substrate_tipping_fee):
    """Tipping fees under contract [money/month]

    No contract.
    """
    return 0 * substrate_tipping_fee


@line(per="other_income", when={"other_income_signed": "yes", "other_income_counted_as": "cash"})
def other_income_signed_part__yes(other_income_amount):
    """Other income that is signed [money/month]

    All of it, as long as it is paid.
    """
    return other_income_amount


@line(per="other_income", when={"other_income_signed": "yes", "other_income_counted_as": NO_CASH})
def other_income_signed_part__saved(other_income_amount):
    """Other income that is signed [money/month]

    None: it is no cash income.
    """
    return 0 * other_income_amount


@line(per="other_income", when={"other_income_signed": "no"})
def other_income_signed_part__no(other_income_amount):
    """Other income that is signed [money/month]

    None.
    """
    return 0 * other_income_amount


@line()
def signed_income(
    power_income_signed,
    gas_income_signed,
    heat_income_signed,
    each_substrate_fee_signed,
    each_other_income_signed_part,
):
    """Income on signed contracts [money/month]

    Power, gas, heat, fees and other income under contract; credits and sales at market prices are left out.
    """
    return (
        power_income_signed
        + gas_income_signed
        + heat_income_signed
        + total(each_substrate_fee_signed)
        + total(each_other_income_signed_part)
    )


@line()
def cash_on_signed_contracts(cash_available_for_debt_service, cash_income, signed_income):
    """Cash for debt service on signed contracts [money/month]

    Cash available without the income nobody has signed for; costs, tax and savings stay as they are.
    """
    return cash_available_for_debt_service - (cash_income - signed_income)


@line()
def cash_with_family_paid(cash_available_for_debt_service, family_labour_at_hired_wage):
    """Cash for debt service, the family's hours paid [money/month]

    Cash available less the family's hours at the hired wage.
    """
    return cash_available_for_debt_service + family_labour_at_hired_wage
