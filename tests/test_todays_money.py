"""Old costs in today's money: the chain of index and exchange rate, what is refused, and what is found odd.

The index figures are those of the shipped table (German construction prices, US consumer prices) and the exchange rates are
means of the European Central Bank's daily reference rates; both are read here from the files, not from the code under test.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from appraisal.appraise import appraise
from appraisal.demos import demos
from appraisal.errors import ScenarioError
from appraisal.scenario.load import Loaded, loads
from appraisal.scenario.todays_money import NotBroughtError, brought

TABLES = Path(__file__).parents[1] / "appraisal/scenario/reference"
DAIRY = demos()["dairy_with_leftovers"].read_text(encoding="utf-8")
GRID = "amount = 120000"


def index(place: str, kind: str, year: int) -> float:
    with (TABLES / "price_index.csv").open(encoding="utf-8") as handle:
        rows = {(r["place"], r["kind"], r["year"]): float(r["value"]) for r in csv.DictReader(handle)}
    return rows[place, kind, str(year)]


def per_euro(currency: str, year: int) -> float:
    with (TABLES / "exchange_rates.csv").open(encoding="utf-8") as handle:
        rows = {(r["currency"], r["year"]): float(r["per_eur"]) for r in csv.DictReader(handle)}
    return rows[currency, str(year)]


def edited(old: str, new: str) -> Loaded:
    assert old in DAIRY
    return loads(DAIRY.replace(old, new))


def test_index_then_inflation_then_exchange() -> None:
    found = brought(currency="EUR", year=2015, place="DE", to_currency="USD", to_year=2027, inflation=0.02)
    level = index("DE", "construction", 2025) / index("DE", "construction", 2015)
    assert found.factor == pytest.approx(level * 1.02**2 * per_euro("USD", 2025), rel=1e-12)
    assert "construction, DE, 2015 to 2025" in found.words and "mean of 2025" in found.words


def test_a_known_rise_of_prices() -> None:
    """US consumer prices rose by some 93 % from 1999 to 2025 (Bureau of Labor Statistics CPI-U 166.6 to 321, from memory)."""
    found = brought(currency="USD", year=1999, place="US", to_currency="USD", to_year=2025, inflation=0.5)
    assert found.factor == pytest.approx(321 / 166.6, rel=0.01)


def test_there_and_back_is_one() -> None:
    out = brought(currency="GBP", year=2020, place="UK", to_currency="DKK", to_year=2020, inflation=0.0).factor
    back = brought(currency="DKK", year=2020, place="DK", to_currency="GBP", to_year=2020, inflation=0.0).factor
    assert out * back == pytest.approx(1.0, rel=1e-12)


def test_consumer_prices_stand_in_and_it_is_said() -> None:
    found = brought(currency="USD", year=1999, place="US", to_currency="USD", to_year=2010, inflation=0.0)
    assert "consumer prices, US, 1999 to 2010" in found.words


@pytest.mark.parametrize(
    ("facts", "named"),
    [
        (dict(currency="EUR", year=1985, place="DE"), "1985"),
        (dict(currency="CZK", year=2015, place=""), "CZK"),
        (dict(currency="EUR", year=2030, place="DE"), "2030"),
        (dict(currency="EUR", year=2015, place="Atlantis"), "Atlantis"),
    ],
)
def test_what_cannot_be_brought_is_refused_by_name(facts: dict[str, object], named: str) -> None:
    with pytest.raises(NotBroughtError, match=named):
        brought(**facts, to_currency="USD", to_year=2027, inflation=0.02)  # type: ignore[arg-type]


def test_a_capital_item_takes_its_row_in_todays_money_and_shows_how() -> None:
    loaded = edited(GRID, 'like = "engine_250kw_eu"\nsize = 300')
    known = loaded.assumptions["capital.grid.amount"]
    factor = brought(
        currency="EUR", year=2020, place="EU", to_currency="USD", to_year=2027, inflation=loaded.scenario.project.inflation
    ).factor
    assert known.origin == "computed" and "engine_250kw_eu" in known.source and "index of consumer prices, EA" in known.source
    assert loaded.scenario.capital["grid"].amount == pytest.approx(1300 * 300 * factor, rel=1e-12)
    assert known.low == pytest.approx(1000 * 300 * factor) and known.high == pytest.approx(1800 * 300 * factor)


def test_an_engine_takes_its_upkeep_by_size_when_asked() -> None:
    stated = 'maintenance_per_kwh = "1.4 ct/kWh"\ntop_end_cost = 28000\nmajor_cost = 98000'
    loaded = edited(stated, 'costs_from = "table"\nmajor_cost = 98000')
    engine, known = loaded.scenario.engine["main"], loaded.assumptions
    assert engine.major_cost == 98000 and known["engine.main.major_cost"].origin == "scenario"
    assert known["engine.main.top_end_cost"].origin == known["engine.main.maintenance_per_kwh"].origin == "computed"
    assert 20_000 < engine.top_end_cost < 50_000  # 6 % of an engine set of some 1,500 EUR a kW of 2024


@pytest.mark.parametrize(
    ("row", "said"),
    [("engineering", "% of plant cost"), ("grid_smal_us", "did you mean grid_small_us")],
)
def test_a_row_that_gives_no_cost_is_one_fault(row: str, said: str) -> None:
    with pytest.raises(ScenarioError, match=said) as caught:
        edited(GRID, f'like = "{row}"')
    assert len(caught.value.faults) == 1


def test_a_missing_rate_is_refused_and_a_given_cost_goes_through() -> None:
    money = DAIRY.replace('currency = "USD"', 'currency = "CZK"').replace("USD/", "CZK/")
    assert loads(money).scenario.project.currency == "CZK"
    with pytest.raises(ScenarioError, match="no exchange rate of CZK"):
        loads(money.replace(GRID, 'like = "grid_small_us"'))


def test_old_and_outlying_screening_costs_are_found() -> None:
    old = appraise(edited(GRID, 'like = "wp_de_250kw"\nsize = 250\namount = 1000'))
    told = {finding.where: finding for finding in old.findings}
    assert told["capital.grid.like"].value == 12
    assert "outside" in told["capital.grid.amount"].what
    fresh = appraise(edited(GRID, 'like = "engine_250kw_eu"\nsize = 900'))
    found = {finding.where for finding in fresh.findings}
    assert "capital.grid.size" in found and not {"capital.grid.like", "capital.grid.amount"} & found
