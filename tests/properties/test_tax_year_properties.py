"""A tax year that is not the project year: by the calendar, in a plain loop, over random plants."""

from __future__ import annotations

import numpy as np
import numpy.testing as npt
import pytest

from appraisal import model
from appraisal.appraise import Appraisal, appraise
from appraisal.lines.evaluate import evaluate
from appraisal.measures.checks import CHECKS
from appraisal.scenario.load import loads
from tests.money_cases import CASES, changed_demo, drawn, merged

MONTHS, DRAWS = 12, 60
OWN = ("tax.year_first_month", "tax_year_end_met")  # what is typed, and where it is found
Row = dict[str, np.ndarray]


def case_of(first: int, later: int, losses: str) -> Appraisal:
    """The case of plain loans with another tax year, whose month 0 is in April."""
    tax = {"year_first_month": first, "paid_months_after_year": later, "losses": losses, "loss_use_at_most_share": 0.8}
    return appraise(loads(changed_demo(merged(CASES["upward"], {"tax": tax})), file="tax"))


def batch_of(case: Appraisal) -> Row:
    """All lines over random plants."""
    moved = {path: array for path, array in drawn("upward", draws=DRAWS).items() if not path.startswith("tax.")}
    return evaluate(case.plan, model.inputs(case.structure, {**case.inputs, **moved}))


def by_calendar(v: Row, *, first: int, later: int, losses: str) -> tuple[list[float], np.ndarray]:
    """Tax of every tax year, and tax by month of payment: profits gathered by date, the last year to the end of the project."""
    names = ("operating_result", "overhauls_paid", "depreciation", "grants_taxed", "disposals", "basis_left_at_end")
    flows = sum(v[name] for name in (*names, "interest_cost", "fees_paid", "bridge_interest_paid"))
    flows = np.broadcast_to(flows, v["net_cash"].shape)
    calendar = v["timeline.calendar_month"].astype(int)
    last = MONTHS if first == 1 else first - 1
    ends = [month for month in range(flows.size) if calendar[month] == last]
    ends[-1] = flows.size - 1  # the last tax year runs on to the end of the project
    rate, share, pool, start = float(v["tax.rate"][0]), float(v["tax.loss_use_at_most_share"][0]), 0.0, 0
    due, paid = [], np.zeros(flows.size)
    for end in ends:
        profit = float(flows[start : end + 1].sum())
        used = min(pool, max(profit, 0.0) * share) if losses == "carried_forward" else 0.0
        pool += max(-profit, 0.0) - used
        tax = rate * (profit if losses == "used_at_once" else max(profit, 0.0) - used)
        due.append(tax)
        when = flows.size - 1 if end == flows.size - 1 else min(end + later, flows.size - 1)
        paid[when] += tax
        start = end + 1
    return due, paid


@pytest.mark.parametrize(
    ("first", "later", "losses"),
    [(1, 0, "carried_forward"), (7, 5, "carried_forward"), (5, 11, "lost"), (4, 3, "used_at_once"), (10, 8, "used_at_once")],
)
def test_tax_is_that_of_a_loop_over_the_calendar(first: int, later: int, losses: str) -> None:
    case = case_of(first, later, losses)
    v = batch_of(case)
    assert case.timeline.first_month == 4
    for draw in range(DRAWS):
        row = {name: array[draw % array.shape[0]] for name, array in v.items()}
        due, paid = by_calendar(row, first=first, later=later, losses=losses)
        size = float(row["building_cost"][0])
        npt.assert_allclose(due, -row["tax_due"], atol=1e-9 * size)
        npt.assert_allclose(paid, -np.broadcast_to(row["taxes"], paid.shape), atol=1e-9 * size)
    assert np.abs(v["taxes"]).max() > 0
    for what, _, _, of in CHECKS:
        gap, size = of(v)
        scale = np.maximum(np.abs(size).max(axis=1, keepdims=True), 1.0)
        assert (np.abs(gap) <= 1e-9 * scale).all(), what


def test_a_tax_year_that_begins_with_the_project_changes_nothing() -> None:
    plain, named = batch_of(case_of(0, 5, "carried_forward")), batch_of(case_of(4, 5, "carried_forward"))
    assert all(np.array_equal(plain[name], named[name]) for name in plain if name not in OWN)


def test_the_half_year_and_the_credit_follow_the_tax_year() -> None:
    """Month 0 is April 2027 and feeding begins in April 2028, month 12; a tax year from July ends in June, month 14."""
    changes = {
        "tax": {"year_first_month": 7, "investment_credit": "against_tax", "investment_credit_rate": 0.3},
        "capital": {"engine_set": {"depreciation_method": "declining_balance", "depreciation_rate": 0.2}},
    }
    v = appraise(loads(changed_demo(changes), file="july")).values
    used, written = v["first_feeding_in_tax_year"][0], -v["capital.engine_set.depreciation"][0]
    assert int(v["project.build_months"][0, 0]) == MONTHS
    assert used.tolist()[:3] == [0, 1, 0]
    basis = float(v["capital.engine_set.basis"][0, 0])
    assert np.flatnonzero(written)[:2].tolist() == [14, 26]
    npt.assert_allclose(written[[14, 26]], [basis * 0.1, basis * 0.9 * 0.2])
    # Paid and fed by December 2027, in the tax year that ends in January 2028.
    engine = {**changes["capital"]["engine_set"], "first_month": 0, "months": 6}
    early = {"tax": {**changes["tax"], "year_first_month": 2}, "capital": {"engine_set": engine}, "project": {"build_months": 8}}
    w = appraise(loads(changed_demo(early), file="february")).values
    assert np.flatnonzero(w["first_feeding_in_tax_year"][0]).tolist() == [0]
    assert np.flatnonzero(w["capital.engine_set.depreciation"][0])[0] == 9
