"""Greenhouse gases, credits, units and nutrients against published figures (emissions.json: source, basis, tolerance)."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

from appraisal.scenario.reference import figure
from appraisal.technical_yield import reconcile
from tests.published.emission_cases import CASES
from tests.published.emission_figures import Values
from tests.published.emissions_of_manure import store_methane

RECORDS: dict[str, Values] = {
    record["id"]: record for record in json.loads((Path(__file__).parent / "emissions.json").read_text("utf-8"))
}
LEFT_OUT: Mapping[str, str] = {
    "F-esca": "bonus of a life-cycle rule for a product; the plant's own count needs no such bonus",
    "F-saving": "threshold of a life-cycle rule for a product, not of the plant",
    "S-lel": "explosive range: no figure of the appraisal rests on it; cautions say what to do",
    "S-ppm-mg": "parts per million as milligrams: no figure of the appraisal rests on it",
}
PUBLISHED = "EF_published_rounded"  # a figure its source rounds to a whole number


# Printed with so few digits that half of the last one is more than the tolerance.
HALF_A_DIGIT: Mapping[tuple[str, str], float] = {
    ("G-kw-kwh-flag", "capacity_factor"): 5e-7,
    ("T-eref-regions", "change_percent"): 5e-3,
}


def leaves(value: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Every single figure in nested lists and tables, with its path."""
    if isinstance(value, dict | list):
        for key, part in value.items() if isinstance(value, dict) else enumerate(value):
            yield from leaves(part, (*path, str(key)))
    else:
        yield path, value


def allowed(record: Values, path: tuple[str, ...], expected: float) -> float:
    """Absolute tolerance of one figure."""
    given = record["tolerance"]
    if "formula_abs" in given:
        return float(given["published_abs" if path[0] == PUBLISHED else "formula_abs"])
    rounded = HALF_A_DIGIT.get((record["id"], path[0]), 0.0)
    return float(given.get("abs", 0.0)) + abs(expected) * float(given.get("rel", 0.0)) + rounded


def test_there_are_sixty_one_records_each_with_a_case_or_a_reason() -> None:
    assert len(RECORDS) == 61
    assert set(CASES) | set(LEFT_OUT) == set(RECORDS) and not set(CASES) & set(LEFT_OUT)


NOT_A_FIGURE = {("flags", "0"), ("flags", "1"), ("flags", "2"), ("boiler_hp_Btu_per_h",)}  # words, or a figure put in


@pytest.mark.parametrize("name", sorted(CASES))
def test_published_figure(name: str) -> None:
    record = RECORDS[name]
    ours, theirs = dict(leaves(CASES[name](record["inputs"]))), dict(leaves(record["expected"]))
    about = f"{record['topic']}; source: {record['source']}; known: {record['basis']}"
    assert set(ours) == set(theirs) - NOT_A_FIGURE, about
    for path, value in ours.items():
        assert abs(value - theirs[path]) <= allowed(record, path, theirs[path]), (
            f"{path} {value} {theirs[path]}: {about}"
        )


def test_the_engine_is_judged_as_the_record_says() -> None:
    record = RECORDS["G-kw-kwh-flag"]
    for case, flag in zip(record["inputs"]["cases"], record["expected"]["flags"], strict=True):
        found = reconcile.engine_against_energy(
            rated_kw=case["kW"], kwh_per_year=case["kWh_per_year"], where="said", whose="said"
        )
        assert (found is None) == (flag == "ok")
        assert found is None or found.severity == ("stop and ask" if "above 1" in flag else "warning")


@pytest.mark.parametrize("name", [name for name in RECORDS if name.startswith("A-tier1")])
def test_the_shipped_factors_are_those_behind_the_published_ones(name: str) -> None:
    """IPCC 2006 Table 10.17 as shipped gives back the published factors of Table 10.14."""
    i, systems = RECORDS[name]["inputs"], {"solid": "solid_storage"}
    for system, per_cent in i["MCF_percent"].items():
        id = f"{systems.get(system, system)}_{i['mean_temp_C']}"
        assert figure("manure_methane_2006", id, "mcf_pct").value == per_cent, id
    region = {"Western Europe": "we", "North America": "na", "Eastern Europe": "ee"}[i["region"]]
    assert figure("manure_potential", f"2006_dairy_{region}", "vs_kg_per_head_d").value == i["VS_kg_per_head_day"]


POTENTIALS = (  # technical examples after equation 10.23: row, kg VS a year, m3, kg CH4; IPCC 2006 and 2019, values read
    ("2006_dairy_na", 1971.0, 473.0, 316.9),
    ("2019_dairy_na", 5.98 * 365, 523.8, 351.0),
    ("2006_market_swine_we", 110.0, 49.5, 33.2),
)


@pytest.mark.parametrize(("id", "solids", "volume", "methane"), POTENTIALS)
def test_methane_potential_of_excreted_manure(id: str, solids: float, volume: float, methane: float) -> None:
    """IPCC 2006 and 2019, Vol 4 Ch 10: values read, arithmetic by equation 10.23; tolerance 0.1 % and the printed digits."""
    a_year = figure("manure_potential", id, "vs_kg_per_head_d").value * 365
    assert a_year == pytest.approx(solids, rel=5e-3)
    b0 = figure("manure_potential", id, "b0_m3_per_kg_vs").value
    assert solids * b0 == pytest.approx(volume, rel=1e-3)
    assert store_methane(solids / 1000, b0, 0.67, 1.0) * 1000 == pytest.approx(methane, rel=1.5e-3)


def test_liquid_store_of_a_north_american_cow() -> None:
    """IPCC 2006: 63.4 kg CH4 a year at a factor of 20 %."""
    assert store_methane(1.971, 0.24, 0.67, 0.20) * 1000 == pytest.approx(63.4, rel=1e-3)


@pytest.mark.parametrize(("b0", "printed"), [(0.24, 3.2), (0.45, 6.0)])
def test_solid_storage_against_the_table_per_kg_of_solids(b0: float, printed: float) -> None:
    """IPCC 2019 Table 10.14, high productivity, cool: 3.2 (dairy) and 6.0 (swine) g CH4 per kg VS, one decimal printed."""
    share = figure("manure_methane_2019", "solid_storage_cool_temperate_moist", "mcf_pct").value / 100
    assert store_methane(1.0, b0, 0.67, share) * 1000 == pytest.approx(printed, abs=0.05)
