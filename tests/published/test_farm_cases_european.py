"""European plants with money in them, through the project's own sheets: sums to the euro, break-even prices, signs.

Sources stand in the scenario files of `plants/`. Where a case is only known by its signs, the assumptions behind the plant
are stated beside it and the check is on sign and order, never on digits.
"""

from __future__ import annotations

import pytest

from appraisal.measures.discounting import npv
from tests.published.plant_files import in_plant_year, published
from tests.published.plant_money import EURO, changed, worth

# A German plant after its tariff: Leitfaden Biogas nach dem EEG, Germany 2020, p. 29.

FLEXIBLE = "flexible_plant_500_kw"
BUDGET = {
    "engine.main.upkeep": -37_374, "running_cost.buildings.paid": -40_362, "hired_labour": -35_074,
    "substrate.crops.bought": -399_132, "running_cost.power.paid": -113_783, "running_cost.spreading.paid": -31_692,
    "running_cost.office.paid": -15_457, "power_sales": 671_879, "other_income.flexibility.received": 40_000,
    "heat_sales": 28_000, "other_income.digestate.received": 37_865,
}  # fmt: skip


@pytest.mark.parametrize("line", BUDGET)
def test_every_line_of_the_budget_to_the_euro(line: str) -> None:
    assert in_plant_year(published(FLEXIBLE), line) == pytest.approx(BUDGET[line], abs=EURO)


def test_both_sums_of_the_budget_to_the_euro() -> None:
    plant = published(FLEXIBLE)
    assert in_plant_year(plant, "cash_income") == pytest.approx(777_744, abs=EURO)
    assert in_plant_year(plant, "running_costs") == pytest.approx(-672_874, abs=EURO)
    assert in_plant_year(plant, "operating_result") == pytest.approx(104_870, abs=EURO)


def test_surplus_and_profit_to_the_euro() -> None:
    """Surplus after capital cost and wages; profit with the family's own wages."""
    plant = published(FLEXIBLE)
    surplus = in_plant_year(plant, "net_cash")
    assert surplus == pytest.approx(39_634, abs=EURO)
    assert surplus - in_plant_year(plant, "hired_labour") == pytest.approx(74_708, abs=EURO)


def test_capital_cost_as_debt_service_is_covered_1_61_times() -> None:
    plant = published(FLEXIBLE)
    assert -in_plant_year(plant, "debt_service") == pytest.approx(65_236, abs=EURO)
    assert plant.headline.cover.value[0, 1:13] == pytest.approx([1.61] * 12, abs=0.005)


def test_break_even_power_price_of_the_budget() -> None:
    """17.03 ct before by-products, 14.59 ct after them; at that price the surplus is nothing."""
    plant = published(FLEXIBLE)
    costs = -in_plant_year(plant, "running_costs") - in_plant_year(plant, "debt_service")
    sold = in_plant_year(plant, "power_sold")
    by_products = in_plant_year(plant, "cash_income") - in_plant_year(plant, "power_sales")
    assert 100 * costs / sold == pytest.approx(17.03, abs=0.005)
    even = (costs - by_products) / sold
    assert 100 * even == pytest.approx(14.59, abs=0.005)
    there = changed(plant, power__contract_price_per_kwh=even)
    assert in_plant_year(there, "net_cash") == pytest.approx(0, abs=EURO)


def test_break_even_feed_cost_of_the_budget() -> None:
    plant = published(FLEXIBLE)
    dearer = 1 + in_plant_year(plant, "net_cash") / 399_132
    assert 100 * (dearer - 1) == pytest.approx(9.93, abs=0.005)
    there = changed(plant, feed__crops__gate_fee_per_t=-39.9132 * dearer)
    assert in_plant_year(there, "net_cash") == pytest.approx(0, abs=EURO)


def test_average_power_on_what_is_installed() -> None:
    plant = published(FLEXIBLE).plant
    assert 494.5 <= plant.power_sold_kwh / 8760 <= plant.power_gross_kwh / 8760 <= 499.5
    assert 0.494 <= plant.capacity_factor <= 0.499


# Cost structure of 300 kW: IOeW 196/10, table 3.64.

BY_COST = "crop_plant_300_kw_by_cost"


def per_kw(line: str) -> float:
    """A yearly cost over rated power [EUR/kW/year]."""
    return -in_plant_year(published(BY_COST), line) / 300


def interest_per_kw() -> float:
    """Mean interest of the twenty years after building [EUR/kW/year]."""
    plant = published(BY_COST)
    return -float(plant.values["interest_cost"][0, 12:].sum()) / 20 / 300


def test_cost_structure_adds_up_per_kw_and_per_kwh() -> None:
    """1,269 EUR per kW and year, 15.9 ct/kWh at 8,000 hours; the printed interest of 49 is 49.6 by its own arithmetic."""
    running, depreciation = per_kw("running_costs"), per_kw("written_off")
    assert running == pytest.approx(1_065, abs=0.01)
    assert depreciation == pytest.approx(155, abs=0.01)
    assert interest_per_kw() == pytest.approx(49.6, rel=0.01)
    whole = running + depreciation + interest_per_kw()
    assert whole == pytest.approx(1_269, rel=0.001)
    hours = in_plant_year(published(BY_COST), "power_gross") / 300
    assert hours == pytest.approx(8_000, rel=1e-6)
    assert 100 * whole / hours == pytest.approx(15.9, abs=0.05)


def test_feed_is_half_of_the_cost_and_maintenance_1_3_ct() -> None:
    whole = per_kw("running_costs") + per_kw("written_off") + interest_per_kw()
    assert per_kw("running_cost.feed.paid") / whole == pytest.approx(0.52, abs=0.005)
    assert 100 * per_kw("running_cost.maintenance.paid") / 8_000 == pytest.approx(1.3, abs=0.05)


# A large Dutch plant: Gebrezgabher et al. 2010, NJAS 57:109-115 (recalled).

SUBSIDISED = "manure_plant_with_subsidy"


def test_without_subsidy_the_large_plant_is_worth_less_than_nothing() -> None:
    paid = published(SUBSIDISED)
    unpaid = changed(paid, power__contract_premium_per_kwh=0.0)
    assert worth(unpaid, rate=0.08) < 0
    assert worth(unpaid, rate=0.08) < worth(paid, rate=0.08)


def test_digestate_as_fertilizer_swings_the_worth_by_haul_saved_and_nutrients_sold() -> None:
    manure = published(SUBSIDISED)
    fertilizer = changed(manure, running_cost__haul__per_t_fed=0.0, other_income__fertilizer__per_t_digestate=2.0)
    swing = worth(fertilizer, rate=0.08) - worth(manure, rate=0.08)
    saved = -float(npv(manure.values["running_cost.haul.paid"], 0.08)[0])
    sold = float(npv(fertilizer.values["other_income.fertilizer.received"], 0.08)[0])
    assert saved > 0 and sold > 0
    assert swing == pytest.approx(saved + sold, rel=1e-9)


# A small UK plant: Abdul-Salam, Ehlers & Harnmeijer 2017, Energies 10:1416.


def test_small_uk_plant_needs_17_to_27_pence() -> None:
    """At the levelised cost net of heat the plant is worth nothing before tax, and that price lies in the published range."""
    plant = published("small_uk_plant_with_grass")
    price = float(plant.money.unit_costs.net_sold.value[0])
    there = changed(plant, power__contract_price_per_kwh=price, power__market_price_per_kwh=price)
    capital = -float(plant.values["investment"].sum())
    assert abs(worth(there, rate=0.08, cash="project_cash_before_tax")) < 1e-6 * capital
    assert 0.1746 <= price <= 0.2712
    assert worth(plant, rate=0.08) < 0


# A 75 kW slurry plant in Bavaria: agrarheute Wochenblatt, 24 June and 8 July 2019.

SLURRY = "slurry_plant_75_kw"
AS_TOLD = (("measured_tonnes_per_year = 5000", "measured_tonnes_per_year = 27375"),)


def test_slurry_plant_earns_the_tariff() -> None:
    """75 kW x 8,760 h x 97 % x 22.14 ct."""
    assert in_plant_year(published(SLURRY), "power_sales") == pytest.approx(75 * 8760 * 0.97 * 0.2214, rel=2e-3)
    assert in_plant_year(published(SLURRY), "power_sales") == pytest.approx(141_096, rel=2e-3)


def test_slurry_plant_closes_on_the_headlines_slurry() -> None:
    """177,000 m3 of methane; at 37 % some 650 MWh, 74 kW in every hour."""
    methane = in_plant_year(published(SLURRY), "methane_made")
    assert methane == pytest.approx(177_000, rel=0.01)
    assert methane * 9.97 * 0.37 / 8760 == pytest.approx(74, rel=0.02)


def test_slurry_plant_pays_back_in_8_to_10_years_and_is_worth_something_at_3_percent() -> None:
    plant = published(SLURRY)
    assert 8.3 <= 675_000 / in_plant_year(plant, "operating_result") <= 10.2
    assert worth(plant, rate=0.03) > 0


def test_seventy_five_cubic_metres_of_slurry_a_day_are_questioned() -> None:
    """110 m3 a livestock unit and year, five times the possible; the headline's own figure raises no question."""
    where = "herd.cattle.measured_tonnes_per_year"
    told = [finding for finding in published(SLURRY, AS_TOLD).findings if finding.where == where]
    assert [finding.value for finding in told] == [pytest.approx(109.5)]
    assert told[0].severity == "warning"
    assert told[0].value is not None and told[0].limit is not None and told[0].value / told[0].limit > 5
    assert where not in {finding.where for finding in published(SLURRY).findings}
