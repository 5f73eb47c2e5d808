"""Past a stop-and-ask limit value and cover stand twice, as entered and with a declared gas cut."""

from __future__ import annotations

import json

import numpy as np
import pytest
from click.testing import CliRunner

from appraisal.appraise import Appraisal, appraise
from appraisal.cli import main
from appraisal.demos import demos
from appraisal.present import words
from appraisal.present.page import page
from appraisal.present.result import result
from appraisal.scenario.load import loads

DAIRY = demos()["dairy_with_leftovers"].read_text(encoding="utf-8")
VOLUME, JUDGING, TANK = 'active_volume_m3 = "700000 gal"', "[judging]\n", "[digester]\n"
CROWDED = (VOLUME, 'active_volume_m3 = "120000 gal"')
REASON = "A neighbour's crowded tank lost a quarter of its gas."


def farm(*swaps: tuple[str, str]) -> Appraisal:
    """The dairy demo with passages of its file exchanged."""
    text = DAIRY
    for old, new in swaps:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return appraise(loads(text))


def judged(share: float, reason: str = REASON) -> tuple[str, str]:
    return JUDGING, f'{JUDGING}gas_cut_share = {share}\ngas_cut_reason = "{reason}"\n'


def cut(share: float) -> tuple[str, str]:
    return TANK, f"{TANK}gas_cut_share = {share}\n"


def said(appraisal: Appraisal) -> str:
    return " ".join((*words.family(appraisal).sentences, *words.bank(appraisal).sentences))


def test_a_plant_inside_its_limits_is_worked_out_once() -> None:
    plain = farm()
    assert plain.cautious is None and result(plain)["cautious"] is None
    assert "twice" not in said(plain)


def test_past_a_stop_and_ask_limit_the_declared_cut_is_the_second_case() -> None:
    """The second run is the same as a plant whose gas is cut in the scenario, to the last digit."""
    crowded, entered = farm(CROWDED, judged(0.25)), farm(CROWDED, cut(0.25))
    second = crowded.cautious
    assert second is not None and "loading_rate" in second.because and second.gas_cut_share == 0.25
    assert second.headline.npv[0] == entered.headline.npv[0] < crowded.headline.npv[0]
    assert second.headline.dscr_min.value[0] == entered.headline.dscr_min.value[0]
    assert second.headline.dscr_min.value[0] < crowded.headline.dscr_min.value[0]


def test_a_cut_takes_its_share_of_every_feed_in_every_month() -> None:
    whole, less = farm(CROWDED), farm(CROWDED, cut(0.25))
    for name in ("methane_made", "biogas_made", "substrate.bakery.methane"):
        np.testing.assert_allclose(less.values[name], 0.75 * whole.values[name], rtol=1e-12)
    assert np.array_equal(less.values["tonnes_fed"], whole.values["tonnes_fed"])


def test_measured_gas_is_cut_too() -> None:
    measured = TANK + 'gas_method = "measured"\nmeasured_gas_nm3_per_day = 3000\n'
    whole, less = (farm(CROWDED, (TANK, measured + extra)) for extra in ("", "gas_cut_share = 0.25\n"))
    np.testing.assert_allclose(less.values["methane_made"], 0.75 * whole.values["methane_made"], rtol=1e-12)


def test_a_cut_in_the_scenario_comes_before_the_declared_one() -> None:
    both, one = farm(CROWDED, cut(0.2), judged(0.25)), farm(CROWDED, cut(0.4))
    assert both.cautious is not None
    assert both.cautious.headline.npv[0] == pytest.approx(one.headline.npv[0], rel=1e-12)


def test_no_cut_is_the_plant_as_entered() -> None:
    plant = farm(CROWDED, judged(0))
    assert plant.cautious is not None and plant.cautious.headline.npv[0] == plant.headline.npv[0]


def test_words_give_both_values_both_covers_and_the_reason() -> None:
    plant = farm(CROWDED, judged(0.25))
    assert plant.cautious is not None
    text = said(plant)
    for head in (plant.headline, plant.cautious.headline):
        assert f"{float(head.npv[0]):,.0f} USD" in text and f"{float(head.dscr_min.value[0]):.2f}" in text
    assert text.count(REASON.removesuffix(".")) == 2 and "25.0% less gas" in text and ".." not in text


@pytest.mark.parametrize("share", [0.0, 0.25])
def test_nothing_says_that_it_pays_on_the_uncut_figure(share: float) -> None:
    """Even a plant worth a fortune as entered gets no `it pays` past a stop-and-ask limit."""
    rich = (('contract_price_per_kwh = "14.5 ct/kWh"', "contract_price_per_kwh = 0.9"), ('high = "14.5 ct/kWh"', "high = 0.9"))
    whole = page(farm(CROWDED, *rich, judged(share)))
    assert "stop and ask" in whole and "On paper it is worth" in whole
    assert "it pays" not in whole
    assert "On these figures alone it is worth" in page(farm(*rich))


def test_json_holds_the_second_case() -> None:
    plant = farm(CROWDED, judged(0.25))
    assert plant.cautious is not None
    second = json.loads(json.dumps(result(plant), allow_nan=False))["cautious"]
    assert second["because"] == list(plant.cautious.because) and second["gas_cut_share"] == 0.25
    assert second["reason"] == REASON and second["npv"] == plant.cautious.headline.npv[0]
    assert second["dscr_min"]["value"] == plant.cautious.headline.dscr_min.value[0]


def test_default_cut_names_its_basis() -> None:
    plant = farm(CROWDED)
    assert plant.cautious is not None and plant.cautious.gas_cut_share == 0.2
    assert "common practice, no source" in plant.cautious.reason
    known = plant.loaded.assumptions["judging.gas_cut_share"]
    assert known.origin == "default" and known.known == "common practice, no source"


def test_command_line_shows_a_demo_once() -> None:
    shown = CliRunner().invoke(main, ["run", "--demo", "dairy_with_leftovers", "--full"])
    assert shown.exit_code == 0 and "the sum is made twice" not in shown.output
