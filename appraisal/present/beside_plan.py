"""One case beside another: the few figures a reader watches while something is moved."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.numbers import percent
from appraisal.present.tables import Table, units_of

Row = tuple[str, str, str, str]
NOTHING_SPENT = "nothing spent"  # word of the payback of the farm as it is
NOTHING_BUILT = "nothing built"


def beside_table(plain: Appraisal, moved: Appraisal) -> Table:
    """The unchanged case, the moved case and the difference, in words where a figure is missing."""
    head = ("", "as in your file", "with the levers", "difference")
    return Table("What the levers do", head, tuple(_rows(plain, moved)))


def _rows(plain: Appraisal, moved: Appraisal) -> Iterator[Row]:
    money = units_of(plain).money
    one, two = plain.headline, moved.headline
    worth = float(one.npv[0]), float(two.npv[0])
    rate = percent(plain.loaded.scenario.judging.discount_rate)
    yield f"Worth today, at {rate} a year", money(worth[0]), money(worth[1]), _signed(worth[1] - worth[0], money(0)[2:])
    yield _measure("Least cover of the loan", _cover(plain), _cover(moved), 2)
    yield _measure("The same on signed contracts only", _cover(plain, signed=True), _cover(moved, signed=True), 2)
    yield _measure("Years until the money is back", _payback(plain), _payback(moved), 1)
    low = tuple(float(each.values["bank_balance"][0].min()) for each in (plain, moved))
    yield "Lowest point of the account", money(low[0]), money(low[1]), _signed(low[1] - low[0], money(0)[2:])


def _signed(difference: float, currency: str) -> str:
    return f"{difference + 0.0:+,.0f} {currency}" if abs(difference) >= 1 else "none"


def _cover(appraisal: Appraisal, *, signed: bool = False) -> tuple[float | None, str]:
    least = appraisal.money.bank.least["signed_contracts_only"] if signed else appraisal.headline.dscr_min
    word = least.words[0]
    return (None, word) if word == "no debt due" else (float(least.value[0]), "")


def _payback(appraisal: Appraisal) -> tuple[float | None, str]:
    back = appraisal.headline.payback_years
    word = back.words[0]
    return (float(back.value[0]), "") if np.isfinite(back.value[0]) else (None, word)


def _measure(label: str, one: tuple[float | None, str], two: tuple[float | None, str], places: int) -> Row:
    """A row of two figures that may be missing."""
    if one[0] is None or two[0] is None:
        return label, _said(one, places), _said(two, places), ""
    difference = round(two[0] - one[0], places)
    return label, _said(one, places), _said(two, places), f"{difference:+.{places}f}" if difference else "none"


def _said(measure: tuple[float | None, str], places: int) -> str:
    return measure[1] if measure[0] is None else f"{measure[0]:z.{places}f}"


def plans_table(plans: Mapping[str, Appraisal]) -> Table:
    """Several plans side by side under their names: what each costs, needs, earns and risks, in words where a figure lacks."""
    columns = [_plan_column(each) for each in plans.values()]
    rows = tuple((label, *(column[label] for column in columns)) for label in columns[0])
    return Table("The plans side by side", ("", *plans), rows)


def _plan_column(appraisal: Appraisal) -> dict[str, str]:
    """The figures of one plan by what they are."""
    units, values, plant = units_of(appraisal), appraisal.values, appraisal.plant
    labour, judging = appraisal.loaded.scenario.labour, appraisal.loaded.scenario.judging
    grave = sum(1 for found in appraisal.findings if found.severity == "stop and ask")
    return {
        "Costs to build": units.money(0.0 - float(values["investment"][0].sum())),
        "Grants": units.money(float(values["grants"][0].sum())),
        "Worth today": units.money(float(appraisal.headline.npv[0])),
        "Counted at, a year": percent(judging.discount_rate),
        "Years until the money is back": _said(_payback(appraisal), 1),
        "Least cover of the loan": _said(_cover(appraisal), 2),
        "The same on signed contracts only": _said(_cover(appraisal, signed=True), 2),
        "Lowest point of the account": units.money(float(values["bank_balance"][0].min())),
        "Power sold in a full year": units.amount(plant.power_sold_kwh, "kWh"),
        "Gas from feeds that may end": percent(plant.contract_gas_share),
        "Family hours a week": f"{labour.family_hours_per_week:g}",
        "Findings that say stop and ask": NOTHING_BUILT if _payback(appraisal)[1] == NOTHING_SPENT else f"{grave}",
    }
