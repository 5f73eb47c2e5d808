"""Would the family switch it off? Two losing years in a row, and what that is worth against running on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from appraisal.lines.evaluate import MONTHS, year_sum
from appraisal.measures.arrays import FloatArray, IntArray, Locked
from appraisal.measures.discounting import npv

Values = Mapping[str, FloatArray]
LOSING_YEARS = 2


@dataclass(frozen=True, eq=False)
class StopRule(Locked):
    """Both answers, each (draws,): running on, and stopping at the end of the second losing year.

    year: project year at whose end it stops, from 1; 0 where it never loses two full years in a row.
    npv_running_on, npv_stopping: project, after tax, nominal [money]; owner_* the same with loans, which stay owed. Equal where
    it never stops.
    """

    year: IntArray
    npv_running_on: FloatArray
    npv_stopping: FloatArray
    owner_running_on: FloatArray
    owner_stopping: FloatArray


def stop_rule(values: Values) -> StopRule:
    """Find the second losing year and value both answers.

    values: lines by full name. A year loses when result less overhauls is below zero in a full operating year. Stopping drops
    all cash after that year but removal, resale, and grants, credit and penalties to pay back; the owner settles the loans at
    once besides. Tax due after the stop, and what a sale or a write-off then moves of it, are left out.
    """
    result = year_sum(values["operating_result"]) + year_sum(values["overhauls_paid"])
    losing = (result < 0.0) & (values["full_year"] > 0.0)
    pairs = losing[:, 1:] & losing[:, :-1]
    year = np.where(pairs.any(axis=1), np.argmax(pairs, axis=1) + LOSING_YEARS, 0)
    rate, cash, own = values["judging.discount_rate"], values["project_cash"], values["net_cash"]
    stops = year > 0
    left, owed = _left(values), values["owed_if_stopped"]
    stopped, own_stopped = (
        np.where(stops, npv(_until(flows, year, last), rate), npv(flows, rate))
        for flows, last in ((cash, left), (own, -owed))
    )
    return StopRule(year.astype(np.int64), npv(cash, rate), stopped, npv(own, rate), own_stopped)


def _left(values: Values) -> FloatArray:
    """Resale less removal and what must be paid back at each year's end (draws, years) [money]."""
    names = [name for name in values if name.startswith("capital.")]
    sold = sum(values[name] for name in names if name.endswith(".sold_if_stopped"))
    removed = sum(values[name] for name in names if name.endswith(".removed_if_stopped"))
    return np.atleast_2d(np.asarray(sold - removed - values["paid_back_if_stopped"], dtype=np.float64))


def _until(flows: FloatArray, year: IntArray, last: FloatArray) -> FloatArray:
    """Flows up to the end of a project year, with a last sum in its last month; nothing after."""
    draws = max(flows.shape[0], year.shape[0], last.shape[0])
    month = np.arange(flows.shape[1])
    ends = np.broadcast_to(year, (draws,))[:, None] * MONTHS
    kept = np.where(month < ends, flows, 0.0)
    years = np.broadcast_to(last, (draws, last.shape[1] if last.shape[1] > 1 else flows.shape[1] // MONTHS))
    sums = np.repeat(years, MONTHS, axis=1)
    return np.ascontiguousarray(kept + np.where(month == ends - 1, sums, 0.0))
