"""Grant tables on what the grant brings: economics with and without it, the smallest grant, score lines."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.grant_tables_plant import GIVEN_OUT
from appraisal.present.money_tables import money
from appraisal.present.numbers import percent, rounded
from appraisal.present.tables import Table, units_of
from appraisal.present.words import payback, rate
from appraisal.present.years import in_full_year
from appraisal.risk.least_grant import Least
from appraisal.risk.material import GrantAsked, Planned

SMALLEST_HEAD = ("target", "grant", "of eligible cost", "remark")
NO_GRANT = (("all", "", "", "the plan has no public grant, so none was searched for"),)


def economics(found: GrantAsked) -> Table:
    """The plan with and without its grants, loans and all else as they are."""
    plan, bare = found.appraisal, found.without_grants
    sides = [plan] if bare is None else [plan, bare]
    rows = (
        ("Net present value, project, after tax", *(money(float(s.headline.npv[0])) for s in sides)),
        ("Rate of return", *(rate(s.headline.irr.words[0], float(s.headline.irr.value[0])) for s in sides)),
        ("Payback", *(payback(s) for s in sides)),
        ("Least cover of debt service", *(_cover(s) for s in sides)),
        ("Own money needed for building", *(money(float(s.values["own_money_needed"][0, 0])) for s in sides)),
        ("Lowest point of the family's account", *(money(float(s.values["bank_balance"][0].min())) for s in sides)),
        ("Grants", *(money(float(s.values["grants"][0].sum())) for s in sides)),
        ("Capital", *(money(-float(s.values["investment"][0].sum())) for s in sides)),
        *((label, *(value for _ in sides)) for label, value in _basis(plan)),
    )
    head = ("measure", "as planned" if bare is None else "with the grants", *([] if bare is None else ["without them"]))
    return Table(f"Economics with and without the grants, {units_of(plan).currency}", head, rows)


def _basis(plan: Appraisal) -> tuple[tuple[str, str], ...]:
    """Rate, price basis and timing, as a programme asks for them."""
    scenario, first = plan.loaded.scenario, plan.timeline.in_words(0)
    return (
        ("Discount rate", f"{percent(scenario.judging.discount_rate)} a year, nominal"),
        ("Prices", f"nominal; those of {first} rise in steps, general inflation "
                   f"{percent(scenario.project.inflation)} a year"),
        ("Timing", f"{plan.timeline.years} project years by month; month 0 is {first} and is today"),
    )  # fmt: skip


def _cover(side: Appraisal) -> str:
    least = side.headline.dscr_min
    return f"{float(least.value[0]):.2f}" if np.isfinite(least.value[0]) else least.words[0]


def smallest_grant(found: GrantAsked) -> Table:
    """The smallest grant that reaches each target; where none does, why."""
    asked = found.least_grant
    scenario, money_of = found.loaded.scenario, units_of(found.appraisal).money
    if not asked.targets:
        return Table("The smallest grant that reaches the targets", SMALLEST_HEAD, NO_GRANT)
    label = scenario.grant[asked.grant].label or asked.grant
    wanted = {"npv": "worth at least nothing", "least_cover": f"cover at least {scenario.judging.least_cover:.2f}"}
    rows = tuple(
        (
            wanted[each.measure],
            "" if each.amount is None else money_of(each.amount),
            "" if each.share is None else percent(each.share),
            _remark(found, each),
        )
        for each in asked.targets
    )
    now = money_of(float(found.appraisal.values[f"grant.{asked.grant}.received"][0].sum()))
    title = f"The smallest grant that reaches the targets, in place of {label} ({now} planned)"
    basis = tuple((what, "", "", said) for what, said in _basis(found.appraisal))
    return Table(title, SMALLEST_HEAD, (*rows, *basis))


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
    scenario, money_of = found.loaded.scenario, units_of(found.appraisal).money
    planned = sum(loan.amount for loan in scenario.loan.values() if loan.size == "amount")
    return f"it takes the place of loans: {money_of(each.loans)} are lent instead of {money_of(planned)}"


def _capped(found: Planned, each: Least) -> str:
    """Whether public money would pass its cap, which no search lifts."""
    cap = found.loaded.scenario.funding.public_share_at_most
    return f"; over the cap on public money of {percent(cap)}" if each.share is not None and each.share > cap else ""


def score_lines(found: Planned) -> Table:
    """What a unit of grant brings, as programmes score it."""
    appraisal, units = found.appraisal, units_of(found.appraisal)
    values = appraisal.values
    grants = float(values["grants"][0].sum())
    spent = -float(values["investment"][0].sum())
    energy = sum(in_full_year(appraisal, name) for name in GIVEN_OUT)
    avoided = in_full_year(appraisal, "emissions_avoided")
    taken = in_full_year(appraisal, "tonnes_fed") - in_full_year(appraisal, "water_tonnes")
    hours = in_full_year(appraisal, "hired_hours") + in_full_year(appraisal, "family_hours")
    jobs = hours / appraisal.loaded.scenario.labour.job_hours_per_year
    thousand, per = grants / 1000, f"per 1,000 {units.currency} of grant"
    back = appraisal.money.ratios.regulatory_payback_years
    rows = [
        ("Grants over capital", percent(grants / spent) if spent else "", ""),
        (f"Other money for each {units.currency} of grant", _over(spent - grants, grants), units.currency + "/" + units.currency),
        *(
            (label, *_per_thousand(found, amount, unit, thousand))
            for label, amount, unit in (
                (f"Energy sold or used beyond the plant in a full year, {per}", energy, "kWh"),
                (f"Greenhouse gas avoided in a full year, {per}", avoided, "t CO2e"),
                (f"Manure and feeds treated in a full year, {per}", taken, "t"),
            )
        ),
        ("Grant per job", money(grants / jobs) if jobs else "no hours stated", units.currency if jobs else ""),
        (
            "Eligible cost over a year's energy and by-products",
            f"{float(back.value[0]):.1f}" if np.isfinite(back.value[0]) else back.words[0],
            "years" if np.isfinite(back.value[0]) else "",
        ),
    ]
    return Table(f"Score lines, full year {appraisal.plant.year}", ("score line", "amount", "unit"), tuple(rows))


def _over(amount: float, by: float) -> str:
    return rounded(amount / by) if by else "no grant"


def _per_thousand(found: Planned, amount: float, unit: str, thousand: float) -> tuple[str, str]:
    return units_of(found.appraisal).cells(amount / thousand, unit) if thousand else ("no grant", "")
