"""Every operating limit can be reached: one input is moved across each edge of each band, and the finding changes there."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import pytest

from appraisal.scenario.reference import row, rows
from tests.limit_cases import CASES, ORDER, OUT_OF_REACH, Case, found, grade

# Rows that no check of this part reads, and why.
ELSEWHERE: Mapping[str, str] = {
    "olr_straw_manure_plug_flow": "shown by `reference`: dry plug flows are judged as plug flows",
    "h2s_engine_catalyst": "no scenario says whether there is a catalyst",
    "h2s_grid": "the grid owner's limit belongs to the gas contract",
    "temperature_change": "seen at a running plant only",
    "ph": "default of the pH range of free ammonia",
    "fos_tac": "seen at a running plant only",
    "capacity_factor": "reconcile.py, against the figures of the energy reconciliation",
    "storage_months": "store and land",
    "manure_n_per_ha": "store and land",
}
BANDS = ("comfortable", "warn", "stop_and_ask")
SEVERITY = {"comfortable": "note", "warn": "warning", "stop_and_ask": "stop and ask"}


def edges() -> Iterator[tuple[Case, str, str]]:
    for case in CASES:
        for side in ("low", "high"):
            for band in BANDS:
                name = f"{band}_{side}"
                if row("digester_limits", case.limit)[name] and (case.limit, name) not in OUT_OF_REACH:
                    yield case, band, side


@pytest.mark.parametrize(
    ("case", "band", "side"), [pytest.param(c, b, s, id=f"{c.limit}-{b}-{s}") for c, b, s in edges()]
)
def test_one_input_moved_across_an_edge_changes_the_finding(case: Case, band: str, side: str) -> None:
    """Halve the span of the input until it is narrow; on its two ends the finding differs, and the figures enclose the edge."""
    wanted = ORDER.index(SEVERITY[band])
    ends = [case.low, case.high]
    beyond = [grade(case, end, side) >= wanted for end in ends]
    assert beyond in ([True, False], [False, True]), [found(case, end) for end in ends]
    inside, outside = ends if beyond[1] else reversed(ends)
    for _ in range(14):
        middle = (inside + outside) / 2
        inside, outside = (inside, middle) if grade(case, middle, side) >= wanted else (middle, outside)
    just_outside, just_inside = found(case, outside), found(case, inside)
    edge = float(row("digester_limits", case.limit)[f"{band}_{side}"])
    assert just_outside is not None and just_outside.value is not None
    assert just_outside.value == pytest.approx(edge, rel=0.02)
    assert (just_outside.value > edge) == (side == "high")
    assert just_inside is None or just_inside.severity != just_outside.severity
    meaning = row("digester_limits", case.limit)["below_means" if side == "low" else "above_means"]
    assert just_outside.what.endswith(meaning) and just_outside.source and just_outside.limit == edge


def test_every_row_of_the_table_has_a_case_or_a_reason() -> None:
    assert {case.limit for case in CASES} | set(ELSEWHERE) == {each["id"] for each in rows("digester_limits")}
    assert not {case.limit for case in CASES} & set(ELSEWHERE)


@pytest.mark.parametrize(("limit", "edge"), OUT_OF_REACH)
def test_edges_out_of_reach_are_out_of_reach(limit: str, edge: str) -> None:
    """At the end of what the loader takes no finding passes the edge, so the reason above holds."""
    case = next(case for case in CASES if case.limit == limit)
    band, side = edge.rsplit("_", 1)
    assert all(grade(case, end, side) < ORDER.index(SEVERITY[band]) for end in (case.low, case.high))
