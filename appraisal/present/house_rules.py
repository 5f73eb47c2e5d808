"""The family's own rules held against the plan: what was wanted, what came out, kept or broken."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.measures import worst_months
from appraisal.present.numbers import times
from appraisal.present.risk_words import of_futures
from appraisal.present.tables import Table, units_of
from appraisal.risk.simulate import Simulation

HALF = 0.5  # money: less than this is shown as nothing
KEPT, BROKEN, NOT_ASKED = "kept", "broken", "not asked yet"


@dataclass(frozen=True)
class Rule:
    """One house rule: its path in the scenario, what is wanted and what came out in words, and whether it is kept.

    kept: None where it was not asked yet. short: the rule in a few words, for a sentence.
    """

    path: str
    short: str
    wanted: str
    found: str
    kept: bool | None

    @property
    def state(self) -> str:
        """Kept, broken or not asked yet."""
        return NOT_ASKED if self.kept is None else KEPT if self.kept else BROKEN


def rules(appraisal: Appraisal, simulation: Simulation | None) -> tuple[Rule, ...]:
    """Every house rule held against the plan; simulation: None where the futures were not asked yet."""
    made = (
        _cover(appraisal),
        _chance(appraisal, simulation),
        _payback(appraisal),
        _month(appraisal),
        _own_money(appraisal),
    )
    return tuple(rule for rule in made if rule is not None)


def rules_table(found: tuple[Rule, ...]) -> Table:
    """The rules as a table."""
    rows = tuple((rule.short, rule.wanted, rule.found, rule.state) for rule in found)
    return Table("Your house rules and what came out", ("rule", "wanted", "on these figures", ""), rows)


def _cover(appraisal: Appraisal) -> Rule | None:
    least, wanted = appraisal.headline.dscr_min, appraisal.loaded.scenario.judging.least_cover
    path, short = "judging.least_cover", "cash over what falls due on the loan"
    if least.words[0] == "no debt due":
        return None
    value = float(least.value[0])
    found = f"{times(value, wanted)} times in project year {int(least.year[0])}, the worst full year"
    return Rule(path, short, f"at least {wanted:.2f} times", found, value >= wanted)


def _chance(appraisal: Appraisal, simulation: Simulation | None) -> Rule:
    wanted = appraisal.loaded.scenario.judging.least_chance_share
    path, short, text = (
        "judging.least_chance_share",
        "how often it loses money",
        f"in at most {(1 - wanted) * 100:.3g} of 100 futures",
    )
    if simulation is None:
        return Rule(path, short, text, "the futures were not worked out yet", None)
    losing = simulation.chances["npv_below_zero"].value
    found = f"in {of_futures(losing)} ({simulation.settings.draws:,} were worked out)"
    return Rule(path, short, text, found, 1 - losing >= wanted)


def _payback(appraisal: Appraisal) -> Rule:
    wanted, back = appraisal.loaded.scenario.judging.longest_payback_years, appraisal.headline.payback_years
    first, settled = float(back.value[0]), float(back.settled[0])
    path, short = "judging.longest_payback_years", "time until the money is back for good"
    if not np.isfinite(settled):
        found = f"not within {appraisal.timeline.years} years"
        return Rule(path, short, f"at most {wanted:g} years", found, kept=False)
    found = f"{settled:.1f} years" + (f" (a first time after {first:.1f})" if first < settled else "")
    return Rule(path, short, f"at most {wanted:g} years", found, settled <= wanted)


def _month(appraisal: Appraisal) -> Rule | None:
    worst = worst_months.of_account(appraisal.values)
    if worst.month < 0:
        return None
    wanted, money = appraisal.loaded.scenario.judging.least_month_cash_amount, units_of(appraisal).money
    name, cash = appraisal.timeline.in_words(worst.month), worst.cash
    path, short = "judging.least_month_cash_amount", "the worst month once it runs"
    found = f"{name} {'leaves' if cash >= 0 else 'costs'} {money(abs(cash))}"
    if wanted:
        said = f"leaves {money(wanted)} or more" if wanted > 0 else f"costs {money(-wanted)} at most"
        return Rule(path, short, said, found, cash >= wanted)
    rise, year = worst_months.earned_in_full(appraisal.values)[0], int(appraisal.values["first_full_year"][0, 0])
    least = float(worst_months.least_in_full(appraisal.values)[0])
    said = "from the first full year on the family never has to pay in again"
    if not np.isfinite(least):
        return None
    if least < -HALF:
        fall = f"by {appraisal.timeline.in_words(int(np.nanargmin(rise)))} the account is {money(-least)} lower"
        return Rule(path, short, said, f"{found}; {fall} than when project year {year} began", kept=False)
    earned = f"; the plant itself has earned that since project year {year} began" if rise[worst.month] > 0 > cash else ""
    return Rule(path, short, said, found + earned, kept=True)


def _own_money(appraisal: Appraisal) -> Rule | None:
    """A rule only where the family has said how much it can put in."""
    wanted = appraisal.loaded.scenario.judging.own_money_amount
    if wanted <= 0:
        return None
    balance, money = appraisal.values["bank_balance"][0], units_of(appraisal).money
    lowest = int(balance.argmin())
    need = max(-float(balance[lowest]), 0.0)
    found = f"{money(need)} in {appraisal.timeline.in_words(lowest)}" if need else "none is needed"
    return Rule("judging.own_money_amount", "the family's own money", f"at most {money(wanted)}", found, need <= wanted)
