"""Real and published plants with money in them, through the project's own sheets: sums to the euro, paybacks, signs.

Sources stand in the scenario files of `plants/`. Where a case is only known by its signs, the assumptions behind the plant
are stated beside it and the check is on sign and order, never on digits.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import evaluate
from appraisal.measures.discounting import npv
from appraisal.model import inputs as model_inputs
from tests.published.test_published_plants import in_plant_year, published

EURO = 0.5  # sums are printed in whole euros


def changed(plant: Appraisal, **values: float) -> Appraisal:
    """The same plant at other inputs; `a__b__c` stands for the path a.b.c."""
    given = {name.replace("__", "."): np.array([[value]]) for name, value in values.items()}
    assert set(given) <= set(plant.inputs)
    lines = evaluate(plant.plan, model_inputs(plant.structure, {**plant.inputs, **given}))
    return replace(plant, values=lines)


def worth(plant: Appraisal, *, rate: float, cash: str = "project_cash") -> float:
    """Net present value of the project [money]."""
    return float(npv(plant.values[cash], rate)[0])


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


# Whey on a New York dairy: farmenergy.org success story; US EPA AgSTAR profiles.

WHEY = "whey_dairy_405_kw"


def test_whey_dairy_power_and_bill_replaced() -> None:
    """1.64 GWh, 188 kW on average, 46 % of 405 kW; 4.6 ct for every kWh counted against the bill."""
    plant = published(WHEY)
    power = in_plant_year(plant, "power_gross")
    assert power == pytest.approx(4_500 * 365, rel=1e-4)
    assert power / 8760 == pytest.approx(188, abs=0.6)
    assert plant.plant.capacity_factor == pytest.approx(0.46, abs=0.005)
    saved = in_plant_year(plant, "power_bill_metered")
    assert saved == pytest.approx(75_000, rel=1e-3)
    assert 100 * saved / power == pytest.approx(4.6, abs=0.05)


def test_whey_dairy_paybacks_and_sign() -> None:
    """18.7 years gross, 14.7 after the federal grant; worth less than nothing at 6 % over 20 years, before fees."""
    granted = published(WHEY)
    alone = changed(granted, grant__federal__at_most=0.0)
    for plant, years in ((alone, 18.7), (granted, 14.7)):
        cash = np.cumsum(plant.values["project_cash"][0])
        assert int(np.argmax(cash >= 0)) / 12 == pytest.approx(years, abs=0.15)
        assert worth(plant, rate=0.06) < 0
    assert worth(alone, rate=0.06) < worth(granted, rate=0.06)


def test_whey_dairy_later_output_needs_most_of_the_gas() -> None:
    """All 4,907 m3 a day would give 9,700 to 10,300 kWh in a larger engine; 3 GWh a year, 85 % of 405 kW, fit both."""
    all_gas = changed(published(WHEY), digester__measured_gas_nm3_per_day=4_907.0)
    larger = changed(published(WHEY), digester__measured_gas_nm3_per_day=4_907.0, engine__main__rated_kw=600.0)
    assert 9_700 <= in_plant_year(larger, "power_gross") / 365 <= 10_300
    assert in_plant_year(larger, "methane_flared") == pytest.approx(0, abs=1)
    assert 3e6 <= in_plant_year(all_gas, "power_gross") <= in_plant_year(larger, "power_gross")
    assert in_plant_year(all_gas, "methane_flared") > 0


# A small US dairy by the cow: Klavon et al. 2013, Biomass and Bioenergy 54:36-45.

BY_THE_COW = "small_us_dairy_by_the_cow"
COWS, CAPITAL_PER_COW = 200, 3_000


def at_year_ends(plant: Appraisal, rate: float) -> float:
    """Worth of yearly sums, the building year today and the others at their ends [money]."""
    yearly = plant.values["project_cash"].reshape(1, -1, 12).sum(axis=2)
    return float(npv(yearly, rate, timing="end of year")[0])


@pytest.mark.parametrize(("power_and_heat", "carries"), [(47.0, 1_512), (70.0, 1_738)])
def test_income_by_the_cow_carries_half_the_capital_at_most(power_and_heat: float, carries: float) -> None:
    """154 to 177 USD a cow carry 1,512 to 1,738 USD of capital at 8 % over 20 years, before any running cost."""
    plant = changed(published(BY_THE_COW), other_income__heat_and_power__per_year=power_and_heat * COWS)
    assert at_year_ends(plant, 0.08) / COWS + CAPITAL_PER_COW == pytest.approx(carries, abs=1)


def test_small_dairy_does_not_pay_and_is_about_nothing_with_half_the_cost_shared() -> None:
    alone = published(BY_THE_COW)
    shared = changed(alone, grant__cost_share__share_of_eligible=0.5)
    assert at_year_ends(alone, 0.08) < -0.25 * COWS * CAPITAL_PER_COW
    assert abs(at_year_ends(shared, 0.08)) < 0.1 * COWS * CAPITAL_PER_COW


# Pennsylvania dairies: Leuer, Hyde & Richard 2008, Agricultural and Resource Economics Review 37:188-203.

SIZES = (500, 1_000, 2_000)
METERED = (('contract = "fixed_price"', 'contract = "net_metering"'),)


def dairy(cows: int, *, separator: bool, supported: bool = False) -> float:
    """Worth of a Pennsylvania dairy of some size [USD]; supported: with net metering and credits of 7 USD a cow."""
    given = {
        "herd__cows__head": cows, "digester__active_volume_m3": 1.9 * cows, "engine__main__rated_kw": 0.19 * cows,
        "digester__heat_loss_w_per_k": 0.8 * cows, "farm_now__power_kwh": 91.66667 * cows, "farm_now__power_bill": 8.25 * cows,
        "running_cost__upkeep__per_year": 12_000 + 8 * cows, "capital__plant__amount": 320_864 + 563 * cows,
    }  # fmt: skip
    if separator:
        given |= {"other_income__bedding__per_year": 100 * cows, "running_cost__separator__per_year": 15 * cows,
                  "capital__separator__amount": 80_000 + 60 * cows}  # fmt: skip
    if supported:
        given |= {"other_income__credits__per_year": 7 * cows}
    plant = published("pennsylvania_dairy_with_separator", METERED if supported else ())
    return worth(changed(plant, **given), rate=0.08)


@pytest.mark.parametrize("cows", SIZES)
@pytest.mark.parametrize("supported", [False, True])
def test_a_separator_raises_the_worth_at_every_size(cows: int, supported: bool) -> None:
    assert dairy(cows, separator=False, supported=supported) < dairy(cows, separator=True, supported=supported)


@pytest.mark.parametrize("supported", [False, True])
def test_with_a_separator_the_worth_rises_with_the_herd(supported: bool) -> None:
    """Without one it need not: another cow brings less than her share of the tank costs."""
    small, middle, large = (dairy(cows, separator=True, supported=supported) for cows in SIZES)
    assert small < middle < large


def test_signs_by_size_and_support() -> None:
    """500 cows never pay; 1,000 pay with bedding, net metering and credits; 2,000 with bedding alone; none without bedding."""
    assert all(dairy(cows, separator=False, supported=support) < 0 for cows in SIZES for support in (False, True))
    assert dairy(500, separator=True, supported=True) < 0
    assert dairy(1_000, separator=True, supported=True) > 0
    assert dairy(2_000, separator=True) > 0


@pytest.mark.parametrize("cows", SIZES)
@pytest.mark.parametrize("separator", [False, True])
def test_net_metering_and_credits_raise_the_worth(cows: int, separator: bool) -> None:
    assert dairy(cows, separator=separator) < dairy(cows, separator=separator, supported=True)


# Swine: Cowley, Brorsen & Hamilton 2018, Journal of Agricultural and Applied Economics 51.

LAGOON = "swine_lagoon_or_tank"
TANK = (('kind = "covered_lagoon"', 'kind = "stirred_tank"\nheat_loss_w_per_k = 2500'), (
    "active_volume_m3 = 20000", "active_volume_m3 = 3000"), ("temperature_degc = 20", "temperature_degc = 37"), (
    "amount = 750000", "amount = 1300000"))  # fmt: skip


def test_a_cover_is_better_than_a_tank_and_neither_pays_without_support() -> None:
    cover, tank = published(LAGOON), published(LAGOON, TANK)
    assert worth(tank, rate=0.08) < worth(cover, rate=0.08) < 0


def test_worth_is_linear_in_the_credit_price_and_crosses_zero_below_38() -> None:
    plant = published(LAGOON)
    prices = (0.0, 10.0, 20.0, 38.0)
    values = [worth(changed(plant, credits__price_per_t_co2e=price), rate=0.08) for price in prices]
    slope = (values[1] - values[0]) / 10
    assert slope > 0
    for price, value in zip(prices, values, strict=True):
        assert value == pytest.approx(values[0] + slope * price, abs=1e-6 * abs(values[0]))
    assert values[-1] > 0 and -values[0] / slope <= 38


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
