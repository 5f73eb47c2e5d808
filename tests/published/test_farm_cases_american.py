"""American plants with money in them, through the project's own sheets: paybacks, signs, order.

Sources stand in the scenario files of `plants/`. Where a case is only known by its signs, the assumptions behind the plant
are stated beside it and the check is on sign and order, never on digits.
"""

from __future__ import annotations

import numpy as np
import pytest

from tests.published.plant_files import in_plant_year, published
from tests.published.plant_money import at_year_ends, changed, worth

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
