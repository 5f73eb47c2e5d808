"""Fees for feeds taken in, and the price of feeds bought."""

import numpy as np

from appraisal.lines.define import line


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_fee_per_t(
    substrate_contract_over,
    substrate_gate_fee_per_t,
    substrate_gate_fee_after_per_t,
    substrate_gate_fee_escalation,
    years_on,
):
    """Tipping fee per tonne [money/t]

    The fee of the contract, the fee after it, with its yearly rise; negative when the feed is bought.
    """
    fee = np.where(substrate_contract_over > 0, substrate_gate_fee_after_per_t, substrate_gate_fee_per_t)
    return fee * (1 + substrate_gate_fee_escalation) ** years_on


@line(per="substrate", when={"substrate_origin": "feed"}, role="cash_income")
def substrate_tipping_fee(substrate_delivered, substrate_fee_per_t):
    """Tipping fees [money/month]

    Tonnes delivered x fee, where the plant is paid to take the feed.
    """
    return substrate_delivered * np.maximum(substrate_fee_per_t, 0)


@line(per="substrate", when={"substrate_origin": "feed"}, role="running_cost")
def substrate_bought(substrate_delivered, substrate_fee_per_t):
    """Feed bought [money/month]

    Tonnes delivered x price, where the fee is negative; a fee that turns negative moves here.
    """
    return substrate_delivered * np.minimum(substrate_fee_per_t, 0)
