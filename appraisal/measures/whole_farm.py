"""The whole farm's capacity to repay, with and without the plant: what a farm lender looks at beside the project."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from appraisal.measures.arrays import FloatArray, Locked
from appraisal.measures.unit_cost import Ratio, ratio_of


@dataclass(frozen=True)
class FarmYear:
    """A year of accounts, each (draws,) or a number [currency/year], all positive as earned or paid.

    net_income: accrual, after depreciation and interest. off_farm_income, depreciation, interest, living, tax, principal.
    """

    net_income: float | FloatArray
    off_farm_income: float | FloatArray
    depreciation: float | FloatArray
    interest: float | FloatArray
    living: float | FloatArray
    tax: float | FloatArray
    principal: float | FloatArray


@dataclass(frozen=True, eq=False)
class Capacity(Locked):
    """Repayment capacity and margin (draws,) [currency/year], and term debt coverage (draws,) [1] with its status."""

    capacity: FloatArray
    margin: FloatArray
    coverage: Ratio


def repayment_capacity(year: FarmYear) -> Capacity:
    """Capital debt repayment capacity, its margin, and term debt coverage.

    Parameters
    ----------
    year : FarmYear [currency/year]
        Accounts of one year.

    Returns
    -------
    Capacity (draws,)
        capacity = net income + off-farm income + depreciation + interest - living - tax; margin = capacity - (principal +
        interest); coverage = capacity / (principal + interest).

    Notes
    -----
    Family living and taxes come off before the ratio [1]_.

    References
    ----------
    .. [1] Langemeier, Purdue Center for Commercial Agriculture (2020), after the Farm Financial Standards Council
       (definitions seen).
    """
    earned = year.net_income + year.off_farm_income + year.depreciation + year.interest
    capacity = np.atleast_1d(np.asarray(earned - year.living - year.tax, dtype=np.float64))
    due = np.broadcast_to(np.asarray(year.principal + year.interest, dtype=np.float64), capacity.shape)
    return Capacity(capacity, capacity - due, ratio_of(capacity, due))
