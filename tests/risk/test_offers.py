"""Offered ranges: sourced, for values without one, ready to paste, and never applied by themselves."""

from __future__ import annotations

from click.testing import CliRunner

from appraisal.cli import main
from appraisal.present.risk_offers import offers_text
from appraisal.risk.offers import offers
from appraisal.scenario.load import loads
from tests.risk.farms import edited, plain

DAIRY = "dairy_with_leftovers"


def test_what_is_on_offer_loads_when_it_is_pasted() -> None:
    bare = edited(DAIRY, ranges=False)
    found = offers(bare)
    assert len(found) > 20
    filled = loads(f"{bare.text}\n{offers_text(found)}")
    assert set(filled.scenario.range) == {each.path for each in found}
    assert all(each.reason for each in found)


def test_only_values_without_a_range_get_an_offer_and_nothing_is_applied() -> None:
    loaded = plain(DAIRY)
    paths = {each.path for each in offers(loaded)}
    assert paths and not paths & set(loaded.scenario.range)
    assert not paths & set(edited(DAIRY).scenario.range)


def test_costs_without_a_quote_get_the_range_of_their_estimate_class() -> None:
    bare = edited(DAIRY, ranges=False)
    grid = bare.scenario.capital["grid"].amount
    for name, low, high in (("5", 0.5, 2.0), ("4", 0.7, 1.5), ("3", 0.8, 1.3)):
        by_path = {each.path: dict(each.facts) for each in offers(bare, estimate_class=name)}
        assert by_path["capital.grid.amount"] == {"p10": grid * low, "p90": grid * high}


def test_a_cost_with_a_quote_gets_none() -> None:
    swap = ('origin = "Invented quote"\nknown = "invented"', 'origin = "A quote"\nknown = "quote"')
    quoted = edited(DAIRY, swap, ranges=False)
    assert quoted.assumptions["capital.digester.amount"].known == "quote"
    assert "capital.digester.amount" not in {each.path for each in offers(quoted)}


def test_the_command_prints_them() -> None:
    told = CliRunner().invoke(main, ["check", "--demo", DAIRY, "--ranges", "--estimate-class", "3"])
    assert told.exit_code == 0
    assert '[range."digester.leak_share"]' in told.stdout and "18R-97" in told.stdout
