"""Grant tables on the money: budget, who pays, match and rules, quarters."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.footing import Whole, shares, whole
from appraisal.present.grant_money import OWN, TINY, Source, Use, claims, funds, source_labels
from appraisal.present.grant_quarters import quarters
from appraisal.present.money_tables import money
from appraisal.present.numbers import counted, percent
from appraisal.present.tables import Table, units_of
from appraisal.present.words import BLANK
from appraisal.risk.material import Planned

STAGES = {"not_said": BLANK, "idea": "idea", "asked_for": "asked for", "promised": "promised", "signed": "signed"}
PRICES_AND_TAX = "price rise,\nsales tax"
CATEGORY_HEAD = ("before\ncontingency", "contingency", PRICES_AND_TAX, "cost", "eligible\ncost", "not\neligible")
ELIGIBLE_COLUMN = "eligible\ncost paid"
HOLDS = {True: "met", False: "not met"}
NO_RULE, HALF, EXACT = "none stated", 0.5, 1e-9  # what is not asked; half a unit of money; what is only rounding


def budget(found: Planned) -> Table:
    """Every use of funds by category, with what a grant may count and where the figure comes from; totals = sources."""
    appraisal, asked = found.appraisal, funds(found.appraisal)
    rows = []
    for use, cost, eligible in zip(asked.uses, asked.costs.tolist(), asked.eligible.tolist(), strict=True):
        share = percent(use.eligible / use.cost) if use.cost else ""
        rows.append((use.category, use.label, money(cost), share, money(eligible), *_known(appraisal, use.capital)))
    rows.append(("all", "", money(int(asked.costs.sum())), "", money(int(asked.eligible.sum())), "", ""))
    head = ("category", "item", "cost", "eligible\nshare", "eligible\ncost", "source", "quote of")
    return Table(f"Budget, {units_of(appraisal).currency}, contingency included", head, tuple(rows))


def _known(appraisal: Appraisal, capital: str) -> tuple[str, str]:
    """Source and date of one cost; blanks where the scenario names none."""
    if not capital:
        return "worked out from the terms of the loans", ""
    item = appraisal.loaded.scenario.capital[capital]
    aside = appraisal.loaded.scenario.source.get(f"capital.{capital}.amount")
    kind = "" if item.estimate == "not_said" else item.estimate
    parts = [kind, item.supplier, aside.origin if aside else ""]
    ends = f", holds until {item.quote_ends}" if item.quote_ends else ""
    return ", ".join(part for part in parts if part) or BLANK, ((aside.date if aside else "") or BLANK) + ends


def budget_by_category(found: Planned) -> Table:
    """The same by category: before and after contingency, and what a grant may count; it ties to the budget by line."""
    appraisal, asked = found.appraisal, funds(found.appraisal)
    by_category = dict[str, Whole]()
    for use, cost, eligible in zip(asked.uses, asked.costs.tolist(), asked.eligible.tolist(), strict=True):
        line = np.array([*_parts(appraisal, use, cost), cost, eligible, cost - eligible])
        by_category[use.category] = by_category.get(use.category, np.zeros_like(line)) + line
    table = np.array([*by_category.values(), sum(by_category.values(), np.zeros(len(CATEGORY_HEAD), dtype=np.int64))])
    kept = [place for place, head in enumerate(CATEGORY_HEAD) if head != PRICES_AND_TAX or table[:, place].any()]
    rows = tuple(
        (name, *map(money, line[kept].tolist())) for name, line in zip((*by_category, "all"), table, strict=True)
    )
    title = f"Budget by category, {units_of(appraisal).currency}"
    return Table(title, ("category", *(CATEGORY_HEAD[place] for place in kept)), rows)


def _parts(appraisal: Appraisal, use: Use, cost: int) -> tuple[int, ...]:
    """One cost before contingency, its contingency, and what prices and sales tax add; whole and footing [money]."""
    if not use.capital:
        return cost, 0, 0
    amount, share = (
        float(appraisal.values[f"capital.{use.capital}.{name}"][0, 0]) for name in ("amount", "contingency_share")
    )
    parts = np.array([amount, amount * share, use.cost - amount * (1 + share)])
    parts[np.abs(parts) < TINY] = 0.0
    return tuple(whole(parts, total=cost).tolist())


def who_pays(found: Planned) -> Table:
    """Funder by line; the columns sum to the sources."""
    asked = funds(found.appraisal)
    rows = [
        (use.label, money(cost), *(money(part) for part in parts))
        for use, cost, parts in zip(asked.uses, asked.costs.tolist(), asked.paid.tolist(), strict=True)
    ]
    rows.append(("all", money(int(asked.costs.sum())), *(money(amount) for amount in asked.amounts.tolist())))
    head = ("item", "cost", *(source.label for source in asked.sources))
    title = f"Who pays which line, {units_of(found.appraisal).currency}: grants by the cost they count, the rest alike"
    return Table(title, head, tuple(rows))


def funding_match(found: Planned) -> Table:
    """Every source with its share, how far it is and the paper that proves it."""
    asked, appraisal = funds(found.appraisal), found.appraisal
    total = int(asked.amounts.sum())
    rows = [
        (
            source.kind,
            source.label,
            _public(appraisal, source),
            money(amount),
            share,
            *_stage(appraisal, source),
        )
        for source, amount, share in zip(asked.sources, asked.amounts.tolist(), shares(asked.amounts), strict=True)
    ]
    rows.append(("all", "", "", money(total), percent(1.0) if total else "", "", ""))
    head = ("kind", "source", "money", "amount", "of all", "status", "evidence")
    return Table(f"Funding match, {units_of(appraisal).currency}", head, tuple(rows))


def _public(appraisal: Appraisal, source: Source) -> str:
    if source.kind != "grant":
        return "not public"
    grant = appraisal.loaded.scenario.grant[source.name]
    return ("public" if grant.public == "yes" else "not public") + (", in kind" if grant.in_kind == "yes" else "")


def _stage(appraisal: Appraisal, source: Source) -> tuple[str, str]:
    scenario = appraisal.loaded.scenario
    if source.kind == OWN:
        evidence = scenario.funding.own_money_evidence
        return "own", evidence or BLANK
    item = scenario.grant[source.name] if source.kind == "grant" else scenario.loan[source.name]
    return STAGES[item.status], item.evidence or BLANK


def grant_rules(found: Planned) -> Table:
    """The rules as the scenario states them, each with what the plan has, met or not."""
    appraisal = found.appraisal
    scenario, values = appraisal.loaded.scenario, appraisal.values
    eligible = float(values["eligible_cost"][0].sum())
    public = sum(_received(appraisal, name) for name, grant in scenario.grant.items() if grant.public == "yes")
    cap, worst = scenario.funding.public_share_at_most, public / eligible if eligible else 0.0
    rows: list[tuple[str, ...]] = [
        ("all public grants", "public money, over the eligible cost", f"at most {percent(cap)}", percent(worst),
         HOLDS[public <= cap * eligible + HALF + EXACT])
    ]  # fmt: skip
    other = -float(values["investment"][0].sum()) - public
    for name in scenario.grant:
        rows += _rules_of(appraisal, name, eligible=eligible, other=other)
    head = ("grant", "rule", "asked", "in this plan", "result")
    return Table(f"Rules of the grants as the scenario states them, {units_of(appraisal).currency}", head, tuple(rows))


def _rules_of(appraisal: Appraisal, name: str, *, eligible: float, other: float) -> list[tuple[str, ...]]:
    """Rules of one grant; eligible: cost that any grant may count, other: capital paid with other than public money [money]."""
    grant, values = appraisal.loaded.scenario.grant[name], appraisal.values
    label, amount = source_labels(appraisal)["grant", name], _received(appraisal, name)
    counts = float(values[f"grant.{name}.counts_from"][0].sum())
    early = eligible - counts
    start = appraisal.timeline.in_words(grant.eligible_from_month)
    part, wanted = amount / counts if counts else 0.0, grant.match_share * eligible
    ceiling = grant.at_most < type(grant).model_fields["at_most"].default
    return [
        (label, "part of the cost that it counts", f"at most {percent(grant.share_of_eligible)}", percent(part),
         HOLDS[amount <= grant.share_of_eligible * counts + HALF + EXACT]),
        (label, "largest amount", f"at most {money(grant.at_most)}" if ceiling else NO_RULE, money(amount),
         HOLDS[amount <= grant.at_most + HALF] if ceiling else ""),
        (label, "eligible cost paid before the eligible start", f"none before {start}", money(early),
         HOLDS[early < HALF]),
        (label, "match from other than public money", f"at least {money(wanted)}" if wanted else NO_RULE, money(other),
         HOLDS[other + HALF >= wanted] if wanted else ""),
        (label, "years the plant must run", counted(grant.obligation_years, "year"), _years_run(appraisal),
         HOLDS[_run(appraisal) >= grant.obligation_years]),
    ]  # fmt: skip


def _received(appraisal: Appraisal, name: str) -> int:
    """A grant as the funding match shows it [money]."""
    return int(claims(appraisal, name).sum())


def _run(appraisal: Appraisal) -> float:
    return float(appraisal.values["years_run"][0].max())


def _years_run(appraisal: Appraisal) -> str:
    return f"{_run(appraisal):.1f} years in the model"


def claims_and_cash(found: Planned) -> Table:
    """Claims and cash by quarter with the bridge loan; columns sum to budget and sources."""
    shown = quarters(found.appraisal)
    bridged = bool(shown.bridge_owed.any())
    columns = [*shown.flows.values(), shown.eligible, *([shown.bridge_owed] if bridged else [])]
    rows = [(name, *(money(column[place]) for column in columns)) for place, name in enumerate(shown.names)]
    sums = [money(int(column.sum())) for column in (*shown.flows.values(), shown.eligible)]
    rows.append(("all", *sums, *([""] if bridged else [])))
    last = "the last grant is in" if found.appraisal.loaded.scenario.grant else "all is paid"
    head = ("quarter", *shown.flows, ELIGIBLE_COLUMN, *(["bridge owed\nat its end"] if bridged else []))
    title = f"Claims and cash by quarter until {last}, {units_of(found.appraisal).currency}, inflow positive"
    return Table(title, head, tuple(rows))
