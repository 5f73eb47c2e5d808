"""Grant tables on the plant: energy and its share of the farm's history, greenhouse gases, waste, jobs."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present import emission_tables
from appraisal.present.footing import Whole, whole
from appraisal.present.naming import item
from appraisal.present.numbers import counted, percent
from appraisal.present.tables import Table, units_of
from appraisal.present.words import BLANK
from appraisal.present.years import in_full_year
from appraisal.risk.material import Planned
from appraisal.scenario import reference

ENERGY = (
    ("power", "made by the engines", "power_gross"),
    ("power", "used by the plant, of its own", "power_own_use"),
    ("power", "used on the farm", "power_to_farm"),
    ("power", "sold to the grid", "power_sold"),
    ("power", "not taken by the grid", "power_curtailed"),
    ("power", "bought for the plant", "power_bought"),
    ("heat", "usable from the engines", "heat_recoverable"),
    ("heat", "from the boiler", "heat_from_boiler"),
    ("heat", "for the digester", "heat_digester_met"),
    ("heat", "for the house", "heat_to_house"),
    ("heat", "for the barn", "heat_to_barn"),
    ("heat", "for drying", "heat_to_dryer"),
    ("heat", "sold", "heat_sold"),
    ("heat", "lost in the main", "heat_lost_in_main"),
    ("heat", "not used", "heat_dumped"),
    ("gas", "sold to the gas grid", "gas_sold"),
    ("fuel", "replaced on the farm", "fuel_replaced"),
    ("fuel", "bought as backup", "backup_fuel_used"),
)
# What the plant gives beyond its own need: neither its own power nor the digester's heat counts.
GIVEN_OUT = ("power_sold", "power_to_farm", "heat_to_house", "heat_to_barn", "heat_to_dryer", "heat_sold", "gas_sold")
BALANCES = (
    (("power_gross",), ("power_own_use", "power_to_farm", "power_sold", "power_curtailed")),
    (
        ("heat_recoverable", "heat_from_boiler"),
        (
            "heat_digester_met",
            "heat_to_house",
            "heat_to_barn",
            "heat_to_dryer",
            "heat_sold",
            "heat_lost_in_main",
            "heat_dumped",
        ),
    ),
)  # what is made, and where it goes
ALWAYS = (
    "power_gross",
    "power_own_use",
    "power_to_farm",
    "power_sold",
    "heat_recoverable",
    "heat_dumped",
    "fuel_replaced",
)


HUNDREDTHS = 100  # of a job, as shown


def of_year(appraisal: Appraisal, name: str) -> float:
    """Sum of a line over the first full year, in the line's unit a year; nothing where the scenario has no such line."""
    if name not in appraisal.values:
        return 0.0
    return in_full_year(appraisal, name)


def energy(found: Planned) -> Table:
    """Energy generated, used and replaced in the first full year."""
    appraisal, units = found.appraisal, units_of(found.appraisal)
    shown = _whole_energy(appraisal)
    rows = [
        (kind, label, *units.cells(shown[name], "kWh"))
        for kind, label, name in ENERGY
        if name in ALWAYS or of_year(appraisal, name)
    ]
    title = f"Energy generated, used and replaced in project year {appraisal.plant.year}"
    return Table(title, ("kind", "what", "amount", "unit a year"), tuple(rows))


def _whole_energy(appraisal: Appraisal) -> dict[str, int]:
    """Energy of the first full year in whole kWh; the plant's own use and the digester's heat take what rounding leaves."""
    made = {name: round(of_year(appraisal, name)) for _, _, name in ENERGY}
    for sources, uses in BALANCES:
        made[uses[0]] += sum(made[name] for name in sources) - sum(made[name] for name in uses)
    return made


def given_out(appraisal: Appraisal) -> int:
    """Energy sold or used beyond the plant in the first full year, as the table of energy shows it [kWh/year]."""
    made = _whole_energy(appraisal)
    return sum(made[name] for name in GIVEN_OUT)


def energy_history(found: Planned) -> Table:
    """What the plant replaces of the farm's own energy, by fuel, and all energy made over all that was bought."""
    appraisal, units = found.appraisal, units_of(found.appraisal)
    farm = appraisal.loaded.scenario.farm_now
    named = appraisal.loaded.scenario.emissions.fuel
    fuel = f"heating fuel ({_small(reference.row('fuels', named)['label'])})" if named else "heating fuel"
    sides = (
        ("power", float(np.sum(farm.power_kwh)), of_year(appraisal, "power_to_farm")),
        (fuel, float(np.sum(farm.heating_fuel_kwh)), of_year(appraisal, "fuel_replaced")),
    )
    rows = [(name, *_history(before, less, units.cells)) for name, before, less in sides]
    made = given_out(appraisal)
    bought = sum(before for _, before, _ in sides)
    rows.append(("all energy sold or used beyond the plant, over all bought", *_history(bought, made, units.cells)))
    head = ("energy", "bought in a year\nwithout the plant", "replaced, or made", "unit a year", "share of history")
    return Table(f"Energy against the farm's own history, project year {appraisal.plant.year}", head, tuple(rows))


def _small(label: str) -> str:
    """A label within a sentence: abbreviations keep their capitals."""
    return " ".join(word if word.isupper() else word.lower() for word in label.split(" "))


def _history(before: float, less: float, cells: object) -> tuple[str, ...]:
    assert callable(cells)
    number, unit = cells(less, "kWh")
    if not before:
        return BLANK, number, unit, ""
    return cells(before, "kWh")[0], number, unit, percent(less / before)


def greenhouse_gases(found: Planned) -> Table:
    """By source: without the plant, with it, avoided."""
    return emission_tables.emissions_table(found.appraisal)


def greenhouse_gases_by_year(found: Planned) -> Table:
    """By project year and source."""
    return emission_tables.emissions_by_year_table(found.appraisal)


def tonnes(found: Planned) -> Table:
    """Tonnes made, sold, claimed elsewhere, claimable."""
    return emission_tables.tonnes_table(found.appraisal)


def waste(found: Planned) -> Table:
    """What is treated: tonnes by feed, where it went before, and what it pays."""
    appraisal, units = found.appraisal, units_of(found.appraisal)
    scenario = appraisal.loaded.scenario
    unit, fed, total = whole_treated(appraisal)
    incomes = whole_incomes(appraisal)
    fees = {name: incomes[f"substrate.{name}.tipping_fee"] for name in scenario.feed}
    rows = [(item(name), "manure", f"{fed[name]:,d}", unit, "", "", "") for name in appraisal.structure.items["herd"]]
    for name, feed in scenario.feed.items():
        buried = percent(feed.landfilled_share) if feed.landfilled_share else "none evidenced"
        supply = {"contract": f"contract of {counted(feed.contract_years, 'year')}"}.get(feed.supply_by, feed.supply_by)
        rows.append((item(name), "brought in", f"{fed[name]:,d}", unit, buried, supply, f"{fees[name]:,d}"))
    rows.append(("all", "", f"{total:,d}", unit, "", "", f"{sum(fees.values()):,d}"))
    head = (
        "feed",
        "kind",
        "treated",
        "unit a year",
        "kept out of\na landfill",
        "supply",
        f"pays a year,\n{units.currency}",
    )
    return Table(f"Waste and manure treated in project year {appraisal.plant.year}", head, tuple(rows))


def whole_incomes(appraisal: Appraisal) -> dict[str, int]:
    """Every line that is cash income in the first full year, in whole money that adds up to all of it [money/year]."""
    names = [name for name, node in appraisal.plan.nodes.items() if node.line.role == "cash_income"]
    made = whole(np.array([of_year(appraisal, name) for name in names]))
    return dict(zip(names, made.tolist(), strict=True))


def whole_treated(appraisal: Appraisal) -> tuple[str, dict[str, int], int]:
    """Unit of mass, what is treated of each herd and feed, and all of it, whole and footing; rain and wash water left out."""
    units = units_of(appraisal)
    names = (*appraisal.structure.items["herd"], *appraisal.structure.items["feed"])
    treated = [units.number(of_year(appraisal, f"substrate.{name}.tonnes"), "t")[0] for name in names]
    made = whole(np.array(treated))
    return units.number(0.0, "t")[1], dict(zip(names, made.tolist(), strict=True)), int(made.sum())


def jobs(found: Planned) -> Table:
    """Hours of work and the jobs they make by the stated hours of a job, whole hours and hundredths of a job that foot."""
    labour = found.loaded.scenario.labour
    per_job, built = labour.job_hours_per_year, labour.building_hours
    hours = hours_of_work(found.appraisal)
    made = whole(np.asarray(hours * (HUNDREDTHS / per_job), dtype=np.float64))
    parts = zip(("Hired, a year", "Family, a year"), hours.tolist(), made.tolist(), strict=True)
    rows = [
        *((work, f"{one:,d}", f"{job / HUNDREDTHS:.2f}") for work, one, job in parts),
        ("All, a year", f"{int(hours.sum()):,d}", f"{int(made.sum()) / HUNDREDTHS:.2f}"),
        ("While building, once", f"{built:,.0f}", f"{built / per_job:.2f}")
        if built
        else ("While building, once", BLANK, BLANK),
    ]
    title = f"Jobs in project year {found.appraisal.plant.year}; one job is {per_job:,.0f} hours a year"
    return Table(title, ("work", "hours", "jobs"), tuple(rows))


def hours_of_work(appraisal: Appraisal) -> Whole:
    """Hired hours and those of the family in the first full year, whole and footing (2,) [hour/year]."""
    return whole(np.array([of_year(appraisal, "hired_hours"), of_year(appraisal, "family_hours")]))
