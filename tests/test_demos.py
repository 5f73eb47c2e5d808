"""The invented demonstration farms: they load, balance month by month, and say what they should."""

from __future__ import annotations

from collections.abc import Callable, Mapping

import numpy as np
import pytest

from appraisal import model
from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import evaluate
from appraisal.scenario.said import said as in_words
from tests.demo_farms import CHEESE, DAIRY, FOLDER, NAMES, SHARED, SHORT, SMALL, Array, demo

BALANCE = 1e-9  # of the largest flow of the balance


def test_every_demo_is_tested() -> None:
    assert {path.stem for path in FOLDER.glob("*.toml")} == set(NAMES)


NOTHING_LESS = {
    DAIRY: {"measures.dscr_min", "methane_that_may_end", "bank_balance"},
    SMALL: {"measures.npv", "measures.dscr_min", "power_gross", "bank_balance"},
    SHARED: {"measures.dscr_min", "methane_that_may_end", "methane_flared", "free_ammonia_high", "bank_balance"},
    CHEESE: {"methane_that_may_end", "fertilizer_saved", "bank_balance"},
}


NOTHING_LESS[SHORT] = NOTHING_LESS[DAIRY] | {"land_missing", "fertilizer_saved"}


def test_imported_nutrients_outgrow_the_land_and_fertilizer_turns_into_a_cost() -> None:
    """The cows' manure alone finds land on 486 ha, with the leftovers it does not; the finding says by how many hectares."""
    case = demo(SHORT)
    said = {finding.where: finding for finding in case.findings}
    missing = float(case.values["land_missing"][0, case.plant.year - 1])
    assert 50 < missing < 100 and f"{in_words(case.loaded.scenario, missing, 'ha')} are missing" in said["land_missing"].what
    assert said["fertilizer_saved"].value is not None and said["fertilizer_saved"].value < 0
    alone = dict(case.inputs) | {f"feed.{name}.tonnes_per_year": np.zeros((1, 1)) for name in ("whey", "bakery")}
    without = evaluate(case.plan, model.inputs(case.structure, alone))
    assert not without["land_missing"].any()


@pytest.mark.parametrize("name", NAMES)
def test_demo_raises_its_findings(name: str) -> None:
    found = demo(name).findings
    assert {finding.where for finding in found} >= NOTHING_LESS[name]
    assert [finding for finding in found if finding.severity == "stop and ask"] == []


def test_small_herd_does_not_pay() -> None:
    assert any("It does not pay" in finding.what for finding in demo(SMALL).findings)
    assert demo(SMALL).headline.payback_years.words == ["never"]


@pytest.mark.parametrize("name", [DAIRY, SHARED])
def test_larger_plants_pay_modestly_and_carry_their_loans_in_most_years(name: str) -> None:
    """Worth more than nothing but less than a tenth of the capital; cover 1 or more in at least four of five loan years."""
    head, capital = demo(name).headline, -float(demo(name).values["investment"].sum())
    covers = head.cover.value[0, 1:]
    assert 0 < head.npv[0] < 0.1 * capital
    assert np.mean(covers[np.isfinite(covers)] >= 1) >= 0.8


def lines(appraisal: Appraisal, *names: str) -> Array:
    """Sum of lines; shape (months,)."""
    return np.sum([appraisal.values[name][0] for name in names], axis=0)


def fed(appraisal: Appraisal, field: str = "") -> Array:
    """Tonnes of all substrates, manure and bedding apart, each times a content of the scenario when one is named; (months,)."""
    scenario = appraisal.loaded.scenario
    parts = [(f"{name}.{part}", getattr(herd, prefix + field) if field else 1) for name, herd in scenario.herd.items()
             for part, prefix in (("manure", ""), ("bedding", "bedding_"))]
    parts += [(f"{name}.tonnes", getattr(feed, field) if field else 1) for name, feed in scenario.feed.items()]
    return np.sum([appraisal.values[f"substrate.{line}"][0] * content for line, content in parts], axis=0)


def water(appraisal: Appraisal) -> Array:
    """Water of all herds; shape (months,) [t/month]."""
    return lines(appraisal, *(f"substrate.{name}.water" for name in appraisal.loaded.scenario.herd))


BALANCES: Mapping[str, tuple[Callable[[Appraisal], Array], tuple[str, ...]]] = {
    "methane": (lambda a: lines(a, "methane_made"),
                ("methane_leaked", "methane_to_upgrading", "methane_burned", "methane_to_boiler", "methane_flared")),
    "mass": (lambda a: fed(a) + water(a), ("digestate_mass", "dry_gas_mass", "vapour_mass")),
    "dry matter": (lambda a: fed(a, "ts_share"), ("digestate_dry_matter", "volatile_solids_gone")),
    "nitrogen": (lambda a: fed(a, "n_kg_per_t"), ("digestate_nitrogen", "nitrogen_lost")),
    "phosphorus": (lambda a: fed(a, "p_kg_per_t"), ("digestate_phosphorus",)),
    "potassium": (lambda a: fed(a, "k_kg_per_t"), ("digestate_potassium",)),
    "power": (lambda a: lines(a, "power_gross"), ("power_own_use", "power_to_farm", "power_sold")),
    "heat": (lambda a: lines(a, "heat_recoverable"),
             ("heat_digester_met", "heat_to_house", "heat_to_barn", "heat_to_dryer", "heat_sold", "heat_lost_in_main",
              "heat_dumped")),
    "digester heat": (lambda a: lines(a, "heat_to_digester"), ("heat_digester_met", "heat_from_boiler", "heat_shortfall")),
}


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("balance", BALANCES)
def test_every_month_balances(name: str, balance: str) -> None:
    """What comes in is what goes out, and nothing goes out that is less than nothing."""
    come, go = BALANCES[balance]
    whole = come(demo(name))
    np.testing.assert_allclose(lines(demo(name), *go), whole, rtol=0, atol=BALANCE * whole.max())
    assert all(demo(name).values[part].min() >= -BALANCE * whole.max() for part in go)
