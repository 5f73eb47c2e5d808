"""Budget and grants for the grant office: what is paid for, what a grant may count, what each grant comes to and when."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.money_tables import Row, money
from appraisal.present.numbers import percent
from appraisal.present.tables import Table, units_of


def budget_table(appraisal: Appraisal) -> Table:
    """Budget by category: cost with contingency, what a grant may count, how it is known."""
    scenario, values = appraisal.loaded.scenario, appraisal.values
    rows: list[Row] = []
    for name, item in scenario.capital.items():
        cost, eligible = (float(values[f"capital.{name}.{line}"][0].sum()) for line in ("spend", "eligible"))
        known = item.estimate.replace("_", " ")
        rows.append((item.category, item.label or name, money(-cost), money(eligible), known, item.supplier))
    rows.sort(key=lambda row: row[0])
    spent, counted = -float(values["investment"][0].sum()), float(values["eligible_cost"][0].sum())
    rows.append(("all", "", money(spent), money(counted), "", ""))
    head = ("category", "item", "cost with contingency", "a grant may count", "estimate", "supplier")
    return Table(f"Budget, {units_of(appraisal).currency}", head, tuple(rows))


def grants_table(appraisal: Appraisal) -> Table:
    """Each grant: what it is of the eligible cost, what it comes to, when it is paid."""
    scenario, values, counted = (
        appraisal.loaded.scenario,
        appraisal.values,
        float(appraisal.values["eligible_cost"][0].sum()),
    )
    rows = []
    for name, grant in scenario.grant.items():
        paid = values[f"grant.{name}.received"][0]
        months = [appraisal.timeline.name(int(month)) for month in np.flatnonzero(paid > 0)]
        share = percent(float(paid.sum()) / counted) if counted else ""
        kind = ("public" if grant.public == "yes" else "not public") + (", in kind" if grant.in_kind == "yes" else "")
        rows.append((grant.label or name, kind, money(float(paid.sum())), share, ", ".join(months)))
    head = ("grant", "kind", "amount", "of eligible cost", "paid in")
    return Table(f"Grants, {units_of(appraisal).currency}", head, tuple(rows))
