"""Tables of a result: titles, heads and rows of text, for terminal, screen and papers alike."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.footing import whole
from appraisal.present.naming import item
from appraisal.present.numbers import Units, alike, percent, rounded
from appraisal.present.whole_years import whole_years
from appraisal.present.years import in_full_year

PLANT_ROWS = (
    ("Fed to the digester, water included", "tonnes_fed", "t"),
    ("Methane made", "methane_nm3", "Nm3"),
    ("Biogas made", "biogas_nm3", "Nm3"),
    ("Methane to upgrading", "methane_to_upgrading_nm3", "Nm3"),
    ("Methane sold to the gas grid", "methane_sold_nm3", "Nm3"),
    ("Methane burned in the boiler", "methane_to_boiler_nm3", "Nm3"),
    ("Methane flared", "methane_flared_nm3", "Nm3"),
    ("Gross power", "power_gross_kwh", "kWh"),
    ("Power used by the plant", "power_own_use_kwh", "kWh"),
    ("Power bought for the plant", "power_bought_kwh", "kWh"),
    ("Power used on the farm", "power_to_farm_kwh", "kWh"),
    ("Power sold", "power_sold_kwh", "kWh"),
    ("Usable engine heat", "heat_recoverable_kwh", "kWh"),
    ("Heat the digester needs", "heat_to_digester_kwh", "kWh"),
    ("Heat from the biogas boiler", "heat_from_boiler_kwh", "kWh"),
    ("Engine heat used in all", "heat_used_kwh", "kWh"),
    ("Heat bought", "heat_shortfall_kwh", "kWh"),
    ("Digestate", "digestate_t", "t"),
    ("Nitrogen in digestate", "n_kg", "kg"),
    ("Phosphorus in digestate (P)", "p_kg", "kg"),
    ("Potassium in digestate (K)", "k_kg", "kg"),
)
ONLY_WHERE_USED = ("methane_to_upgrading_nm3", "methane_sold_nm3", "methane_to_boiler_nm3", "heat_from_boiler_kwh")
MOVED_HEAD, SWEPT_HEAD = "moved in\ntime", "prepaid\nby sweep"
BUILDING = ("investment", "grants", "loans_drawn", "fees_paid", "bridge_moves", "bridge_interest_paid", "disposals")
MOVED = ("sales_tax_moves", "working_capital_moves", "debt_reserve_moves", "overhaul_reserve_moves", "lock_up_moves")
YEAR_COLUMNS = (
    ("income", ("cash_income",)),
    ("bills\nsaved", ("evidenced_savings",)),
    ("other\nsavings", ("modelled_savings",)),
    ("running\ncosts", ("running_costs",)),
    ("overhauls", ("overhauls_paid",)),
    ("building, less\ngrants, loans", BUILDING),
    (MOVED_HEAD, MOVED),
    ("debt\nservice", ("debt_service",)),
    (SWEPT_HEAD, ("loans_prepaid",)),
    ("tax", ("taxes", "tax_credits_paid_out")),
    ("left for\nthe family", ("net_cash",)),
)


@dataclass(frozen=True)
class Table:
    """A titled table of text."""

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def units_of(appraisal: Appraisal) -> Units:
    """Unit system and currency of the scenario."""
    project = appraisal.loaded.scenario.project
    return Units(project.display_units, project.currency)


def plant_table(appraisal: Appraisal) -> Table:
    """The first full year of the plant."""
    units, plant = units_of(appraisal), appraisal.plant
    shown = [row for row in PLANT_ROWS if row[1] not in ONLY_WHERE_USED or getattr(plant, row[1]) > 0]
    rows = [(label, *units.cells(getattr(plant, field), unit)) for label, field, unit in shown]
    rows += [
        ("Engine run hours", rounded(plant.engine_hours), "hours"),
        ("Power made, of the most the engines could make", percent(plant.capacity_factor), ""),
        ("Gas under contracts that may end", percent(plant.contract_gas_share), ""),
    ]
    return Table(f"The plant in project year {plant.year}, its first full year", ("", "amount", "unit"), tuple(rows))


def feeds_table(appraisal: Appraisal) -> Table:
    """What each feed gives in the first full year."""
    units = units_of(appraisal)
    names = [*appraisal.structure.items["herd"], *appraisal.structure.items["feed"]]
    sums = {
        name: [in_full_year(appraisal, f"substrate.{name}.{line}") for line in ("tonnes", "methane", "nitrogen")]
        for name in names
    }
    made = sum(methane for _, methane, _ in sums.values()) or 1.0
    heads = [units.cells(0.0, unit)[1] for unit in ("t", "Nm3", "kg")]
    columns = [
        alike(units.number(row[place], unit)[0] for row in sums.values()) for place, unit in enumerate(("t", "Nm3", "kg"))
    ]
    rows = tuple(
        (item(name), *(column[place] for column in columns), percent(row[1] / made))
        for place, (name, row) in enumerate(sums.items())
    )
    return Table(
        f"What each feed gives in project year {appraisal.plant.year}",
        ("feed", f"fed, {heads[0]}", f"methane, {heads[1]}", f"nitrogen, {heads[2]}", "share of gas"),
        rows,
    )


def money_table(appraisal: Appraisal) -> Table:
    """Money in and out by project year; every column sums months, `left` adds them up, the last column runs on."""
    amounts = whole_years(appraisal)
    sums = {head: np.sum([amounts[name] for name in names], axis=0) for head, names in YEAR_COLUMNS}
    shown = {head: column for head, column in sums.items() if head not in (MOVED_HEAD, SWEPT_HEAD) or column.any()}
    columns = (*shown.values(), amounts["bank_balance"])
    rows = tuple(
        (str(year + 1), *(f"{column[year]:,}" for column in columns)) for year in range(appraisal.timeline.years)
    )
    title = f"Money by project year, {units_of(appraisal).currency}; what goes out carries a minus"
    return Table(title, ("year", *shown, "family's cash\nat year end"), rows)


def funding_table(appraisal: Appraisal) -> Table:
    """Where the money for building comes from and where it goes; interest that is added to a loan is no use of funds."""
    values, scenario = appraisal.values, appraisal.loaded.scenario
    total = {name: float(values[name][0].sum()) for name in ("fees_paid", "interest_while_building", "grants")}
    reserve = sum(float(values[f"loan.{name}.reserve_from_start"][0, 0]) for name in scenario.loan)
    uses = [
        ("Capital with contingency", float(values["building_cost"][0, 0])),
        ("Loan fees", -total["fees_paid"]),
        ("Interest while building", -total["interest_while_building"]),
        ("Interest on the bridge loan while building", -float(values["bridge_cost_while_building"][0].sum())),
        ("Debt reserve", reserve),
    ]
    sources = [
        ("Grants", total["grants"]),
        *((scenario.loan[name].label or name, float(values[f"loan.{name}.sum"][0, 0])) for name in scenario.loan),
        ("Family's own money, for building", float(values["own_money_needed"][0, 0])),
    ]
    in_all = float(values["uses_of_funds"][0, 0])
    parts = [row for side, amounts in (("Uses", uses), ("Sources", sources)) for row in _side(side, amounts)]
    shares = [share for side in ("Uses", "Sources") for share in _tenths(side, parts, in_all)]
    rows = tuple(
        (side, label, f"{amount:,}", f"{share / 10:.1f}%")
        for (side, label, amount), share in zip(parts, shares, strict=True)
    )
    return Table(
        f"Where the money comes from and goes, {scenario.project.currency}", ("", "", "amount", "of all"), rows
    )


def _side(side: str, amounts: list[tuple[str, float]]) -> list[tuple[str, str, int]]:
    """One side of the funding in whole amounts that add up to its last row."""
    made = [int(amount) for amount in whole(np.array([amount for _, amount in amounts]))]
    there = [(side, label, one) for one, (label, amount) in zip(made, amounts, strict=True) if amount]
    return [*there, (side, "in all", sum(made))]


def _tenths(side: str, parts: list[tuple[str, str, int]], in_all: float) -> list[int]:
    """Tenths of a per cent of the lines of one side and of their sum, to which they add up."""
    *lines, total = (amount / (in_all or 1.0) * 1000 for name, _, amount in parts if name == side)
    return [*(int(each) for each in whole(np.array(lines), total=round(total))), round(total)]


def farm_now_table(appraisal: Appraisal) -> Table:
    """The farm as it is and with the plant: bills of a year, and what falls away in the first full year."""
    farm, units, year = appraisal.loaded.scenario.farm_now, units_of(appraisal), appraisal.plant.year - 1
    saved = {
        name: in_full_year(appraisal, name)
        for name in ("power_bill_saved", "fuel_bill_saved", "fertilizer_saved", "bedding_saved")
    }
    bills = (
        ("Power", _year(farm.power_bill), saved["power_bill_saved"]),
        ("Heating fuel", _year(farm.heating_fuel_bill), saved["fuel_bill_saved"]),
        ("Fertilizer", farm.fertilizer_bill, saved["fertilizer_saved"]),
        ("Bedding", farm.bedding_bill, saved["bedding_saved"]),
        ("Hauling and spreading", farm.hauling_bill, 0.0),
    )
    rows = tuple((label, f"{bill:,.0f}", f"{less:,.0f}") for label, bill, less in bills if bill or less)
    head = ("", "as it is,\ntoday's prices", f"saved in project year {year + 1},\nat that year's prices")
    return Table(f"The farm's bills, {units.currency} a year", head, rows)


def _year(profile: list[float]) -> float:
    return float(np.sum(profile))


def findings_table(appraisal: Appraisal) -> Table:
    """Every finding, most serious first."""
    rows = tuple((finding.severity, finding.where, finding.what) for finding in appraisal.findings)
    return Table("What to ask about", ("how serious", "where", "finding"), rows)
