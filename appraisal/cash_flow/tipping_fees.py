"""Fees for feeds taken in, and the price of feeds bought."""

import numpy as np

from appraisal.lines.define import line


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_fee_per_t(
    months_fed,
    substrate_contract_years,
    months_per_year,
    rounding_tolerance,
    substrate_gate_fee_per_t,
    substrate_gate_fee_after_per_t,
    substrate_gate_fee_escalation,
    years_on,
):
    """Tipping fee per tonne [money/t]

    The fee of the contract, the fee after it, with its yearly rise; negative when the feed is bought.
    """
    over = months_fed > substrate_contract_years * months_per_year + rounding_tolerance
    fee = np.where(over, substrate_gate_fee_after_per_t, substrate_gate_fee_per_t)
    return fee * (1 + substrate_gate_fee_escalation) ** years_on


@line(per="substrate", when={"substrate_origin": "feed"}, role="cash_income")
def substrate_tipping_fee(substrate_delivered, substrate_fee_per_t):
    """Tipping fees [money/month]

    Tonnes delivered x fee; a feed that is bought shows as a negative fee.
    """
    return substrate_delivered * substrate_fee_per_t
