"""Greenhouse gases with and without the plant: sums, limits, signs, and what must be zero."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

import numpy as np
import numpy.testing as npt
import pytest

from appraisal import model
from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import evaluate, year_sum
from appraisal.present.emission_tables import SOURCES, emissions_by_year_table, emissions_object, emissions_table
from appraisal.scenario.load import load
from tests.emission_scenarios import CASES, scenario

Array = np.ndarray


@cache
def case(name: str) -> Appraisal:
    """One case, appraised once a test process."""
    return appraise(scenario(name))


def at(name: str, **changed: float) -> dict[str, Array]:
    """All lines of a case at other inputs, given as section__field."""
    found = case(name)
    inputs = dict(found.inputs)
    for path, value in changed.items():
        inputs[path.replace("__", ".")] = np.array([[value]])
    return evaluate(found.plan, model.inputs(found.structure, inputs))


@pytest.mark.parametrize("name", CASES)
def test_sources_add_up_to_the_totals(name: str) -> None:
    values = case(name).values
    for side, total in (("without", "emissions_without"), ("with_plant", "emissions_with")):
        lines = [line for source in SOURCES for line in getattr(source, side)]
        npt.assert_allclose(sum(values[line] for line in lines), values[total], rtol=1e-12, atol=1e-12)
    every = {name for name in values if name.startswith(("without_", "with_"))}
    assert every == {line for source in SOURCES for line in (*source.without, *source.with_plant)}


@pytest.mark.parametrize("name", CASES)
def test_nothing_is_counted_before_the_first_feeding(name: str) -> None:
    values = case(name).values
    building = values["feeding"][0] == 0
    assert building.any()
    for line in ("emissions_without", "emissions_with", "credit_tonnes"):
        assert not values[line][0][building].any(), line


@pytest.mark.parametrize("name", CASES)
def test_json_and_table_say_the_same(name: str) -> None:
    found = emissions_object(case(name))
    year = case(name).plant.year - 1
    rows = {row[0]: row[1:] for row in emissions_table(case(name)).rows}
    for source in found["sources"]:
        if source["label"] in rows:
            without = float(rows[source["label"]][0].replace(",", ""))
            assert abs(without - source["without"][year]) < 1
    assert found["gwp"]["set"] in emissions_table(case(name)).title
    npt.assert_allclose(
        np.array(found["without"]) - np.array(found["with"]), found["avoided"], atol=1e-9 * max(found["without"])
    )
    by_year = emissions_by_year_table(case(name))
    assert len(by_year.rows) - 1 == case(name).timeline.years == len(found["avoided"])


@pytest.mark.parametrize(("climate", "warm"), [("fi_south_jokioinen", 6), ("us_california_fresno", 18)])
def test_a_store_never_emptied_turns_over_four_fifths_at_any_temperature(climate: str, warm: int) -> None:
    """In the periodic steady state; Climate Action Reserve US livestock protocol, design share 0.8."""
    site = 'climate = "us_new_york_syracuse"'
    values = appraise(scenario("store_never_emptied", (site, f'climate = "{climate}"'))).values
    assert (values["air_of_month"].mean() > warm) == (warm == 18)
    for herd in ("milkers", "dry_cows"):
        degraded, came = (
            year_sum(values[f"substrate.{herd}.{line}"])[0, -1] for line in ("store_degraded", "store_solids")
        )
        assert degraded / came == pytest.approx(0.8, abs=1e-4)


def test_emptying_leaves_less_to_react() -> None:
    kept, emptied = (case(name).values for name in ("store_never_emptied", "store_us"))
    line = "substrate.milkers.store_degraded"
    assert year_sum(emptied[line])[0, 2:].max() < year_sum(kept[line])[0, 2:].min()


def test_what_is_left_in_the_old_store_fades() -> None:
    values = case("store_never_emptied").values
    rest = year_sum(values["substrate.milkers.old_store_methane"])[0]
    store = year_sum(values["substrate.milkers.baseline_methane"])[0]
    fed = [year for year in range(len(rest)) if store[year] > 0]
    assert 0 < rest[fed[1]] < 0.2 * store[fed[1]]
    assert rest[fed[-1]] < 1e-6 * store[fed[-1]]


@pytest.mark.parametrize("name", ["ipcc_2006", "ipcc_2019_excreted"])
def test_landfill_years_add_up_to_the_lifetime(name: str) -> None:
    values = case(name).values
    potential, stock, made = (values[f"substrate.whey.landfill_{line}"][0] for line in ("potential", "stock", "made"))
    left = values["landfill_left_share"][0, 0]
    to_come = stock[-1] if name == "ipcc_2006" else stock[-1] * left
    assert potential.sum() > 0
    assert made.sum() + to_come == pytest.approx(potential.sum(), rel=1e-12)


def test_landfill_credit_comes_over_years_never_at_once() -> None:
    values = case("ipcc_2006").values
    made, potential = (year_sum(values[f"substrate.whey.landfill_{line}"])[0] for line in ("made", "potential"))
    first = int(np.argmax(potential > 0))
    assert 0 < made[first] < 0.1 * potential[first]
    assert np.all(np.diff(made[first:]) > 0)


@pytest.mark.parametrize("name", sorted(demos()))
def test_nothing_evidenced_gives_no_landfill_credit(name: str) -> None:
    values = appraise(load(demos()[name])).values
    assert not values["without_landfill"].any()


@pytest.mark.parametrize("name", ["ipcc_2006", "store_us"])
def test_more_loss_never_gives_more_credits(name: str) -> None:
    for path in ("digester__leak_share", "store__methane_loss_share", "emissions__flare_unburned_share"):
        credited = [at(name, **{path: share})["credit_tonnes"] for share in (0.0, 0.01, 0.03, 0.08, 0.3)]
        for less, more in pairwise(credited):
            assert np.all(more <= less), path
        assert credited[-1].sum() < credited[0].sum() or path == "emissions__flare_unburned_share"


def test_credits_are_the_lower_of_model_and_meter() -> None:
    values = case("ipcc_2006").values
    gwp = case("ipcc_2006").loaded.scenario.credits.gwp_methane
    for limit in ("methane_reduction_modelled", "methane_destroyed"):
        assert np.all(values["credit_tonnes"] <= np.maximum(values[limit], 0) * gwp + 1e-9)


def test_the_grid_gets_cleaner_every_year() -> None:
    factor = case("ipcc_2006").values["grid_factor"][0, ::12]
    npt.assert_allclose(factor[1:] / factor[:-1], 0.95, rtol=1e-12)
    assert factor[0] == 0.125  # upstate New York


def test_leftovers_that_fed_animals_cost_money_and_gas() -> None:
    values, none = case("ipcc_2006").values, at("ipcc_2006", feed__whey__fed_before_share=0.0)
    fed = values["substrate.whey.tonnes"]
    npt.assert_allclose(values["with_other_feed"], fed * 0.5 * 25 / 1000, rtol=1e-12)
    assert values["substrate.whey.replacement_feed"].sum() < 0 == none["substrate.whey.replacement_feed"].sum()
    assert values["running_costs"].sum() < none["running_costs"].sum()


@pytest.mark.parametrize("name", CASES)
def test_a_row_of_a_batch_is_the_single_run(name: str) -> None:
    found = case(name)
    rng = np.random.default_rng(7)
    moved = {
        path: array * rng.uniform(0.8, 1.2, (9, 1))
        if path.startswith(("emissions.", "herd.")) and array.shape[1] == 1
        else array
        for path, array in found.inputs.items()
    }
    together = evaluate(found.plan, model.inputs(found.structure, moved))
    for row in (0, 8):
        one = {path: array[row : row + 1] if array.shape[0] > 1 else array for path, array in moved.items()}
        alone = evaluate(found.plan, model.inputs(found.structure, one))
        for line, values in alone.items():
            both = together[line]
            assert np.array_equal(both[row : row + 1] if both.shape[0] > 1 else both, values), line


def test_findings_speak_of_a_climate_that_does_not_fit_and_of_an_open_store() -> None:
    warm = appraise(scenario("ipcc_2006", ('gwp_set = "AR6_100"', 'gwp_set = "AR4_100"')))
    said = {finding.where: finding.severity for finding in warm.findings}
    assert said["herd.milkers.store_2006"] == "warning"  # a factor for 12 degC in Syracuse
    assert said["credits.gwp_methane"] == "note"
    assert "store.methane_loss_share" not in said
    assert "store.methane_loss_share" in {finding.where for finding in case("store_ipcc_excreted").findings}
