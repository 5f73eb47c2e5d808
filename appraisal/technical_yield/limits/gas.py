"""Findings about the gas: its strength, where it comes from, what is flared, leaked and lost."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from appraisal.constants import CONSTANTS
from appraisal.errors import Finding
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import figure, row
from appraisal.scenario.said import converted, said
from appraisal.technical_yield.limits.band import band, year_of
from appraisal.technical_yield.plant_year import PlantYear, Values, months_of

CONSTANT = {constant.name: constant.value for constant in CONSTANTS}
METHANE_KG_PER_NM3, KG_PER_T = CONSTANT["methane_kg_per_nm3"], CONSTANT["kg_per_t"]
MEASURED_WITHIN = 0.2
WAYS_OUT = {
    "leaks": "methane_leaked",
    "from engines, boiler and upgrading": "methane_slipped",
    "unburned in the flare": "methane_unburned",
    "from the digestate store": "methane_from_store",
}
TOLD_FROM, LITTLE = 0.0005, 0.005  # of the methane made: less is 0.0 %; less is not worth a warning by itself, no source
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
        yield band("methane_share", share, scenario=scenario, where="biogas_made", figure=f"The gas is {share:.1%} methane")


def flared(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Share of the gas that is burnt for nothing."""
    if plant.methane_nm3 > 0:
        share = plant.methane_flared_nm3 / plant.methane_nm3
        yield band("flare_share", share, scenario=scenario, where="methane_flared", figure=f"{share:.1%} of the gas is flared")


def lost(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Methane that reaches the air, each way by itself; a note while it is the average of published plants and engine slip.

    The published average is of whole plants, engines on the site included (from memory), so that engine slip beside it
    errs on the safe side; nobody has measured a plant that is not built.
    """
    if plant.methane_nm3 <= 0:
        return
    ways = {word: year_of(values, line, plant) / plant.methane_nm3 for word, line in WAYS_OUT.items()}
    told = ", ".join(f"{share:.1%} {word}" for word, share in ways.items() if share >= TOLD_FROM)
    share = year_of(values, "methane_lost", plant) * KG_PER_T / METHANE_KG_PER_NM3 / plant.methane_nm3
    average = figure("project_losses", "leak_farm_typical", "mid").value / 100
    assumed = scenario.digester.leak_share == average
    leaks = " (leaks as in the average of published plants; 1% with a gas-tight store and a yearly survey)" if assumed else ""
    text = f"{share:.1%} of the methane escapes unburned: {told}{leaks}"
    found = band("methane_loss", share, scenario=scenario, where="methane_lost", figure=text)
    chosen = ways["unburned in the flare"] + ways["from the digestate store"]
    is_mere_average = assumed and chosen < LITTLE and found is not None and found.severity == "warning"
    yield replace(found, severity="note") if found is not None and is_mere_average else found


def under_contract(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Share of the gas that somebody else may stop."""
    share = plant.contract_gas_share
    text = f"{share:.1%} of the gas comes from feeds under contracts that may end"
    yield band("contract_gas_share", share, scenario=scenario, where="methane_that_may_end", figure=text)


def measured(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Measured gas against what the model expects of the same feed."""
    if scenario.digester.gas_method == "measured":
        ratio = float(values["measured_over_modelled"][0, 0])
        if not 1 - MEASURED_WITHIN <= ratio <= 1 + MEASURED_WITHIN:
            what = (
                f"The measured gas is {ratio:.2f} times what the model expects of this feed: check meter, feed and retention."
            )
            source = "common practice, no source: manure yields are known to about 20 %"
            yield Finding("digester.measured_gas_nm3_per_day", what, "warning", ratio, 1.0, "1", source)


def sulphide_raw(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Hydrogen sulphide before cleaning, in the worst month."""
    level = float(months_of(values, "h2s_raw", year=plant.year).max())
    text = f"The raw gas holds {level:,.0f} ppm of hydrogen sulphide (estimated from the sulphur of the feed)"
    yield band("h2s_raw", level, scenario=scenario, where="h2s_raw", figure=text)


def sulphide_at_engine(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Hydrogen sulphide after cleaning, in the worst month; a plan without any cleaning lacks a choice, not gas."""
    level, cleaning = float(months_of(values, "h2s_at_engine", year=plant.year).max()), scenario.cleaning
    used = [name for name in ("iron", "air", "carbon") if getattr(cleaning, name) == "yes"]
    if used:
        text = f"The engine gets {level:,.0f} ppm of hydrogen sulphide after {' and '.join(used)}"
        yield band("h2s_engine", level, scenario=scenario, where="h2s_at_engine", figure=text)
        return
    mass, cost = year_of(values, "sulphide_raw", plant), row("running_costs", "iron_chloride")
    low, high = (converted(scenario, float(cost[end]), "1/kg")[0] for end in ("low", "high"))
    of = converted(scenario, 0.0, "kg")[1]
    text = (
        f"No gas cleaning is in the plan: name air, iron or carbon under cleaning (to bind the {said(scenario, mass, 'kg')} "
        "of hydrogen "
        f"sulphide of a year, iron costs {low:.3g} to {high:.3g} {cost['currency']} of {cost['price_year']} for each {of}, "
        f"from memory). As it stands the engine gets {level:,.0f} ppm of hydrogen sulphide"
    )
    found = band("h2s_engine", level, scenario=scenario, where="h2s_at_engine", figure=text)
    yield replace(found, severity="warning") if found is not None and found.severity == "stop and ask" else found


def air(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Air dosed into the gas space, and the oxygen it leaves there."""
    if scenario.cleaning.air != "yes":
        return
    dosed = scenario.cleaning.air_share * 100
    left = float(months_of(values, "oxygen_in_gas", year=plant.year).max()) * 100
    yield band(
        "air_dosing", dosed, scenario=scenario, where="cleaning.air_share", figure=f"Air dosed is {dosed:.1f}% of the gas"
    )
    yield band(
        "oxygen_in_gas", left, scenario=scenario, where="oxygen_in_gas", figure=f"{left:.1f}% oxygen is left in the gas"
    )


def storage(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Hours of gas that the store holds, where a store is stated, on average of the year."""
    if scenario.gas.storage_m3 > 0:
        hours = float(months_of(values, "gas_storage_hours", year=plant.year).mean())
        yield band(
            "gas_storage",
            hours,
            scenario=scenario,
            where="gas_storage_hours",
            figure=f"The gas store holds {hours:.1f} hours of gas",
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
            f"The flare burns {said(scenario, scenario.gas.flare_nm3_per_hour, 'Nm3')} an hour, {least:.0%} of the "
            f"{said(scenario, float(peak.max()), 'Nm3')} "
            "at peak gas: when all else stands, gas is blown off unburnt, which is a hazard and may be forbidden."
        )
        yield Finding("flare_reach", what, "stop and ask" if short_of_mean else "warning", least, 1.0, "share", PRACTICE)
