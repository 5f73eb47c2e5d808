"""Futures, causes, bad cases and comparisons as plain mappings: what `--json` prints, the same bytes for the same seed.

Units are those of the fields, money is in the scenario's currency; a figure that does not exist is null.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

import numpy as np

from appraisal import __version__
from appraisal.appraise import Appraisal
from appraisal.present.result import SCHEMA, number
from appraisal.present.ways_words import figures_of
from appraisal.risk.alternatives import Alternative
from appraisal.risk.compare import Comparison
from appraisal.risk.draws import Settings
from appraisal.risk.grids import Grid, Sizes
from appraisal.risk.rank import Ranking
from appraisal.risk.reverse import Break
from appraisal.risk.simulate import Simulation, versions
from appraisal.risk.statistics import CONVENTION
from appraisal.risk.stress import Stressed, StressTest
from appraisal.risk.worsening import Worsening
from appraisal.scenario.load import Loaded


def _head(kind: str, loaded: Loaded) -> dict[str, Any]:
    project = loaded.scenario.project
    return {
        "schema": SCHEMA,
        "version": __version__,
        "kind": kind,
        "scenario": {"name": project.name, "currency": project.currency, "fingerprint": loaded.fingerprint},
    }


def _drawn(settings: Settings) -> dict[str, Any]:
    return {**asdict(settings), "convention": CONVENTION, "versions": dict(versions())}


def simulation(found: Simulation) -> dict[str, Any]:
    """Many futures of one scenario."""
    fan = found.fan
    return {
        **_head("simulate", found.loaded),
        "drawing": _drawn(found.settings),
        "inputs": list(found.paths),
        "inputs_without_effect": list(found.idle),
        "measures": {name: None if each is None else asdict(each) for name, each in found.spreads.items()},
        "events": [asdict(each) for each in found.events],
        "chances": {name: asdict(each) for name, each in found.chances.items()},
        "own_money": found.own_money,
        "least_cover_wanted": found.loaded.scenario.judging.least_cover,
        "by_year": {
            "draws": fan.draws,
            **{
                name: {label: _row(rows[k]) for k, label in enumerate(("p10", "p50", "p90"))}
                for name, rows in (("cash", fan.cash), ("cover", fan.cover))
            },
        },
        "settling": [asdict(each) for each in found.settling],
        "checks_failed_in": dict(found.checks),
        "bytes_kept_per_draw": found.outcomes.bytes_per_draw,
    }


def _row(values: np.ndarray[Any, np.dtype[np.float64]]) -> list[float | None]:
    return [number(float(value)) for value in values]


def ranking(found: Ranking, *, grid: Grid | None = None, sizes: Sizes | None = None) -> dict[str, Any]:
    """Causes of one scenario, and the tables asked for besides."""
    causes, shares = found.causes, found.shares
    return {
        **_head("rank", found.loaded),
        "drawing": _drawn(found.settings),
        "swings": {**asdict(found.swings), "swings": [asdict(each) for each in found.swings.swings]},
        "inputs_without_effect": list(found.idle),
        "causes": {
            path: {
                "rank": float(causes.rank[k]),
                "rank_error": number(float(causes.error[k])),
                "partial_rank": float(causes.partial[k]),
                "regression": float(causes.regression[k]),
                "share_by_itself": asdict(shares.first[k]),
                "share_with_others": asdict(shares.total[k]),
            }
            for k, path in enumerate(found.paths)
        },
        "variance": asdict(shares.variance),
        "runs_for_shares": shares.runs,
        "warning": found.warning,
        "table": None if grid is None else table(grid),
        "engine_sizes": None if sizes is None else asdict(sizes),
    }


def table(found: Grid) -> dict[str, Any]:
    """A table of two inputs."""
    return {
        "first": found.first,
        "second": found.second,
        "at_first": _row(found.at_first),
        "at_second": _row(found.at_second),
        "npv": [_row(row) for row in found.npv],
        "least_cover": [_row(row) for row in found.cover],
    }


def stress(found: StressTest, breaks: tuple[Break, ...], together: tuple[Worsening, ...]) -> dict[str, Any]:
    """Bad cases and breaks of one scenario."""
    return {
        **_head("stress", found.loaded),
        "least_cover_wanted": found.target,
        "plan": _case(found.plan),
        "cases": [_case(each) for each in found.cases],
        "breaks": [_break(each) for each in breaks],
        "together": [{**asdict(each), "values": dict(each.values)} for each in together],
    }


def _case(each: Stressed) -> dict[str, Any]:
    return {
        "name": each.case.name,
        "label": each.case.label,
        "reason": each.case.reason,
        "impossible": each.case.impossible,
        "moved": {path: {"from": before, "to": after} for path, (before, after) in each.moved.items()},
        "npv": each.npv,
        "npv_change": each.npv_change,
        "least_cover": each.least_cover,
        "lowest_cash": each.lowest_cash,
        "lowest_month": each.lowest_month,
    }


def _break(each: Break) -> dict[str, Any]:
    driver: Mapping[str, Any] = {**asdict(each.driver), "patterns": list(each.driver.patterns)}
    return {**asdict(each), "driver": driver, "tried": list(each.tried)}


def ways(found: Sequence[Alternative], appraised: Mapping[str, Appraisal]) -> dict[str, Any]:
    """The ready-made other ways: what each takes, whether it can be compared, and what is missing where it cannot.

    appraised: by name, for the figures of those that can be compared.
    """
    return {
        "schema": SCHEMA,
        "ways": [
            {
                "name": each.name,
                "label": each.label,
                "note": each.note,
                "missing": each.missing or None,
                "figures": figures_of(appraised[each.name]) if each.name in appraised else None,
            }
            for each in found
        ],
    }


def comparison(found: Comparison, others: Sequence[Alternative] = ()) -> dict[str, Any]:
    """Plans side by side, and what was taken for the ready-made ones."""
    return {
        **_head("compare", found.cases[0].loaded),
        "drawing": _drawn(found.settings),
        "discount_rate": found.rate,
        "plans": [
            {
                "name": case.loaded.scenario.project.name,
                "fingerprint": case.loaded.fingerprint,
                "months_after_the_earliest": offset,
                "npv": worth,
            }
            for case, offset, worth in zip(found.cases, found.offsets, found.npv, strict=True)
        ],
        "taken_for": {each.name: {"label": each.label, "note": each.note} for each in others},
        "against_first": [asdict(each) for each in found.against],
        "drawn": list(found.drawn),
        "lines": {
            line.name: {"label": line.label, "sums": list(line.sums), "present": list(line.present)}
            for line in found.lines
        },
    }
