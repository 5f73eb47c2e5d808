"""The worst months and the years that cost the family money, in words."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import year_sum
from appraisal.measures.worst_months import Cause, WorstMonth, account_cash, full_months, of_account, of_running
from appraisal.present.tables import units_of

ONE = ("debt service", "tax")  # of the causes, those in the singular


def worst_month(appraisal: Appraisal) -> str:
    """The month of full operation in which the account loses most, why, and what is put by beside it."""
    worst = of_account(appraisal.values)
    if worst.month < 0:
        return "There is no year of full operation."
    aside = -worst.set_aside
    kept = f" {units_of(appraisal).money(aside)} put by in that month stay yours and are not counted." if aside >= 0.5 else ""
    return f"Once it runs, the account's worst month is {_told(appraisal, worst)}.{kept}"


def worst_running(appraisal: Appraisal) -> tuple[str, ...]:
    """The worst month of running alone; nothing where it is the same month for the same cause."""
    worst, account = of_running(appraisal.values), of_account(appraisal.values)
    if worst.month < 0 or (worst.month == account.month and _names(worst) == _names(account)):
        return ()
    return (f"Before loan, tax and reserves, running it is worst in {_told(appraisal, worst)}.",)


def _names(worst: WorstMonth) -> tuple[str, ...]:
    return tuple(each.what for each in worst.causes)


def _told(appraisal: Appraisal, worst: WorstMonth) -> str:
    word, money = "costs" if worst.cash < 0 else "leaves only", units_of(appraisal).money
    causes = "; ".join(_cause(appraisal, each) for each in worst.causes)
    told = f"{appraisal.timeline.in_words(worst.month)}, which {word} {money(abs(worst.cash))}"
    return told + (f": {causes}" if causes else "")


def _cause(appraisal: Appraisal, cause: Cause) -> str:
    money = units_of(appraisal).money
    if cause.kind == "falls_due" and cause.amount < 0:
        verb = "takes" if cause.what in ONE else "take"
        return f"{cause.what} {verb} {money(-cause.amount)}"
    return f"{cause.what} are {money(abs(cause.amount))} instead of {money(abs(cause.ordinary))} in an ordinary month"


def short_years(appraisal: Appraisal) -> tuple[str, ...]:
    """Years once it runs, closed ones too, in which the family pays in, loan and tax counted; nothing where there is none."""
    values = appraisal.values
    cash = year_sum(account_cash(values)[None, :])[0]
    full = year_sum(full_months(values)[None, :].astype(np.float64))[0] > 0
    short = np.flatnonzero(full & (cash < -0.5))
    if not short.size:
        return ()
    first, paid = f"project year {short[0] + 1}", units_of(appraisal).money(float(-cash[short].sum()))
    years = f"in {first}" if short.size == 1 else f"in {short.size} years once it runs ({first} is the first)"
    return (f"Loan and tax counted, {years} more goes out than comes in: {paid} in all.",)
