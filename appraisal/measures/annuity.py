"""Level payments: the payment, its schedule, and the number of payments that a given sum needs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from appraisal.measures.arrays import FloatArray, Locked, Measured, columns
from appraisal.measures.discounting import rate_vectors
from appraisal.measures.factors import annuity_factor


@dataclass(frozen=True, eq=False)
class Schedule(Locked):
    """A level-payment loan by period; every part is (draws, periods) in currency, positive as paid or owed.

    opening - principal = closing and interest + principal = payment in every period; the last closing is zero.
    """

    opening: FloatArray
    interest: FloatArray
    principal: FloatArray
    closing: FloatArray


class PaymentCount(Measured):
    """Number of payments, with its status: value in periods, NaN when the loan is never paid off."""

    names: ClassVar[tuple[str, ...]] = ("paid off", "never paid off")


def level_payment(principal: float | FloatArray, rate_per_period: float | FloatArray, *, periods: int) -> FloatArray:
    """Equal payment at the end of each period that repays a loan with interest.

    Parameters
    ----------
    principal : float, ndarray (draws,) or ndarray (draws, 1) [currency]
        Sum lent.
    rate_per_period : float, ndarray (draws,) or ndarray (draws, 1) [1/period]
        Interest of one period, for instance the quoted annual rate divided by 12.
    periods : int [count]
        Number of payments n, at least one.

    Returns
    -------
    ndarray (draws,) [currency/period]
        principal * i / (1 - (1+i)**-n), and principal / n at a rate of zero; positive as paid by the borrower.

    Raises
    ------
    ValueError
        If there is no payment, and as `rate_vectors`.
    """
    if periods < 1:
        raise ValueError(f"a loan needs at least one payment; got {periods}")
    lent, rate = columns(principal, rate_per_period)
    return lent / annuity_factor(rate, periods=periods)


def schedule(principal: float | FloatArray, rate_per_period: float | FloatArray, *, periods: int) -> Schedule:
    """Opening balance, interest, principal and closing balance of a level-payment loan.

    Parameters
    ----------
    principal : float, ndarray (draws,) or ndarray (draws, 1) [currency]
        Sum lent at the start of the first period.
    rate_per_period : float, ndarray (draws,) or ndarray (draws, 1) [1/period]
        Interest of one period, on the opening balance.
    periods : int [count]
        Number of payments n, at least one.

    Returns
    -------
    Schedule (draws, periods) [currency]
        closing[k] = payment * annuity_factor(i, n - k); interest = i * opening; principal = opening - closing.

    Raises
    ------
    ValueError
        As `level_payment`.

    Notes
    -----
    The balance is what the payments still to come are worth, so it closes at zero exactly and rounding does not grow
    with the term, as it does when the balance is rolled forward.
    """
    lent, rate = columns(principal, rate_per_period)
    payment = level_payment(lent, rate, periods=periods)
    closing = np.zeros((lent.size, periods))
    for k in range(periods - 2, -1, -1):
        closing[:, k] = (closing[:, k + 1] + payment) / (1.0 + rate)
    opening = np.empty_like(closing)
    opening[:, 0], opening[:, 1:] = lent, closing[:, :-1]
    return Schedule(opening, opening * rate[:, np.newaxis], opening - closing, closing)


def number_of_periods(
    principal: float | FloatArray, rate_per_period: float | FloatArray, *, payment: float | FloatArray
) -> PaymentCount:
    """Number of equal payments, not rounded, that repay a loan.

    Parameters
    ----------
    principal : float, ndarray (draws,) or ndarray (draws, 1) [currency]
        Sum lent, not negative.
    rate_per_period : float, ndarray (draws,) or ndarray (draws, 1) [1/period]
        Interest of one period.
    payment : float, ndarray (draws,) or ndarray (draws, 1) [currency/period]
        Payment at the end of each period, positive.

    Returns
    -------
    PaymentCount (draws,) [period]
        -ln(1 - principal * i / payment) / ln(1 + i), and principal / payment at a rate of zero; "never paid off" when
        the payment does not exceed the interest.

    Raises
    ------
    ValueError
        If the principal is negative or the payment not positive, and as `rate_vectors`.
    """
    lent, rate, paid = columns(principal, rate_per_period, payment)
    rate_vectors(rate)
    if (lent < 0.0).any() or (paid <= 0.0).any():
        raise ValueError("the principal must not be negative and the payment must be positive")
    interest_share = lent * rate / paid
    never, free = interest_share >= 1.0, rate == 0.0
    count = -np.log1p(-np.where(never, 0.0, interest_share)) / np.where(free, 1.0, np.log1p(rate))
    return PaymentCount(np.where(never, np.nan, np.where(free, lent / paid, count)), never.astype(np.int64))
