"""Loans, depreciation, tax, reserves, cover and statements against published figures and rules (finance_money.json).

Records that only state a rule say so in their basis.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from appraisal.measures.uplift import mixed_uplift
from tests.published.money_figures import Values
from tests.published.money_in_time import (
    farm,
    federal_savings,
    invested_and_returned,
    order_of_payments,
    reserve_targets,
    timing_of_sales_tax,
    two_ratios,
)
from tests.published.money_of_loans import building_interest, grace, level_cover, sculpted, two_cases, two_repayments
from tests.published.money_of_tax import (
    credit_and_basis,
    grant_in_books,
    grant_netted,
    losses,
    part_year,
    pool,
    seven_years,
    shield,
    tables,
)
from tests.published.test_finance_published import leaves, tolerance

FILE = Path(__file__).parent / "finance_money.json"
RECORDS: dict[str, dict[str, Any]] = {record["id"]: record for record in json.loads(FILE.read_text("utf-8"))}


CASES: dict[str, Callable[[Values], Values]] = {
    "FO-13": two_repayments,
    "FO-14": grace,
    "FO-15": building_interest,
    "FO-17": federal_savings,
    "FO-19": two_ratios,
    "FO-25": tables,
    "FO-26": seven_years,
    "FO-27": part_year,
    "FO-28": pool,
    "FO-29": shield,
    "FO-30": credit_and_basis,
    "FO-31": grant_netted,
    "FO-32": losses,
    "FO-33": grant_in_books,
    "FO-34": sculpted,
    "FO-35": level_cover,
    "FO-36": two_cases,
    "FO-37": reserve_targets,
    "FO-38": farm,
    "FO-39": order_of_payments,
    "FO-40": lambda i: {
        "capex_uplift_pct": mixed_uplift(i["share_nonstandard"], tuple(i["capex_upper"])),
        "duration_uplift_pct": mixed_uplift(i["share_nonstandard"], tuple(i["duration_upper"])),
    },
    "FO-60": invested_and_returned,
    "FO-61": timing_of_sales_tax,
}


def allowed(record: Values, path: tuple[str, ...]) -> float:
    """Absolute tolerance of one figure; a record that gives none for a count or a rounded rate wants it exactly."""
    stated = path[-1] in record["tolerance"] or path[0] in record["tolerance"] or "default" in record["tolerance"]
    return tolerance(record, path) if stated else 0.0


def test_every_record_has_its_case() -> None:
    assert set(RECORDS) == set(CASES)


@pytest.mark.parametrize("name", sorted(CASES))
def test_published_figure(name: str) -> None:
    record = RECORDS[name]
    ours, theirs = dict(leaves(CASES[name](record["inputs"]))), dict(leaves(record["expected"]))
    about = f"{record['topic']}; source: {record['source']}; known: {record['basis']}"
    assert set(ours) == set(theirs), about
    for path, figure in theirs.items():
        assert ours[path] == pytest.approx(figure, abs=allowed(record, path), rel=0.0), f"{path}: {about}"
