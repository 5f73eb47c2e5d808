"""Payback: how long until the money spent has come back, simple and discounted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from appraisal.measures.arrays import FloatArray, Measured, as_flows
from appraisal.measures.discounting import discounted

CLOSE_TO_ZERO = 1e-12  # of the row's largest flow: a running total this little below zero counts as zero
PAID, DIPPED, NEVER, NOT_SPENT = range(4)


@dataclass(frozen=True, eq=False)
class Payback(Measured):
    """Payback times (draws,) [year], counted from the first spending, with their status.

    value: first time at which the running total is back at zero; NaN for "never" and "nothing spent".
    settled: time from which it stays there to the end; NaN where it does not. It equals `value` for "paid back".
    """

    names: ClassVar[tuple[str, ...]] = ("paid back", "paid back, then below zero again", "never", "nothing spent")

    settled: FloatArray


def _payback(values: FloatArray, periods_per_year: int) -> Payback:
    """Walk through the periods of checked flows (draws, periods) [currency] and note where the total comes back."""
    draws, periods = values.shape
    floor = -CLOSE_TO_ZERO * np.abs(values).max(axis=1)
    total, start = np.zeros(draws), np.zeros(draws)
    first, latest = np.full(draws, np.nan), np.full(draws, np.nan)
    spent, back = np.zeros(draws, dtype=np.bool_), np.zeros(draws, dtype=np.bool_)
    for k in range(periods):
        flow, before = values[:, k], total
        total = before + flow
        start = np.where(spent, start, float(k))
        spent = spent | (flow < 0.0)
        now = spent & (total >= floor)
        part = np.where(flow > 0.0, np.clip(-before, 0.0, flow) / np.where(flow > 0.0, flow, 1.0), 1.0)
        moment = np.where(now & ~back, k - 1 + part - start, latest)
        first = np.where(np.isnan(first), moment, first)
        latest, back = moment, now
    status = np.where(back & (first == latest), PAID, DIPPED)
    status = np.where(np.isnan(first), np.where(spent, NEVER, NOT_SPENT), status)
    settled = np.where(back, latest, np.nan)
    return Payback(first / periods_per_year, status.astype(np.int64), settled / periods_per_year)


def simple_payback(flows: FloatArray, *, periods_per_year: int) -> Payback:
    """Time until the running total of the flows first comes back to zero, without interest.

    Parameters
    ----------
    flows : ndarray (draws, periods) [currency]
        Inflow positive, equal periods, column 0 today.
    periods_per_year : int [1/year]
        12 for months, 1 for years.

    Returns
    -------
    Payback (draws,) [year]
        (k - 1 + (-total[k-1] / flows[k]) - s) / periods_per_year, where k is the first period after the first
        spending s whose running total is not negative.

    Raises
    ------
    ValueError
        As `as_flows`.

    Notes
    -----
    The flow of a period is taken to come in evenly between the period before and its own. The clock starts at the
    first period with an outflow. Rivals: capital divided by the first year's saving; counting from the first day of
    operation; counting whole years only; the last time the total comes back, which is handed over as `settled`.
    """
    return _payback(as_flows(flows), periods_per_year)


def discounted_payback(flows: FloatArray, rate: float | FloatArray, *, periods_per_year: int) -> Payback:
    """Time until the running total of the discounted flows first comes back to zero.

    Parameters
    ----------
    flows : ndarray (draws, periods) [currency]
        Inflow positive, equal periods, column 0 today.
    rate : float, ndarray (draws,) or ndarray (draws, 1) [1/year]
        Annual effective discount rate.
    periods_per_year : int [1/year]
        12 for months, 1 for years.

    Returns
    -------
    Payback (draws,) [year]
        As `simple_payback`, of flows[k] * (1 + rate)**(-k / periods_per_year).

    Raises
    ------
    ValueError
        As `present_value`.

    Notes
    -----
    Interpolation runs along the discounted flow of the period, a straight line in present value.
    """
    return _payback(discounted(flows, rate, periods_per_year=periods_per_year), periods_per_year)
