"""The shipped reference tables hold together, row by row: whole, ordered, sourced and consistent with themselves."""

from __future__ import annotations

import csv
import math
import re
from collections.abc import Iterator, Mapping
from itertools import pairwise
from pathlib import Path

import pytest

from appraisal.scenario import reference
from appraisal.scenario.reference import columns

Row = Mapping[str, str]
FOLDER = Path(reference.__file__).parent
NEWEST = (2026, 11)  # year and month in which the tables were last looked over
MARKS = re.compile(r"\bread\b|\bseen\b|\bcomputed\b|\bmemory\b|common practice, no source|\bjudged, no source")
HOUSE_KEEPING = re.compile(r"\.\./|(?:^|\s)/[a-z]|worked example|flag_high", re.IGNORECASE)  # paths, old columns
MONEY_TABLES = ("capital_costs", "engines", "prices", "running_costs", "spreading")
MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")

every_table = pytest.mark.parametrize("table", reference.tables())


def read(table: str) -> tuple[Row, ...]:
    found = reference.rows(table)
    assert found, f"{table} is empty"
    return found


def number(row: Row, column: str) -> float | None:
    return float(row[column]) if row[column] else None


def sure(row: Row, column: str) -> float:
    assert row[column], f"{row['id']}: {column} is blank"
    return float(row[column])


def number_columns(table: str) -> list[str]:
    return [column for column in read(table)[0] if columns.stem(column) in columns.UNITS[table]]


def families(row: Row) -> Iterator[tuple[str, ...]]:
    """Columns that stand for low, middle and high of one figure, in that order."""
    for low in row:
        if low == "low" or low.endswith("_low"):
            base, high = low.removesuffix("low"), low.removesuffix("low") + "high"
            middle = [name for name in (base + "mid", base.removesuffix("_")) if name and name in row]
            yield (low, *middle, high)


def near(got: float, expected: float, share: float) -> bool:
    return math.isclose(got, expected, rel_tol=share)


# every table


def test_shipped_files_and_declared_tables_are_the_same() -> None:
    assert sorted(path.stem for path in FOLDER.glob("*.csv")) == list(reference.tables()) == sorted(columns.UNITS)


@every_table
def test_every_line_is_whole_and_plain(table: str) -> None:
    with (FOLDER / f"{table}.csv").open(encoding="utf-8", newline="") as handle:
        header, *lines = csv.reader(handle)
    assert len(set(header)) == len(header) and header[0] == "id"
    assert {len(line) for line in lines} == {len(header)}
    assert [cell for line in lines for cell in line if cell != cell.strip() or HOUSE_KEEPING.search(cell)] == []


@every_table
def test_ids_are_unique_and_usable_as_keys(table: str) -> None:
    ids = [row["id"] for row in read(table)]
    assert len(set(ids)) == len(ids)
    assert [name for name in ids if not re.fullmatch(r"[A-Za-z0-9_-]+", name)] == []


@every_table
def test_every_row_says_where_from_and_how_known(table: str) -> None:
    assert [row["id"] for row in read(table) if len(row["source"]) < 4 or not MARKS.search(row["basis"])] == []


@every_table
def test_every_number_is_finite_and_has_a_unit(table: str) -> None:
    for row in read(table):
        for column in number_columns(table):
            if row[column]:
                found = reference.figure(table, row["id"], column)
                assert math.isfinite(found.value) and found.unit.strip() and "{" not in found.unit, (row["id"], column)


@every_table
def test_no_column_of_numbers_is_left_undeclared(table: str) -> None:
    numeric = re.compile(r"-?\d+(\.\d+)?")
    names = {"id", "class", "price_year", "year", "rule_year", *number_columns(table)}
    loose = [c for c in read(table)[0] if c not in names and all(numeric.fullmatch(row[c]) for row in read(table))]
    assert loose == []


@every_table
def test_low_middle_high_are_in_order(table: str) -> None:
    for row in read(table):
        for family in families(row):
            values = [value for name in family if (value := number(row, name)) is not None]
            assert values == sorted(values), (row["id"], family, values)


@every_table
def test_no_date_lies_ahead(table: str) -> None:
    for row in read(table):
        dated = [row[name].split(" to ")[0] for name in ("year", "price_year", "rule_year", "period") if name in row]
        for text in [*dated, row["source"]]:
            for year, month in re.findall(r"(?<![\d.:])(20\d\d)(?:-([01]\d)(?!\d))?(?!\d|\.\d)", text):
                assert (int(year), int(month or 1)) <= NEWEST, (row["id"], text)


@pytest.mark.parametrize("table", MONEY_TABLES)
def test_money_has_a_currency_and_a_year(table: str) -> None:
    for row in read(table):
        unit = row.get("unit", "EUR")
        if row["currency"] == "none":
            assert not re.search(r"\b(EUR|USD|GBP|CAD|NZD|ct|p)\b", unit), row["id"]
        elif row["currency"] == "any":
            assert unit.startswith("% "), row["id"]
        else:
            assert re.fullmatch(r"[A-Z]{3}", row["currency"]), row["id"]
            assert re.fullmatch(r"(19|20)\d\d", row["price_year"]) or unit.startswith("%"), row["id"]
            assert row["currency"] in unit or not re.search(r"\b(EUR|USD|GBP|CAD|NZD)\b", unit), row["id"]


# machines, limits, losses


def test_engines() -> None:
    table = read("engines")
    assert len({(row["currency"], row["price_year"]) for row in table}) == 1
    for row in table:
        full = sure(row, "efficiency_full")
        assert row["id"] == row["rated_kw"] and full + sure(row, "heat_efficiency_full") < 0.92
        assert abs(0.971 * full - sure(row, "efficiency_75")) < 0.0011, row["id"]  # part-load ratios of the source
        assert abs(0.915 * full - sure(row, "efficiency_50")) < 0.0011, row["id"]
        assert sure(row, "efficiency_50") + sure(row, "heat_50") < 0.92, row["id"]
    for small, large in pairwise(table):
        assert sure(small, "rated_kw") < sure(large, "rated_kw")
        assert sure(small, "efficiency_full") < sure(large, "efficiency_full")
        assert sure(small, "installed_cost_per_kw_mid") > sure(large, "installed_cost_per_kw_mid")


def test_comfortable_lies_inside_warning_inside_stop() -> None:
    order = ("stop_and_ask_low", "warn_low", "comfortable_low", "comfortable_high", "warn_high", "stop_and_ask_high")
    for row in read("digester_limits"):
        values = [value for name in order if (value := number(row, name)) is not None]
        assert len(values) >= 3 and values == sorted(values), row["id"]
        for side, meaning in (("low", "below_means"), ("high", "above_means")):
            has_limit = any(number(row, f"{band}_{side}") is not None for band in ("comfortable", "warn", "stop_and_ask"))
            assert (len(row[meaning]) > 20) == has_limit, (row["id"], side)


def test_shares_stay_within_one() -> None:
    for table in ("own_use", "project_losses", "spreading", "running_costs", "capital_costs"):
        for row in read(table):
            unit = row.get("unit", "share of ammonium")
            ceiling = 100 if unit.startswith("%") else 1 if unit.startswith("share") else math.inf
            high = sure(row, "ammonium_n_lost_share_high" if table == "spreading" else "high")
            assert high <= ceiling, row["id"]


def test_sized_rows_run_from_small_to_large() -> None:
    for table in ("running_costs", "capital_costs"):
        assert [row["id"] for row in read(table) if not 0 <= sure(row, "size_low") <= sure(row, "size_high")] == []


def test_middle_is_the_middle_where_the_row_says_so() -> None:
    said = [row for row in read("prices") if re.search(r"mid = middle|low = lower of", row["detail"])]
    assert len(said) > 15
    for row in said:
        assert abs((sure(row, "low") + sure(row, "high")) / 2 - sure(row, "mid")) < 0.051, row["id"]


# places, tax, estimates, cautions


def test_climates() -> None:
    for row in read("climates"):
        months = [sure(row, f"t_{month}_degC") for month in MONTHS]
        assert abs(sum(months) / 12 - sure(row, "t_year_degC")) < 0.11, row["id"]
        south = sure(row, "lat_deg") < 0
        assert (months[0] + months[1] > months[6] + months[7]) == south, row["id"]
        assert sure(row, "design_cold_degC") < min(months), row["id"]
        assert (number(row, "design_cold_extreme_degC") or -99) <= sure(row, "design_cold_degC"), row["id"]
        assert 0 <= sure(row, "soil_mean_degC") - sure(row, "t_year_degC") <= 3, row["id"]
        assert 0.4 <= sure(row, "soil_amplitude_K") / ((max(months) - min(months)) / 2) <= 0.56, row["id"]
        assert max(abs(a - b) for a, b in pairwise([*months, months[0]])) < 9, row["id"]  # a swapped month would jump
        assert 100 < sure(row, "rain_mm_per_year") < 3000, row["id"]


def declining(rate: float, half_first_year: bool, years: int) -> Iterator[float]:
    left = 100.0
    for year in range(years):
        share = left * rate / 100 * (0.5 if half_first_year and year == 0 else 1.0)
        left -= share
        yield share


def test_depreciation_adds_up_or_follows_its_rate() -> None:
    for row in read("depreciation"):
        shares = [float(text) for text in row["year_percentages"].split(";")]
        if row["method"] == "declining balance":
            formula = declining(sure(row, "rate_pct"), row["first_year_rule"] == "half-year rule", len(shares))
            assert all(abs(got - due) < 1e-3 for got, due in zip(shares, formula, strict=True)), row["id"]
        else:
            assert abs(sum(shares) - 100) < 1e-3, row["id"]
        if row["method"] == "straight line":
            assert near(100 / sure(row, "life_years"), sure(row, "rate_pct"), 1e-3), row["id"]


def test_estimate_classes_widen_and_cautions_are_placed() -> None:
    for wide, narrow in pairwise(sorted(read("estimate_classes"), key=lambda row: row["id"], reverse=True)):
        assert sure(wide, "default_low_pct") < sure(narrow, "default_low_pct") < 0
        assert sure(wide, "default_high_pct") > sure(narrow, "default_high_pct") > 0
        assert sure(wide, "definition_high_pct") < sure(narrow, "definition_high_pct")
    for row in read("cautions"):
        assert set(row["show_in"].split(";")) <= {"readme", "screen", "paper"}, row["id"]
        assert row["caution"].endswith("."), row["id"]
