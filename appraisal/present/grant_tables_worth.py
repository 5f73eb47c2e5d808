"""Grant tables on what the grant brings: economics with and without it, and the smallest grant."""

from __future__ import annotations

from math import ceil

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.grant_money import claims, funds, source_labels
from appraisal.present.money_tables import money
from appraisal.present.numbers import percent
from appraisal.present.tables import Table, units_of
from appraisal.present.words import NO_RETURN
from appraisal.risk.least_grant import Least
from appraisal.risk.material import GrantAsked, Planned

SMALLEST = "The smallest grant that reaches the targets"
NO_GRANT = (("all", "", "", "", "the plan has no public grant, so none was searched for", ""),)
Sides = list[Appraisal]
Row = tuple[str, ...]


def economics(found: GrantAsked) -> Table:
    """The plan with and without its grants, loans and all else as they are; every number with its unit and basis."""
    plan, bare = found.appraisal, found.without_grants
    sides = [plan] if bare is None else [plan, bare]
    currency = units_of(plan).currency
    project, taxed = "project before loans, after tax", f"{_rate(plan)}; {_prices(plan)}; {_timing(plan)}"
    rows = (
        _line("Net present value", sides, [float(s.headline.npv[0]) for s in sides], currency, f"{project}; {taxed}"),
        ("Rate of return", *map(_return, sides), *_change(sides, ""), "a year", f"{project}; nominal{_doubt(sides)}"),
        _payback_line(sides, project),
        _cover_line(sides),
        *(
            _line(label, sides, [amount(side) for side in sides], currency, basis)
            for label, amount, basis in (
                ("Own money needed for building", _own_money, "uses of funds less grants and loans; nominal"),
                (
                    "Lowest point of the account",
                    _lowest,
                    "the account by month, from nothing at the start; nominal",
                ),
                ("Grants", grants_of, "sum of what is received; nominal"),
                ("Capital", capital_of, "contingency included; nominal"),
            )
        ),
    )
    two = ("as planned",) if bare is None else ("with the\ngrants", "without\nthem", "change")
    title = "Economics; the plan has no grant" if bare is None else "Economics with and without the grants"
    return Table(f"{title}, {currency}", ("measure", *two, "unit", "basis"), rows)


def _line(label: str, sides: Sides, amounts: list[float], unit: str, basis: str) -> Row:
    """A row of whole money, with what the grants change of it as shown."""
    shown = [round(amount) for amount in amounts]
    return (label, *map(money, shown), *_change(sides, money(shown[0] - shown[-1])), unit, basis)


def _change(sides: Sides, text: str) -> tuple[str, ...]:
    return (text,) if len(sides) > 1 else ()


def _rate(plan: Appraisal) -> str:
    return f"{percent(plan.loaded.scenario.judging.discount_rate)} a year, nominal"


def _prices(plan: Appraisal) -> str:
    inflation = percent(plan.loaded.scenario.project.inflation)
    return f"prices of {plan.timeline.in_words(0)}, which rise in steps (general inflation {inflation} a year)"


def _timing(plan: Appraisal) -> str:
    return f"{plan.timeline.years} project years by month, month 0 is {plan.timeline.in_words(0)} and is today"


def _return(side: Appraisal) -> str:
    found = side.headline.irr
    value = float(found.value[0])
    return "none" if found.words[0] == "none" or value < NO_RETURN else percent(value)


def _doubt(sides: Sides) -> str:
    """What must be said beside a rate of return."""
    several = any(side.headline.irr.words[0] == "several" for side in sides)
    return "; more than one rate fits, trust the net present value" if several else ""


def _payback_line(sides: Sides, project: str) -> Row:
    found = [side.headline.payback_years for side in sides]
    cells = ["never" if back.words[0] == "never" else f"{float(back.value[0]):.1f}" for back in found]
    falls = any(back.words[0].endswith("again") for back in found)
    basis = f"from the first spending, not discounted; {project}" + ("; later falls below zero again" if falls else "")
    return ("Payback", *cells, *_change(sides, _difference(cells, 1)), "years", basis)


def _cover_line(sides: Sides) -> Row:
    cells = [_cover(side) for side in sides]
    basis = "cash after tax over debt service, least full operating year; loans as planned"
    return ("Least cover of debt service", *cells, *_change(sides, _difference(cells, 2)), "times", basis)


def _cover(side: Appraisal) -> str:
    least = side.headline.dscr_min
    return f"{float(least.value[0]):.2f}" if np.isfinite(least.value[0]) else least.words[0]


def _difference(cells: list[str], places: int) -> str:
    """The first less the last as shown, empty where one is no number."""
    try:
        return f"{float(cells[0]) - float(cells[-1]):z.{places}f}"
    except ValueError:
        return ""


def _own_money(side: Appraisal) -> float:
    return float(funds(side).amounts[-1])


def _lowest(side: Appraisal) -> float:
    return float(side.values["bank_balance"][0].min())


def grants_of(side: Appraisal) -> float:
    """All grants as the funding match shows them [money]."""
    asked = funds(side)
    pairs = zip(asked.sources, asked.amounts.tolist(), strict=True)
    return float(sum(amount for source, amount in pairs if source.kind == "grant"))


def capital_of(side: Appraisal) -> float:
    """All capital as the budget shows it [money]."""
    asked = funds(side)
    return float(sum(cost for use, cost in zip(asked.uses, asked.costs.tolist(), strict=True) if use.capital))


def smallest_grant(found: GrantAsked) -> Table:
    """The smallest grant that reaches each target, in whole money that still does; where none does, why."""
    asked, currency = found.least_grant, units_of(found.appraisal).currency
    scenario = found.loaded.scenario
    head = ("target", f"smallest\ngrant, {currency}", "of eligible\ncost", f"loans beside\nit, {currency}", "remark",
            "rate, prices, timing")  # fmt: skip
    if not asked.targets:
        return Table(SMALLEST, head, NO_GRANT)
    plan = found.appraisal
    basis = {
        "npv": f"{_rate(plan)}; {_prices(plan)}; {_timing(plan)}",
        "least_cover": f"cash after tax over debt service of the least full operating year, nominal; {_prices(plan)}",
    }
    wanted = {"npv": "worth at least nothing", "least_cover": f"cover at least {scenario.judging.least_cover:.2f}"}
    rows = tuple(
        (
            wanted[each.measure],
            "" if each.amount is None else money(ceil(each.amount)),
            "" if each.share is None else percent(each.share),
            money(_lent(plan) if each.loans is None else each.loans),
            _remark(found, each),
            basis[each.measure],
        )
        for each in asked.targets
    )
    label, now = source_labels(plan)["grant", asked.grant], money(float(claims(plan, asked.grant).sum()))
    return Table(f"{SMALLEST}, in place of {label} ({now} {currency} planned)", head, rows)


def _lent(plan: Appraisal) -> float:
    return sum(float(plan.values[f"loan.{name}.sum"][0, 0]) for name in plan.loaded.scenario.loan)


def _remark(found: Planned, each: Least) -> str:
    if each.status == "found":
        return f"found by search in the whole model; {_beside(found, each)}{_capped(found, each)}"
    if each.status == "none needed":
        return "reached without it"
    if each.status == "not asked":
        return "no loan falls due"
    if each.measure == "least_cover" and each.loans is None:
        return "no grant reaches it while the loans stay as they are: a grant saves own money, not debt service"
    return "not even a grant of all eligible cost reaches it"


def _beside(found: Planned, each: Least) -> str:
    """What stands beside the smallest grant."""
    if each.loans is None:
        return "all else as planned"
    planned = sum(loan.amount for loan in found.loaded.scenario.loan.values() if loan.size == "amount")
    more = "it takes the place of loans" if each.loans < planned else "loans make up for it"
    return f"{more}, of which {money(planned)} are planned; own money as planned"


def _capped(found: Planned, each: Least) -> str:
    """Whether public money would pass its cap, which no search lifts."""
    cap = found.loaded.scenario.funding.public_share_at_most
    return f"; over the cap on public money of {percent(cap)}" if each.share is not None and each.share > cap else ""
