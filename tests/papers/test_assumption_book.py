"""The assumption book lists every input once, guesses first, with source and rank of influence."""

from __future__ import annotations

import pytest

from appraisal.present.assumption_book import GROUPS, book_table, counts, entries, open_table, tables_for_paper
from appraisal.present.citing import Sources
from tests.papers.material_of import DEMOS, material_of


@pytest.mark.parametrize("demo", DEMOS)
def test_every_input_once_and_guesses_first(demo: str) -> None:
    found = material_of(demo)
    listed = entries(found)
    assert sorted(each.path for each in listed) == sorted(found.loaded.assumptions)
    places = [GROUPS.index(each.known) for each in listed]
    assert places == sorted(places)
    on_paper = [row[1] for table in tables_for_paper(found).values() for row in table.rows]
    assert [row[1] for row in book_table(found).rows] == on_paper == [each.path for each in listed]
    assert sum(int(row[1]) for row in counts(listed).rows[:-1]) == int(counts(listed).rows[-1][1]) == len(listed)


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
    sources, tables = Sources(), tables_for_paper(found)
    cited = {title: sources.cited(table, ("source, date",)) for title, table in tables.items()}
    listed = dict(sources.listed().rows)
    told = {title: table.head.index("source, date") for title, table in tables.items() if "source, date" in table.head}
    assert len(told) > 3
    for title, place in told.items():
        for before, after in zip(tables[title].rows, cited[title].rows, strict=True):
            assert listed.get(after[place], after[place]) == before[place]
