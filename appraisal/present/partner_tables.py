"""A shared plant by partner, as tables and as an object; pure functions of an appraisal."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.footing import whole
from appraisal.present.numbers import Units, percent
from appraisal.present.tables import Table, units_of

PHYSICAL = (
    ("Brings", "tonnes", "t"),
    ("with nitrogen", "n_kg", "kg"),
    ("with phosphorus (P)", "p_kg", "kg"),
    ("with potassium (K)", "k_kg", "kg"),
    ("Takes digestate", "tonnes_back", "t"),
    ("with nitrogen", "n_kg_back", "kg"),
    ("with phosphorus (P)", "p_kg_back", "kg"),
    ("with potassium (K)", "k_kg_back", "kg"),
)
MONEY = (
    ("Fees of the feeds it brings, year {year}", "fees"),
    ("Building and financing cost", "capital"),
    ("Grants", "grants"),
    ("Loans it answers for", "loans"),
    ("Own money", "own_money"),
    ("Left for it, year {year}", "cash_of_year"),
    ("Left for it in all years", "cash_in_all"),
)


def partners_tables(appraisal: Appraisal) -> tuple[Table, ...]:
    """What each partner brings and takes, and its part of the money, with the whole; nothing without partners."""
    sides = appraisal.partners
    if not sides:
        return ()
    units, year = units_of(appraisal), appraisal.plant.year
    heads = (*(side.label for side in sides), "all")
    flows = tuple(
        (label, *_whole_with_sum([getattr(side, field) for side in sides], unit, units))
        for label, field, unit in PHYSICAL
    )
    shares = ("Part of the plant", *(percent(value) for value in _with_sum([side.share for side in sides])))
    money = tuple(
        (
            label.format(year=year),
            *_whole_with_sum([getattr(side, field) for side in sides], "money", units, told=False),
        )
        for label, field in MONEY
    )
    return (
        Table(f"Who brings and takes what, project year {year}", ("", *heads), flows),
        Table(f"Who answers for what, {units.currency}", ("", *heads), (shares, *money)),
    )


def partners_object(appraisal: Appraisal) -> list[dict[str, Any]]:
    """Every partner's side as plain numbers, for `--json`: t, kg and money."""
    return [asdict(side) for side in appraisal.partners]


def _whole_with_sum(values: list[float], unit: str, units: Units, *, told: bool = True) -> list[str]:
    """Whole amounts in the reader's unit, with their sum, which they give; `told`: with the unit behind each."""
    label = f" {units.number(0.0, unit)[1]}" if told else ""
    made = whole(np.array([units.number(value, unit)[0] for value in values]))
    return [f"{amount:,}{label}" for amount in (*made, made.sum())]


def _with_sum(values: list[float]) -> list[float]:
    return [*values, sum(values)]
