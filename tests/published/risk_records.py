"""Records of `risk.json` with source, how each is known and tolerance, and how a figure or a sample is held to them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from scipy.special import ndtri

from appraisal.risk.points import Method, points
from appraisal.risk.statistics import (
    Estimate,
)

RECORDS: dict[str, dict[str, Any]] = {
    record["id"]: record for record in json.loads((Path(__file__).parent / "risk.json").read_text("utf-8"))
}
Array = np.ndarray
DRAWS = 16_384


def facts(name: str) -> tuple[dict[str, Any], dict[str, Any]]:
    return RECORDS[name]["inputs"], RECORDS[name]["expected"]


def close(name: str, key: str, ours: Any, theirs: Any = None) -> None:
    record = RECORDS[name]
    allowed = record["tolerance"].get(key, record["tolerance"].get("default"))
    about = f"{key}: {record['topic']}; source: {record['source']}; known: {record['basis']}"
    wanted = record["expected"][key] if theirs is None else theirs
    assert np.asarray(ours) == pytest.approx(np.asarray(wanted), abs=allowed, rel=0.0), about


def within(found: Estimate, wanted: float, errors: float = 4.0) -> None:
    assert found.error is not None and found.error > 0
    assert abs(found.value - wanted) < errors * found.error, (found, wanted)


def scores(dimensions: int, method: Method = "sobol", seed: int = 3, draws: int = DRAWS) -> Array:
    return ndtri(points(method, seed=seed, draws=draws, dimensions=dimensions).whole())
