"""Published figures of which cause decides, against the package; and every record of risk is tested.

Where the package has a closed form it is held to the figure itself; where it has only a sample, the sample is held to
the closed form within four of its own standard errors. Sources and tolerances stand in `risk.json`.
"""

from __future__ import annotations

import sys
from math import sqrt

import numpy as np
import pytest
from scipy.special import ndtri

from appraisal.risk.points import points
from appraisal.risk.ranks import together
from appraisal.risk.shares import variance_shares
from appraisal.risk.swings import swing_shares
from tests.published import test_risk_flows_published, test_risk_shapes_published
from tests.published.risk_records import DRAWS, RECORDS, Array, close, facts, within


def ishigami(cube: Array, a: float, b: float) -> Array:
    x = -np.pi + 2 * np.pi * cube
    return np.sin(x[:, 0]) + a * np.sin(x[:, 1]) ** 2 + b * x[:, 2] ** 4 * np.sin(x[:, 0])


def test_fo_49_ishigami() -> None:
    given, expected = facts("FO-49")
    a, b, variance = given["a"], given["b"], expected["variance"]
    first = (1 + b * np.pi**4 / 5) ** 2 / 2
    mixed = b**2 * np.pi**8 * 8 / 225
    close("FO-49", "variance", first + a * a / 8 + mixed)
    close("FO-49", "S", [first / variance, a * a / 8 / variance, 0])
    close("FO-49", "S13", mixed / variance)
    found = variance_shares(lambda cube: ishigami(cube, a, b), dimensions=3, draws=DRAWS, seed=2)
    within(found.variance, variance)
    for place in range(3):
        within(found.first[place], expected["S"][place])
        within(found.total[place], expected["ST"][place])
        assert found.first[place].value == pytest.approx(expected["S"][place], abs=0.01)
    assert found.runs == 5 * DRAWS


def test_fo_50_product_of_eight() -> None:
    given, expected = facts("FO-50")
    a = np.array(given["a"])
    each = 1 / (3 * (1 + a) ** 2)
    variance = float(np.prod(1 + each) - 1)
    close("FO-50", "variance", variance)
    close("FO-50", "S", each / variance)
    close("FO-50", "ST", each * np.prod(1 + each) / (1 + each) / variance)
    found = variance_shares(
        lambda cube: np.prod((np.abs(4 * cube - 2) + a) / (1 + a), axis=1), dimensions=8, draws=DRAWS, seed=2
    )
    for place in range(8):
        within(found.first[place], expected["S"][place], errors=5)
        within(found.total[place], expected["ST"][place], errors=5)
        assert found.total[place].value == pytest.approx(expected["ST"][place], abs=0.01)


def test_fo_56_in_a_linear_model_all_causes_agree() -> None:
    given, expected = facts("FO-56")
    weight, sds = np.array([3.0, -2.0, 0.5]), np.array(given["sd"], dtype=float)

    def model(cube: Array) -> Array:
        return 100 + (ndtri(cube) * sds) @ weight

    close("FO-56", "sd", sqrt(((weight * sds) ** 2).sum()))
    swings = swing_shares(model, dimensions=3)
    close("FO-56", "tornado_P10_P90_swing", swings)
    found = variance_shares(model, dimensions=3, draws=DRAWS, seed=6)
    cube = points("sobol", seed=7, draws=DRAWS, dimensions=3).whole()
    causes = together(ndtri(cube), model(cube))
    for place in range(3):
        within(found.first[place], expected["S"][place])
        within(found.total[place], expected["S"][place])
        assert causes.regression[place] == pytest.approx(expected["src"][place], abs=2e-3)
        assert causes.regression[place] ** 2 == pytest.approx(found.first[place].value, abs=0.01)
    assert np.argsort(-np.abs(swings)).tolist() == np.argsort([-each.value for each in found.first]).tolist()


TESTED = {
    name.removeprefix("test_").upper().replace("_", "-", 1)[:5]
    for module in (test_risk_shapes_published, test_risk_flows_published, sys.modules[__name__])
    for name in vars(module)
    if name.startswith("test_fo_")
}


def test_every_record_is_tested() -> None:
    assert set(RECORDS) == TESTED
