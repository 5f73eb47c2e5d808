"""A shared plant by partner: what each brings, takes, puts in, and what is left for it; every column adds to the whole."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from appraisal.lines.evaluate import year_sum
from appraisal.measures.arrays import FloatArray
from appraisal.scenario.model import Scenario
from appraisal.scenario.partner import brought_names

Values = Mapping[str, FloatArray]
JOINT = "joint"  # what no partner brings


@dataclass(frozen=True)
class PartnerSide:
    """One partner's side of the first full year, and of the whole project where it says so (the first draw).

    share: of the plant. tonnes, n_kg, p_kg, k_kg: brought in that year; fees [money/year]: of the feeds it brings, earned
    less paid. tonnes_back, n_kg_back, p_kg_back, k_kg_back: digestate it takes. capital, grants, loans, own_money [money]:
    its part of the building. cash_of_year [money/year]: its part of what is left; cash_in_all [money]: of all years.
    """

    name: str
    label: str
    share: float
    tonnes: float
    n_kg: float
    p_kg: float
    k_kg: float
    fees: float
    tonnes_back: float
    n_kg_back: float
    p_kg_back: float
    k_kg_back: float
    capital: float
    grants: float
    loans: float
    own_money: float
    cash_of_year: float
    cash_in_all: float


NUTRIENTS = {"n": "nitrogen", "p": "phosphorus", "k": "potassium"}


def partners(scenario: Scenario, values: Values, *, year: int) -> tuple[PartnerSide, ...]:
    """Every partner's side, and a last one for what nobody brings; empty when the scenario names no partners.

    values: lines by full name. year: project year of the yearly figures, from 1.
    """
    if not scenario.partner:
        return ()
    bringing = {name: brought_names(partner) for name, partner in scenario.partner.items()}
    nobody = tuple(n for n in (*scenario.herd, *scenario.feed) if not any(n in names for names in bringing.values()))
    brought = {name: _brought(values, names, year) for name, names in (*bringing.items(), (JOINT, nobody))}
    back = _parts_of_digestate(scenario, {name: found["tonnes"] for name, found in brought.items()})
    sides = [
        _side(
            values, year, name=name, label=item.label or name, share=item.plant_share, back=back[name], brought=brought[name]
        )
        for name, item in scenario.partner.items()
    ]
    if nobody:
        sides.append(
            _side(
                values, year, name=JOINT, label="The joint plant", share=0.0, back=0.0, brought=brought[JOINT]
            )
        )
    return tuple(sides)


def _side(
    values: Values, year: int, *, name: str, label: str, share: float, back: float, brought: Mapping[str, float]
) -> PartnerSide:
    spent, granted, lent = (_in_all(values, line) for line in ("uses_of_funds", "grants", "loans_drawn"))
    return PartnerSide(
        name=name,
        label=label,
        share=share,
        **brought,
        tonnes_back=back * _of_year(values, "digestate_mass", year),
        **{f"{short}_kg_back": back * _of_year(values, f"digestate_{long}", year) for short, long in NUTRIENTS.items()},
        capital=share * spent,
        grants=share * granted,
        loans=share * lent,
        own_money=share * (spent - granted - lent),
        cash_of_year=share * _of_year(values, "net_cash", year),
        cash_in_all=share * _in_all(values, "net_cash"),
    )


def _brought(values: Values, names: tuple[str, ...], year: int) -> dict[str, float]:
    """Tonnes, nutrients and fees of some herds and feeds in one year."""

    def of(line: str) -> float:
        return float(sum(_of_year(values, f"substrate.{name}.{line}", year) for name in names))

    return {
        "tonnes": of("tonnes"),
        **{f"{short}_kg": of(long) for short, long in NUTRIENTS.items()},
        "fees": of("tipping_fee") + of("bought"),
    }


def _parts_of_digestate(scenario: Scenario, tonnes: Mapping[str, float]) -> dict[str, float]:
    """Part of the digestate by partner: as stated, else by the tonnes that partners bring."""
    stated = {name: partner.digestate_share for name, partner in scenario.partner.items()}
    if sum(stated.values()) > 0:
        return stated
    own = sum(tonnes[name] for name in stated)
    return {name: tonnes[name] / own if own > 0 else scenario.partner[name].plant_share for name in stated}


def _of_year(values: Values, line: str, year: int) -> float:
    """Sum of a line over one project year; nothing where the plan has no such line."""
    return float(year_sum(values[line][:1])[0, year - 1]) if line in values else 0.0


def _in_all(values: Values, line: str) -> float:
    return float(np.sum(values[line][0]))
