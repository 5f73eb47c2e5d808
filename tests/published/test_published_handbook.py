"""Published handbook figures through single lines: gas to power, energy conversions, retention and load.

Of the Polish plant, the ceiling of 60 to 65 % of the heat of combustion is left out: the model holds no such heat.
"""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.constants import CONSTANTS
from appraisal.technical_yield import engine, feed, own_use, part_load, retention
from appraisal.technical_yield.reconcile import capacity_factor, engine_against_energy

CONSTANT = {constant.name: constant.value for constant in CONSTANTS}
HOURS = 8760
FNR_EFFICIENCY = 0.38

# Rules of thumb of the FNR, methane and power a year; the row of beef places (2.8 t, 185 Nm3, 562 kWh) is left out: its
# efficiency would be 0.305 where every other row has 0.38, a known mistake of the page.


def kwh(methane: float, *, efficiency: float, rated_kw: float = 1_000.0) -> float:
    """Power of a year from methane [Nm3] by the engine lines, at full load with stops [kWh]."""
    fits = engine.engine_fuel_capacity(rated_kw, efficiency, CONSTANT["methane_kwh_per_nm3"], np.array(float(HOURS)))
    fraction = engine.fuel_fraction(np.array(methane), fits)
    rate = engine.engine_fuel_rate(fraction, part_load.engine_lowest_fuel_rate__full_load(np.array(1.0)))
    curve = (efficiency, 0.97 * efficiency, 0.9 * efficiency)
    middle = part_load.engine_fuel_rate_at_three_quarters(*curve[:2], CONSTANT["three_quarter_load"])
    load = engine.engine_load_by_gas(rate, middle, *curve, CONSTANT["three_quarter_load"], CONSTANT["half_load"])
    hours = engine.engine_hours(fraction, rate, np.array(float(HOURS)))
    return float(engine.engine_power_possible(rated_kw, load, 1.0, hours))


@pytest.mark.parametrize(("methane", "power_kwh"), [
    (289, 1_095), (388, 1_472), (164, 621), (3_956, 14_985), (5_934, 22_477), (3_523, 13_343), (2_884, 10_926),
    (2_871, 10_874), (2_001, 7_579), (1_390, 5_264),
])
def test_fnr_rules_of_thumb(methane: float, power_kwh: float) -> None:
    """Dairy place, horse, 100 hens, maize low and high, beet, whole crop, cup plant, grassland, rye grain."""
    assert kwh(methane, efficiency=FNR_EFFICIENCY) == pytest.approx(power_kwh, rel=0.002)


def test_fnr_fattening_pig_within_the_rounding_of_its_methane() -> None:
    assert kwh(18.5, efficiency=FNR_EFFICIENCY) < 73 < kwh(19.5, efficiency=FNR_EFFICIENCY)


# Danish co-digestion plant: Danish Energy Agency, technology data for renewable fuels, sheet 81 small, 2020.

DANISH_TONNES, DANISH_METHANE = 595_200.0, 26.0485e6
DANISH_ENERGY = DANISH_METHANE * CONSTANT["methane_kwh_per_nm3"]


def test_danish_plant_energy_conversions() -> None:
    """29.6263 MW of methane; power of 10.190 kWh a tonne is 2.34 % of it, heat of 29.963 kWh a tonne 6.87 %."""
    megawatts = DANISH_ENERGY / HOURS / 1_000
    assert megawatts == pytest.approx(29.6263, rel=0.002)
    for per_tonne, share in ((10.190, 0.0234), (29.963, 0.0687)):
        used = own_use.process_power__per_tonne(DANISH_TONNES, per_tonne, 0.0, 0.0, 0.0) / DANISH_ENERGY
        assert used == pytest.approx(share, abs=0.00005)


def test_danish_plant_retention_and_load() -> None:
    """65 days and about 2.0 kg VS a m3 and day in 106,000 m3, at 16 % dry matter and 80 % volatile solids."""
    days, volume = CONSTANT["days_per_year"], 106_000.0
    flow = retention.feed_flow(np.array(DANISH_TONNES), CONSTANT["mix_t_per_m3"], np.array(days))
    assert retention.retention_by_volume(volume, 0.0, flow) == pytest.approx(65, rel=0.002)
    solids = feed.substrate_volatile_solids__feed(feed.substrate_dry_matter__feed(DANISH_TONNES, 0.16), 0.8)
    assert retention.loading_rate(solids, CONSTANT["kg_per_t"], np.array(volume), days) == pytest.approx(2.0, abs=0.05)


# Polish plant of 1 MW: Pilarski et al. 2023, Energies 16:7398.


def test_polish_plant_runs_near_half_its_rating() -> None:
    methane = 10_633e3 / CONSTANT["methane_kwh_per_nm3"]
    assert methane == pytest.approx(1.0665e6, rel=0.001)
    made = kwh(methane, efficiency=0.40)
    assert made / 8_000 == pytest.approx(532, rel=0.001)
    found = engine_against_energy(rated_kw=1_000, kwh_per_year=made, where="power_gross", whose="gross")
    assert capacity_factor(1_000, made) == pytest.approx(0.486, rel=0.002)
    assert found is not None and "oversized, or short of gas" in found.what
