"""Ratios of present values that laws and handbooks define in their own ways: each says what stands above the line."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from appraisal.measures.arrays import FloatArray, Locked, columns
from appraisal.measures.discounting import Timing, npv
from appraisal.measures.unit_cost import Ratio, ratio_of


def modified_benefit_cost_ratio(
    benefits: FloatArray,
    running_costs: FloatArray,
    capital: FloatArray,
    *,
    rate: float | FloatArray,
    timing: Timing = "dated months",
) -> Ratio:
    """Present value of benefits less running costs, over that of the capital.

    Parameters
    ----------
    benefits, running_costs, capital : ndarray (draws, periods) [currency]
        All positive as gained or spent.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective rate.
    timing : str [name]
        Convention of `npv`.

    Returns
    -------
    Ratio (draws,) [1]
        (PV(benefits) - PV(running costs)) / PV(capital); above 1 exactly when the NPV is above zero.

    Notes
    -----
    Rival: `benefit_cost_ratio`, every cost below the line, nearer to 1 on the same side. Say which is shown.
    """
    gained, run, spent = (npv(flows, rate, timing=timing) for flows in (benefits, running_costs, capital))
    return ratio_of(gained - run, spent)


@dataclass(frozen=True, eq=False)
class SavingsRatio(Locked):
    """Savings against investment (draws,): net savings [currency], SIR [1] with its status, AIRR [1/year] (NaN with it)."""

    net_savings: FloatArray
    sir: Ratio
    airr: FloatArray


def savings_to_investment(
    savings: float | FloatArray, investment: float | FloatArray, *, rate: float | FloatArray, years: float
) -> SavingsRatio:
    """Savings-to-investment ratio, net savings and adjusted internal rate of return.

    Parameters
    ----------
    savings : float, ndarray (draws,) or ndarray (draws, 1) [currency]
        Present value of what running saves or brings, running costs taken off.
    investment : float, ndarray (draws,) or ndarray (draws, 1) [currency]
        Present value of capital and replacements less what is left at the end; grants taken off.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective discount rate d.
    years : float [year]
        Study period N.

    Returns
    -------
    SavingsRatio (draws,)
        net savings = savings - investment, SIR = savings / investment, AIRR = (1 + d) * SIR**(1/N) - 1.

    Notes
    -----
    Replacements and residual value stand below the line [1]_. SIR > 1, net savings > 0 and AIRR > d say the same.

    References
    ----------
    .. [1] 10 CFR 436.20 to 436.22; NIST Handbook 135 (definitions seen).
    """
    saved, spent, discount = columns(savings, investment, rate)
    sir = ratio_of(saved, spent)
    base = np.where(sir.value > 0.0, sir.value, np.nan)
    return SavingsRatio(saved - spent, sir, (1.0 + discount) * base ** (1.0 / years) - 1.0)


def regulatory_payback(eligible_cost: float | FloatArray, yearly_value: float | FloatArray) -> Ratio:
    """Simple payback as public programmes define it.

    Parameters
    ----------
    eligible_cost : float, ndarray (draws,) or ndarray (draws, 1) [currency]
        Eligible project cost, before any grant.
    yearly_value : float, ndarray (draws,) or ndarray (draws, 1) [currency/year]
        Energy sold or replaced and by-products in a full year, without credits, before running costs, tax and loans.

    Returns
    -------
    Ratio (draws,) [year]
        eligible cost / yearly value; nothing to divide by when the yearly value is not above zero.

    Notes
    -----
    Own definition after the usual wording of farm-energy programmes (from memory): total eligible cost over the dollar
    value of energy and by-products of a year. Programmes differ: ask yours. Rival: `simple_payback`, on dated cash.
    """
    cost, value = columns(eligible_cost, yearly_value)
    return ratio_of(cost, value)
