"""The reader of the reference tables hands every figure on with its unit, range, source and basis."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from dataclasses import FrozenInstanceError

import pytest

from appraisal.errors import AppraisalError
from appraisal.scenario import reference
from appraisal.scenario.reference import columns

KNOWN = re.compile(r"\bread\b|\bseen\b|\bcomputed\b|\bmemory\b|\bjudged\b|protein from N")

every_table = pytest.mark.parametrize("table", reference.tables())


@every_table
def test_about_is_one_sentence(table: str) -> None:
    assert re.fullmatch(r"[A-Z][^.]{20,}\.", reference.about(table))


def test_rows_are_read_once_and_cannot_be_changed() -> None:
    assert reference.rows("engines") is reference.rows("engines")
    with pytest.raises(TypeError):
        reference.row("engines", "250")["rated_kw"] = "1"  # type: ignore[index]


@pytest.mark.parametrize(
    ("table", "id", "column", "expected"),
    [
        ("feedstocks", "maize_silage", "bmp_mid", (357, 217, 415, "Nm3 CH4/t VS")),
        ("feedstocks", "maize_silage", "n_kg_t", (4.2, None, None, "kg N/t fresh")),
        ("feedstocks", "maize_silage", "bmp_low", (217, None, None, "Nm3 CH4/t VS")),
        ("engines", "250", "efficiency_full", (0.384, 0.36, 0.406, "kWh electric/kWh gas (lower heating value)")),
        ("engines", "250", "installed_cost_per_kw_mid", (1600, 1200, 2250, "EUR/kW electric")),
        ("kinetics", "k35_food", "mid", (0.3, 0.15, 0.55, "1/d")),
        ("capital_costs", "gas_roof", "mid", (70, 40, 120, "EUR per m2")),
        ("running_costs", "labour_kw_75", "mid", (4, 3, 5, "h/kW yr")),
        ("digester_limits", "hrt_manure", "warn_low", (15, None, None, "d")),
        ("spreading", "solid_in_4h", "extra_cost_mid", (0.6, 0.3, 1.2, "EUR per t")),
        ("gwp", "AR5_CH4_all_100", "value", (28, None, None, "kg CO2e/kg gas")),
    ],
)
def test_figure_has_value_range_and_unit(
    table: str, id: str, column: str, expected: tuple[float, float | None, float | None, str]
) -> None:
    found = reference.figure(table, id, column)
    assert (found.value, found.low, found.high, found.unit) == expected
    assert (found.table, found.id, found.column) == (table, id, column)
    assert found.source == reference.row(table, id)["source"]
    with pytest.raises(FrozenInstanceError):
        found.value = 0.0  # type: ignore[misc]


def test_money_figures_carry_currency_and_year_and_others_do_not() -> None:
    money = reference.figure("running_costs", "engine_om_de", "mid")
    assert (money.unit, money.currency, money.price_year) == ("ct/kWh", "EUR", 2020)
    share = reference.figure("engines", "250", "min_load")
    assert (share.currency, share.price_year) == (None, None)


def test_a_feed_figure_carries_the_basis_of_its_own_column() -> None:
    assert reference.figure("feedstocks", "dairy_slurry", "k_first_order_per_day").basis == "memory"
    assert reference.figure("feedstocks", "dairy_slurry", "bmp_mid").basis == "seen (LfL)"
    for row in reference.rows("feedstocks"):
        for column in (name for name in row if columns.stem(name) in columns.UNITS["feedstocks"]):
            part = columns.basis_of("feedstocks", column, row["basis"])
            assert len(part) < len(row["basis"]) and KNOWN.search(part), (row["id"], column)


@pytest.mark.parametrize(
    ("table", "id", "column", "error", "says"),
    [
        ("feedstock", "maize_silage", "bmp_mid", reference.UnknownTable, "feedstocks"),
        ("feedstocks", "maize_sillage", "bmp_mid", reference.UnknownRow, "maize_silage"),
        ("animals", "heifer", "ts_pct", reference.UnknownRow, "dairy_heifer"),
        ("feedstocks", "maize_silage", "bmp_middle", reference.UnknownColumn, "bmp_mid"),
        ("feedstocks", "maize_silage", "name", reference.NoFigureError, "words"),
        ("animals", "ipcc19_dairy_na", "p_kg_per_head_d", reference.NoFigureError, "kg P/head/d"),
    ],
)
def test_a_wrong_name_gets_the_likely_one(
    table: str, id: str, column: str, error: type[AppraisalError], says: str
) -> None:
    with pytest.raises(error, match=says) as caught:
        reference.figure(table, id, column)
    assert isinstance(caught.value, AppraisalError) and not str(caught.value).startswith(('"', "'"))


def test_unknown_row_is_a_key_error_and_lists_nothing_far_off() -> None:
    with pytest.raises(KeyError) as caught:
        reference.row("gwp", "zzzz")
    assert "did you mean" not in str(caught.value)


def test_interpolated_between_two_rows() -> None:
    found = reference.interpolated("engines", "installed_cost_per_kw_mid", at=300)
    assert found.value == pytest.approx(1525) and (found.low, found.high) == pytest.approx((1150, 2125))
    assert found.id == "250 to 350" and "between the rows 250 and 350" in found.source
    assert found.basis.startswith("computed by interpolation; ") and "memory" in found.basis
    assert (found.unit, found.currency, found.price_year) == ("EUR/kW electric", "EUR", 2024)
    assert reference.interpolated("engines", "min_load", at=300).low is None


def test_interpolated_names_both_sources_where_they_differ() -> None:
    found = reference.interpolated("engines", "efficiency_full", at=200)
    assert all(reference.row("engines", id)["source"] in found.source for id in ("150", "250"))
    assert all(reference.row("engines", id)["basis"] in found.basis for id in ("150", "250"))


@pytest.mark.parametrize("row", reference.rows("engines"), ids=lambda row: str(row["id"]))
def test_interpolated_at_a_row_is_that_row(row: Mapping[str, str]) -> None:
    at = float(row["rated_kw"])
    found = reference.interpolated("engines", "efficiency_50", at=at)
    assert found == reference.figure("engines", row["id"], "efficiency_50")


@pytest.mark.parametrize(("at", "id"), [(20, "50"), (9000, "2000")])
def test_interpolated_is_held_at_the_ends_and_says_so(at: float, id: str) -> None:
    found, end = (reference.interpolated("engines", "life_h", at=at), reference.figure("engines", id, "life_h"))
    assert found.value == end.value and found.id == id and "outside the table" in found.source


@pytest.mark.parametrize(
    ("table", "column", "at"),
    [
        ("feedstocks", "bmp_mid", 10),
        ("engines", "note", 300),
        ("engines", "efficiency_full", math.nan),
    ],
)
def test_interpolated_refuses_what_has_no_size(table: str, column: str, at: float) -> None:
    with pytest.raises(reference.NoFigureError):
        reference.interpolated(table, column, at=at)
