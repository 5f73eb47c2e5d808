"""Findings about the gas: its strength, where it comes from, what is flared, leaked and lost."""

from __future__ import annotations

from collections.abc import Iterator

from appraisal.constants import CONSTANTS
from appraisal.errors import Finding
from appraisal.scenario.model import Scenario
from appraisal.technical_yield.limits.band import band, year_of
from appraisal.technical_yield.plant_year import PlantYear, Values, months_of

CONSTANT = {constant.name: constant.value for constant in CONSTANTS}
METHANE_KG_PER_NM3, KG_PER_T = CONSTANT["methane_kg_per_nm3"], CONSTANT["kg_per_t"]
MEASURED_WITHIN = 0.2
PRACTICE = "common practice, no source"


def no_gas(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """A plant that makes no gas, or no power and sells no gas either, has nothing to judge."""
    upgraded = scenario.upgrading.takes != "nothing"
    if plant.methane_nm3 <= 0 or (plant.power_gross_kwh <= 0 and not upgraded):
        what = "In its first full year the plant makes no gas or no power."
        yield Finding("methane_made", what, "stop and ask", plant.methane_nm3, 0.0, "Nm3/year", "arithmetic")


def strength(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Methane share of the gas."""
    if plant.biogas_nm3 > 0:
        share = plant.methane_nm3 / plant.biogas_nm3
        yield band("methane_share", share, where="biogas_made", figure=f"The gas is {share:.1%} methane")


def flared(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Share of the gas that is burnt for nothing."""
    if plant.methane_nm3 > 0:
        share = plant.methane_flared_nm3 / plant.methane_nm3
        yield band("flare_share", share, where="methane_flared", figure=f"{share:.1%} of the gas is flared")


def lost(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Methane that reaches the air: leaks, what engines and flare leave, and the digestate store."""
    if plant.methane_nm3 > 0:
        share = year_of(values, "methane_lost", plant) * KG_PER_T / METHANE_KG_PER_NM3 / plant.methane_nm3
        yield band("methane_loss", share, where="methane_lost", figure=f"{share:.1%} of the methane escapes unburned")


def under_contract(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Share of the gas that somebody else may stop."""
    share = plant.contract_gas_share
    figure = f"{share:.1%} of the gas comes from feeds under contracts that may end"
    yield band("contract_gas_share", share, where="methane_that_may_end", figure=figure)


def measured(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Measured gas against what the model expects of the same feed."""
    if scenario.digester.gas_method == "measured":
        ratio = float(values["measured_over_modelled"][0, 0])
        if not 1 - MEASURED_WITHIN <= ratio <= 1 + MEASURED_WITHIN:
            what = (
                f"The measured gas is {ratio:.2f} times what the model expects of this feed: check meter, feed and "
                "retention."
            )
            source = "common practice, no source: manure yields are known to about 20 %"
            yield Finding("digester.measured_gas_nm3_per_day", what, "warning", ratio, 1.0, "1", source)


def sulphide_raw(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Hydrogen sulphide before cleaning, in the worst month."""
    level = float(months_of(values, "h2s_raw", year=plant.year).max())
    figure = f"The raw gas holds {level:,.0f} ppm of hydrogen sulphide (estimated from the sulphur of the feed)"
    yield band("h2s_raw", level, where="h2s_raw", figure=figure)


def sulphide_at_engine(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Hydrogen sulphide after whatever cleaning there is, in the worst month."""
    level, cleaning = float(months_of(values, "h2s_at_engine", year=plant.year).max()), scenario.cleaning
    used = [name for name in ("iron", "air", "carbon") if getattr(cleaning, name) == "yes"]
    after = f"after {' and '.join(used)}" if used else "with no cleaning in the plan"
    figure = f"The engine gets {level:,.0f} ppm of hydrogen sulphide {after}"
    yield band("h2s_engine", level, where="h2s_at_engine", figure=figure)


def air(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Air dosed into the gas space, and the oxygen it leaves there."""
    if scenario.cleaning.air != "yes":
        return
    dosed = scenario.cleaning.air_share * 100
    left = float(months_of(values, "oxygen_in_gas", year=plant.year).max()) * 100
    yield band("air_dosing", dosed, where="cleaning.air_share", figure=f"Air dosed is {dosed:.1f} % of the gas")
    yield band("oxygen_in_gas", left, where="oxygen_in_gas", figure=f"{left:.1f} % oxygen is left in the gas")


def storage(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Hours of gas that the store holds, where a store is stated, on average of the year."""
    if scenario.gas.storage_m3 > 0:
        hours = float(months_of(values, "gas_storage_hours", year=plant.year).mean())
        yield band(
            "gas_storage", hours, where="gas_storage_hours", figure=f"The gas store holds {hours:.1f} hours of gas"
        )


def flare(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """The flare, where one is stated, against the peak gas of the worst month."""
    reach, peak = (months_of(values, name, year=plant.year) for name in ("flare_reach", "peak_gas"))
    if scenario.gas.flare_nm3_per_hour <= 0 or not (peak > 0).any():
        return
    least = float(reach[peak > 0].min())
    if least < 1:
        short_of_mean = least * scenario.gas.peak_over_mean < 1
        what = (
            f"The flare burns {scenario.gas.flare_nm3_per_hour:,.0f} Nm3 an hour, {least:.0%} of the {float(peak.max()):,.0f} "
            "at peak gas: when all else stands, gas is blown off unburnt, which is a hazard and may be forbidden."
        )
        yield Finding(
            "flare_reach", what, "stop and ask" if short_of_mean else "warning", least, 1.0, "share", PRACTICE
        )
