"""The assumption book lists every input once, guesses first, with source and rank of influence."""

from __future__ import annotations

import pytest

from appraisal.appraise import appraise
from appraisal.present.assumption_book import book_table, counts, entries, open_table
from appraisal.present.assumption_tables import BASIS, most_moving, tables_for_paper
from appraisal.present.blocks import Heading, Tabled
from appraisal.present.citing import Sources
from appraisal.present.how_known import GROUPS, SECTIONS
from appraisal.present.report_grant import assumption_paper
from appraisal.risk.material import Material
from appraisal.scenario.load import with_values
from tests.papers.material_of import DEMOS, material_of


def printed(found: Material) -> list[str]:
    """Paths of all rows on paper; a row of several items stands for the path of each that its first cell names."""
    made = []
    for table in tables_for_paper(entries(found), currency="EUR").values():
        for label, path, *_ in table.rows:
            section, star, field = path.partition(".*.")
            names = label.rpartition(" (")[2].removesuffix(")").split(", ") if star else [""]
            made += [f"{section}.{name.replace(' ', '_')}.{field}" if star else path for name in names]
    return made


@pytest.mark.parametrize("demo", DEMOS)
def test_every_input_once_and_guesses_first(demo: str) -> None:
    found = material_of(demo)
    listed = entries(found)
    assert sorted(each.path for each in listed) == sorted(found.loaded.assumptions)
    places = [GROUPS.index(each.known) for each in listed]
    assert places == sorted(places)
    assert [row[1] for row in book_table(found).rows] == [each.path for each in listed]
    assert sorted(printed(found)) == sorted(found.loaded.assumptions)
    *parts, total = (int(row[1].replace(",", "")) for row in counts(listed).rows)
    assert sum(parts) == total == len(listed)


def test_ranks_are_those_of_the_swings() -> None:
    found = material_of("dairy_with_leftovers")
    ranked = sorted((each for each in entries(found) if each.rank), key=lambda each: each.rank or 0)
    assert [each.rank for each in ranked] == list(range(1, len(ranked) + 1))
    widths = [each.swing or 0.0 for each in ranked]
    assert widths == sorted(widths, reverse=True) and widths[-1] > 0
    assert ranked[0].path == found.by_share.swings[0].path


def test_what_the_file_explains_is_not_waiting() -> None:
    found = material_of("shared_plant_three_farms")
    by_path = {each.path: each for each in entries(found)}
    price = by_path["power.contract_price_per_kwh"]
    assert (price.source, price.date, price.known) == ("Invented tender result", "2026-11", "invented")
    assert by_path["capital.engines.amount"].known == "quote"
    assert by_path["feed.canteen_food.gate_fee_per_t"].range.startswith("triangular: low 10, high 40")
    waiting = {row[1] for row in open_table(found, most=1000).rows}
    assert "power.contract_price_per_kwh" not in waiting and "capital.tanks.amount" in waiting


def test_long_sources_become_numbers_and_none_is_lost() -> None:
    found = material_of("dairy_with_leftovers")
    sources, tables = Sources(), tables_for_paper(entries(found), currency="EUR")
    cited = {title: sources.cited(table, (BASIS,)) for title, table in tables.items()}
    listed = dict(sources.listed().rows)
    told = {title: table.head.index(BASIS) for title, table in tables.items() if BASIS in table.head}
    assert len(told) > 3
    for title, place in told.items():
        for before, after in zip(tables[title].rows, cited[title].rows, strict=True):
            assert listed.get(after[place], after[place]) == before[place]


def test_a_zero_by_default_is_not_called_practice() -> None:
    """What the plan does not have stands by itself; a default without a source is weak, and a judged middle is no figure read."""
    by_path = {each.path: each for each in entries(material_of("dairy_with_leftovers"))}
    assert by_path["capital.digester.sales_tax_rate"].known == "nothing"
    assert (by_path["power.contract_indexed_share"].known, by_path["digester.availability"].value) == ("default", "97")
    assert by_path["digester.availability"].unit == "%"
    for each in by_path.values():
        assert each.known not in ("published", "computed") or "judged" not in each.in_full, each.path


def test_the_first_tables_are_what_nobody_explained_then_what_moves_most() -> None:
    found = material_of("dairy_with_leftovers")
    tables = [block.table for block in assumption_paper(found, date="2026-11-26").blocks if isinstance(block, Tabled)]
    assert tables[1].title.startswith(SECTIONS["not said"])
    assert tables[1].title.endswith("; worth in USD") and tables[2].title.startswith("The 20 inputs that move the worth most")
    moved = [float(row[-1].replace(",", "")) for row in most_moving(entries(found), currency="USD").rows]
    assert moved == sorted(moved, reverse=True) and len(moved) == 20


@pytest.mark.parametrize("demo", ("dairy_with_leftovers", "shared_plant_three_farms"))
def test_influence_is_that_of_runs_of_their_own(demo: str) -> None:
    """A number, a share that its limit holds, a series by month and one by year: each equals two single appraisals."""
    found = material_of(demo)
    by_path, loaded = {each.path: each for each in entries(found)}, found.loaded
    for path in ("power.contract_price_per_kwh", "digester.availability", "heat.barn_kwh", "start_up.gas_share_by_year"):
        each = loaded.assumptions[path]
        given = each.value if isinstance(each.value, tuple) else (float(str(each.value)),)
        ends = [[min(value * factor, each.declaration.high or value * factor) for value in given] for factor in (0.9, 1.1)]
        low, high = (
            float(appraise(with_values(loaded, {path: end if len(end) > 1 else end[0]})).headline.npv[0]) for end in ends
        )
        assert by_path[path].swing == pytest.approx(abs(high - low), abs=0.01), path


def test_what_is_known_as_a_guess_or_measured_stands_under_its_own_heading() -> None:
    found = material_of("small_herd_manure_only")
    titles = [block.text for block in assumption_paper(found, date="2026-11-26").blocks if isinstance(block, Heading)]
    assert titles[:3] == [SECTIONS["guess"], SECTIONS["not said"], "What moves the worth most"]
    assert titles.index(SECTIONS["measured"]) > titles.index(SECTIONS["published"])
    first = open_table(found, most=5).rows
    assert ("Electric efficiency at full load (main)", "31", "%", "guess") in {(row[0], *row[2:5]) for row in first}
