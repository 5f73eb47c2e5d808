"""Debt cover: cash available over debt service by year, its least year and its average."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import numpy as np

from appraisal.measures.arrays import BoolArray, FloatArray, Measured, as_flows

NO_DEBT = 1e-9  # of the row's largest debt service: a smaller sum is rounding, not a payment
COVERED, SHORT, NO_DEBT_DUE = range(3)


class Cover(Measured):
    """Cover by year (draws, years) [1] with its status; NaN exactly where no debt is due. Words run row by row."""

    names: ClassVar[tuple[str, ...]] = ("covered", "short of debt service", "no debt due")


@dataclass(frozen=True, eq=False)
class LeastCover(Measured):
    """Least cover (draws,) [1] with its status, over the years chosen; NaN where no debt is due in any of them.

    year: (draws,) [year] position of that year counted from 1; the earlier one of two alike.
    average: (draws,) [1] plain mean over the chosen years with debt.
    """

    names: ClassVar[tuple[str, ...]] = ("covered", "short of debt service", "no debt due")

    year: FloatArray
    average: FloatArray


def dscr(cash_available: FloatArray, debt_service: FloatArray) -> Cover:
    """Debt service cover ratio of each year.

    Parameters
    ----------
    cash_available : ndarray (draws, years) [currency/year]
        Cash available for debt service, after the year's tax and overhauls; may be negative.
    debt_service : ndarray (draws, years) [currency/year]
        Interest and principal due, positive as paid.

    Returns
    -------
    Cover (draws, years) [1]
        cash_available / debt_service; "covered" from 1 up, "short of debt service" below, "no debt due" otherwise.

    Raises
    ------
    ValueError
        If the two shapes differ or a debt service is negative, and as `as_flows`.

    Notes
    -----
    Rivals: cash before tax; adding the opening bank balance; average cash over average service.
    """
    cash, due = as_flows(cash_available), as_flows(debt_service)
    if cash.shape != due.shape or (due < 0.0).any():
        raise ValueError("cash and debt service must have one shape, and debt service must not be negative")
    owed = due > NO_DEBT * due.max(axis=1, keepdims=True)
    value = np.where(owed, cash / np.where(owed, due, 1.0), np.nan)
    status = np.where(owed, np.where(cash >= due, COVERED, SHORT), NO_DEBT_DUE)
    return Cover(value, status.astype(np.int64))


def least_cover(cover: Cover, *, full_years: BoolArray) -> LeastCover:
    """Least and average cover over full operating years.

    Parameters
    ----------
    cover : Cover (draws, years) [1]
        Cover by year.
    full_years : ndarray (years,) or (draws, years) [yes or no]
        Years that count: of full operation, so that a part-year at the start is shown apart.

    Returns
    -------
    LeastCover (draws,) [1]
        min and mean of the cover over years that count and have debt, and the year of the minimum.

    Raises
    ------
    ValueError
        If the choice of years does not fit the cover.

    Notes
    -----
    Rival: sum of cash over sum of debt service, which lets a rich year speak for a poor one.
    """
    draws, years = cover.value.shape
    counted = np.broadcast_to(full_years, (draws, years)) & (cover.status != NO_DEBT_DUE)
    least, year, total = np.full(draws, np.inf), np.full(draws, np.nan), np.zeros(draws)
    number = np.zeros(draws)
    for k in range(years):
        lower = counted[:, k] & (cover.value[:, k] < least)
        least, year = np.where(lower, cover.value[:, k], least), np.where(lower, k + 1.0, year)
        total = total + np.where(counted[:, k], cover.value[:, k], 0.0)
        number += counted[:, k]
    missing = number == 0.0
    average = np.where(missing, np.nan, total / np.where(missing, 1.0, number))
    status = np.where(missing, NO_DEBT_DUE, np.where(least >= 1.0, COVERED, SHORT))
    return LeastCover(np.where(missing, np.nan, least), status.astype(np.int64), year, average)
