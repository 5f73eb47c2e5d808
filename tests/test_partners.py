"""A shared plant by partner: every column adds to the whole, and what is brought is brought once."""

from __future__ import annotations

from functools import cache

import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.errors import ScenarioError
from appraisal.present.partner_tables import partners_tables
from appraisal.scenario.load import loads

TEXT = demos()["shared_plant_three_farms"].read_text(encoding="utf-8")


@cache
def shared(*edits: tuple[str, str]) -> Appraisal:
    text = TEXT
    for old, new in edits:
        assert old in text
        text = text.replace(old, new)
    return appraise(loads(text))


def year_of(found: Appraisal, line: str) -> float:
    first = (found.plant.year - 1) * 12
    return float(found.values[line][0, first : first + 12].sum())


def test_every_column_adds_to_the_whole() -> None:
    found = shared()
    sides, values = found.partners, found.values

    def total(field: str) -> float:
        return float(sum(getattr(side, field) for side in sides))

    assert total("share") == pytest.approx(1)
    assert total("tonnes") == pytest.approx(
        sum(
            year_of(found, f"substrate.{n}.tonnes")
            for n in found.structure.items["herd"] + found.structure.items["feed"]
        )
    )
    for short, long in (
        ("n_kg", "nitrogen_fed"),
        ("p_kg_back", "digestate_phosphorus"),
        ("k_kg_back", "digestate_potassium"),
    ):
        assert total(short) == pytest.approx(year_of(found, long), rel=1e-12)
    assert total("tonnes_back") == pytest.approx(year_of(found, "digestate_mass"), rel=1e-12)
    assert total("cash_in_all") == pytest.approx(values["net_cash"].sum(), rel=1e-12)
    assert total("capital") == pytest.approx(total("grants") + total("loans") + total("own_money"), rel=1e-12)


def test_fees_of_feeds_nobody_brings_stand_with_the_joint_plant() -> None:
    sides = {side.name: side for side in shared().partners}
    assert set(sides) == {"valley", "hill", "mill", "joint"}
    assert sides["joint"].fees > 0 and sides["valley"].fees == 0
    moved = shared(('brings = "mill_farm_pigs"', 'brings = "mill_farm_pigs, canteen_food, potato_peel"'))
    assert [side.name for side in moved.partners] == ["valley", "hill", "mill"]
    assert moved.partners[-1].fees == pytest.approx(sides["joint"].fees)


def test_digestate_goes_by_tonnes_brought_or_as_stated() -> None:
    by_tonnes = {side.name: side for side in shared().partners}
    own = [by_tonnes[name] for name in ("valley", "hill", "mill")]
    assert own[0].tonnes_back / own[1].tonnes_back == pytest.approx(own[0].tonnes / own[1].tonnes)
    stated = shared(
        ("plant_share = 0.5\n", "plant_share = 0.5\ndigestate_share = 0.7\n"),
        ("plant_share = 0.2\n", "plant_share = 0.2\ndigestate_share = 0.3\n"),
    )
    back = {side.name: side.tonnes_back for side in stated.partners}
    assert back["mill"] == 0 and back["valley"] / back["hill"] == pytest.approx(7 / 3)


def test_tables_hold_a_column_a_partner_and_the_whole() -> None:
    flows, money = partners_tables(shared())
    assert flows.head[1:] == money.head[1:] and len(flows.head) == 6
    assert money.rows[0][-1] == "100.0%"


def test_parts_and_names_are_checked() -> None:
    with pytest.raises(ScenarioError) as caught:
        shared(("plant_share = 0.3\n", "plant_share = 0.4\n"), ('"mill_farm_pigs"', '"mill_farm_pig, valley_farm_cows"'))
    told = str(caught.value)
    assert "1.1 share" in told and "did you mean `mill_farm_pigs`?" in told and "more than one partner" in told
