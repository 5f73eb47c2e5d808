"""What a lender's tests would do, or do: lock-up, default level and sweep, in words."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import MONTHS
from appraisal.present.numbers import counted, percent, rounded
from appraisal.present.tables import units_of
from appraisal.present.years import at_year_end


def tests(appraisal: Appraisal) -> tuple[str, ...]:
    """In how many years a lender's usual tests would lock the plant up or call it in default; nothing without a debt."""
    found, funding = appraisal.money.bank.tests, appraisal.loaded.scenario.funding
    if not np.isfinite(found.cover[0]).any():
        return ()
    cover = found.cover[0]
    low, bad = (int(np.nansum(cover < level)) for level in (funding.lock_up_cover, funding.default_cover))
    locked = f"locked up in {counted(low, 'year')} (cover under {rounded(funding.lock_up_cover)})"
    default = f"in default in {bad} (under {rounded(funding.default_cover)})"
    told = f"would have the plant {locked} and {default}"
    if low == bad == 0:
        told = f"finds cover over {rounded(max(funding.lock_up_cover, funding.default_cover))} in every full operating year"
    sweep = ""
    if funding.sweep == "prepays":
        sweep = f" {_swept(appraisal)}"
    elif funding.sweep_share > 0:
        clear = np.flatnonzero(found.balance[0] <= MONTHS * 1e-9 * max(float(found.balance[0].max()), 1.0))
        after = clear[clear >= int(bank_first(appraisal))]
        when = f"project year {int(after[0]) + 1}" if after.size else "no year"
        sweep = f" A sweep of {percent(funding.sweep_share)} would repay the loans by {when}."
    held = f" {_held_back(appraisal)}" if funding.lock_up == "held" else ""
    return (f"A lender with the usual tests {told}.{held}{sweep}",)


def _held_back(appraisal: Appraisal) -> str:
    """How much a lender holds back at most, and when it is free again."""
    account = np.broadcast_to(appraisal.values["lock_up_account"][0], (appraisal.timeline.years,))
    worst, money = int(account.argmax()), units_of(appraisal).money
    if account[worst] <= 0:
        return "These figures hold locked cash back; there is none to hold."
    free = int(np.flatnonzero(account > 0)[-1]) + 2
    return (
        f"These figures hold locked cash back: at most {money(float(account[worst]))}, at the end of project year {worst + 1}; "
        f"from project year {free} on nothing is held."
    )


def _swept(appraisal: Appraisal) -> str:
    """What the sweep prepays, and how much sooner the loans end."""
    values, funding, money = appraisal.values, appraisal.loaded.scenario.funding, units_of(appraisal).money
    prepaid = -float(values["loans_prepaid"][0].sum())
    terms = f"A sweep of {percent(funding.sweep_share)} of what debt service and reserves leave"
    if funding.sweep_keeps_amount > 0:
        terms += f" above {money(funding.sweep_keeps_amount)} kept on the account"
    if prepaid <= 0:
        return f"{terms} finds nothing to take while loans are owed."
    ends, planned = (_last_owed(appraisal, name) for name in ("loans_owed", "loans_owed_as_scheduled"))
    sooner = "no loan ends a year sooner"
    if ends < planned:
        sooner = f"the last is paid off in project year {ends} instead of {planned}"
    return (
        f"{terms} prepays {money(prepaid)}, off the last payments: {sooner}. It is in these figures; cover counts scheduled "
        "payments only."
    )


def _last_owed(appraisal: Appraisal, name: str) -> int:
    """Project year at whose end nothing is owed for the first time."""
    owed = at_year_end(appraisal, name)
    return int(np.flatnonzero(owed > 1e-9 * max(float(owed.max()), 1.0))[-1]) + 2


def bank_first(appraisal: Appraisal) -> int:
    """First project year of full operation, counted from 0."""
    return int(appraisal.money.bank.first_year[0]) - 1
