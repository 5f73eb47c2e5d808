"""What to ask about the count of greenhouse gases."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from appraisal.errors import Finding
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row
from appraisal.scenario.said import plain, said
from appraisal.technical_yield.limits.band import sourced
from appraisal.technical_yield.plant_year import PlantYear, Values, months_of

ALMOST = 0.01  # of the tonnes avoided: rounding of the two ways to count
WITHIN_K = 1.5  # of the yearly mean temperature that a store's factor stands for
SET_2006 = "IPCC 2006, Vol 4 Ch 10, Table 10.17, by yearly mean temperature"
ZONES = "IPCC 2006/2019, Vol 4 Ch 3, climate classification"


def findings(scenario: Scenario, values: Values, plant: PlantYear) -> tuple[Finding, ...]:
    """All findings on greenhouse gases of one case (the first draw)."""
    return (
        *_no_store_today(scenario, values, plant),
        *_two_sets(scenario),
        *_store_temperature(scenario),
        *_open_store(scenario, values, plant),
        *_more_sold_than_made(values),
    )


def _no_store_today(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding]:
    """Herds whose manure counts no methane today, beside a plant whose losses are counted."""
    names = [
        name
        for name in scenario.herd
        if months_of(values, f"substrate.{name}.volatile_solids", year=plant.year).any()
        and not values[f"substrate.{name}.baseline_methane"].any()
    ]
    if names:
        what = (
            f"No store of today is named for {', '.join(map(plain, names))}: the count takes its manure to give off no "
            "methane now, while "
            "the plant's own losses are counted in full. Name the store of each herd and a method for manure, or the plant "
            "looks "
            "worse for the climate than it is."
        )
        yield Finding("emissions.manure_method", what, "note", 0.0, None, "t/year", SET_2006)


def _two_sets(scenario: Scenario) -> Iterator[Finding]:
    """The programme's warming of methane against that of the count."""
    programme, count = scenario.credits.gwp_methane, scenario.emissions.gwp_methane
    if scenario.credits.price_per_t_co2e > 0 and programme != count:
        what = (
            f"Credits count methane {programme:g} times CO2, the table of greenhouse gases {count:g} times "
            f"({plain(scenario.emissions.gwp_set)}): right if the programme asks for it, and never to be mixed in one sum."
        )
        source = f"warming factors of the set {plain(scenario.emissions.gwp_set)}"
        yield Finding("credits.gwp_methane", what, "note", programme, count, "t CO2e/t", source)


def _store_temperature(scenario: Scenario) -> Iterator[Finding]:
    """The climate that a store's factor stands for, against the air of the site."""
    method, air = scenario.emissions.manure_method, float(np.mean(scenario.site.air_temperature_degc))
    for name, herd in scenario.herd.items():
        if method == "ipcc_2006" and herd.store_2006:
            stands_for = float(row("manure_methane_2006", herd.store_2006)["temperature_degC"])
            low, high, source = stands_for - WITHIN_K, stands_for + WITHIN_K, SET_2006
            low = -np.inf if stands_for <= 10 else low
        elif method == "ipcc_2019" and herd.store_2019:
            zone = row("climate_zones", row("manure_methane_2019", herd.store_2019)["climate_zone"])
            low = float(zone["mean_from_degC"] or -np.inf) - WITHIN_K
            high, source = float(zone["mean_to_degC"] or np.inf) + WITHIN_K, ZONES
        else:
            continue
        if not low <= air <= high:
            mean = said(scenario, air, "degC", ".1f")
            what = f"The factor of this store stands for another climate than the site, whose yearly mean is {mean}."
            limit = high if air > high else low
            yield Finding(f"herd.{name}.store_{method[-4:]}", what, "warning", air, limit, "degC", source)


def _open_store(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding]:
    """Credits that leave the digestate store out."""
    credited = float(months_of(values, "credit_tonnes", year=plant.year).sum())
    if scenario.store.methane_loss_share == 0 and credited > 0:
        what = (
            "Credits are counted with no methane from the digestate store. Only a gas-tight store comes near that: name "
            "the store."
        )
        facts = row("project_losses", "open_store_long")
        source = sourced(facts["source"], facts["basis"])
        yield Finding("store.methane_loss_share", what, "warning", 0.0, 0.01, "share", source)


def _more_sold_than_made(values: Values) -> Iterator[Finding]:
    """Tonnes sold and claimed against those avoided over all sources, in the months in which any are given away."""
    given = sum(values[f"tonnes_{kind}"][0] for kind in ("sold", "withheld", "claimed_elsewhere"))
    months = np.asarray(given) > 0
    gone, made = float(np.sum(given)), max(float(values["emissions_avoided"][0][months].sum()), 0.0)
    if gone > made * (1 + ALMOST):
        what = (
            f"{gone:,.0f} t CO2e are sold or claimed by others, but over all sources the plant avoids {made:,.0f} t CO2e in "
            "those months: a programme counts part of the sources only. Nothing of them is left for the farm to claim."
        )
        yield Finding("tonnes_claimable", what, "warning", gone, made, "t CO2e", "the count of this scenario")
