"""What is done with the cash of a year, in a lender's order: interest, principal, reserve, sweep, what may be taken out.

Sweep, lock-up and default are three tests of their own; default is read off the cover. Order of priorities after Yescombe,
Principles of Project Finance, section 13.5 (seen in an excerpt).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from appraisal.measures.arrays import BoolArray, FloatArray, Locked, as_flows, columns

TINY = 1e-9  # of the debt: less than this is rounding, not a debt


@dataclass(frozen=True, eq=False)
class Waterfall(Locked):
    """By year (draws, years) [currency], cover [1].

    cash = interest + principal + reserved + sweep + distributed + trapped + short.
    cover: cash over the scheduled payment, NaN without debt. reserved: put into the debt reserve, negative where it is taken
    out. sweep: extra principal. distributed: free for the family.
    trapped: held back because the cover lies under the lock-up level. short: what the cash lacks, negative.
    balance: debt at the year's end.
    """

    cover: FloatArray
    interest: FloatArray
    principal: FloatArray
    reserved: FloatArray
    sweep: FloatArray
    distributed: FloatArray
    trapped: FloatArray
    short: FloatArray
    balance: FloatArray


def waterfall(
    cash: FloatArray,
    scheduled: FloatArray,
    *,
    debt: float | FloatArray,
    rate: float | FloatArray,
    sweep_share: float | FloatArray,
    lock_up_cover: float | FloatArray,
    reserved: float | FloatArray = 0.0,
    swept: FloatArray | None = None,
) -> Waterfall:
    """Run the years of one loan through the lender's order of payments.

    Parameters
    ----------
    cash, scheduled : ndarray (draws, years) [currency/year]
        Cash available for debt service; payment of interest and principal as scheduled, also when a sweep has prepaid some.
    debt, rate : float, ndarray (draws,) or (draws, 1) [currency]; float or ndarray (1 or draws, 1 or years) [1/year]
        Owed at the start, and the interest of each year on its opening balance.
    sweep_share, lock_up_cover : float, or ndarray (draws,) [share, 1]
        Part of what is left that prepays principal; cover under which nothing may be taken out.
    reserved, swept : float or ndarray (draws, years) [currency/year]; ndarray (draws, years) [currency/year], optional
        Put into the debt reserve after debt service, negative where taken out; what a sweep has really prepaid: the payments
        given are then those after it, and the share is not asked.
    """
    flows, due = as_flows(cash), as_flows(scheduled)
    (start,) = columns(np.broadcast_to(np.ravel(debt), (flows.shape[0],)))
    rates, kept = (np.broadcast_to(np.atleast_2d(of), flows.shape) for of in (rate, reserved))
    owed, rows = start, []
    for year in range(flows.shape[1]):
        interest = owed * rates[:, year]
        payment = np.minimum(due[:, year], owed + interest)
        left = flows[:, year] - payment - kept[:, year]
        spare = np.maximum(left, 0.0)
        sweep = np.minimum(spare * sweep_share, owed + interest - payment) if swept is None else swept[:, year]
        cover = np.where(owed > TINY * start, flows[:, year] / np.where(payment > 0.0, payment, 1.0), np.nan)
        free, trapped = _taken_out(spare - sweep, locked=cover < lock_up_cover)
        owed = owed + interest - payment - sweep  # so that nothing is left, to the last bit, of a loan that is paid
        rows.append((cover, interest, payment - interest, kept[:, year], sweep, free, trapped, np.minimum(left, 0.0), owed))
    return Waterfall(*(np.stack(column, axis=1) for column in zip(*rows, strict=True)))


def _taken_out(free: FloatArray, *, locked: BoolArray) -> tuple[FloatArray, FloatArray]:
    """What may be taken out, and what stays trapped (draws,) [currency/year]; a year without debt is never locked."""
    return np.where(locked, 0.0, free), np.where(locked, free, 0.0)
