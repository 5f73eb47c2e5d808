"""What the family reads: its own words and units, other ways with their true figures, words that stand in the paper."""

from __future__ import annotations

import re

import pytest

from appraisal.appraise import appraise
from appraisal.demos import demos
from appraisal.present.blocks import Heading, Paper, Points, Tabled
from appraisal.present.naming import spoken
from appraisal.present.report_family import family_report
from appraisal.present.tables import Table
from appraisal.reports.pdf import literal
from tests.papers.material_of import bare, material_of


def paper(demo: str) -> Paper:
    return family_report(material_of(demo), date="2026-11-26")


def table(demo: str, title: str) -> Table:
    return next(each.table for each in paper(demo).blocks if isinstance(each, Tabled) and each.table.title.startswith(title))


@pytest.mark.parametrize("demo", demos())
def test_the_family_is_spared_shares_and_names_of_statistics(demo: str) -> None:
    for each in paper(demo).blocks:
        if isinstance(each, Tabled):
            assert not any("share" in row[2].split("/") for row in each.table.rows if len(row) > 2), each.table.title
            assert "P10" not in each.table.title
        if isinstance(each, Points):
            assert not any("Discounted" in item or "+-" in item for item in each.items)


def test_a_share_that_is_a_guess_stands_in_per_cent() -> None:
    rows = table("dairy_with_leftovers", "Still a guess").rows
    kept = next(row for row in rows if row[0].startswith("Share that still comes"))
    given = material_of("dairy_with_leftovers").loaded.scenario.feed["bakery"].share_after_contract
    assert kept[1:3] == (f"{given * 100:g}", "%")


@pytest.mark.parametrize("demo", ["dairy_with_leftovers", "shared_plant_three_farms"])
def test_other_ways_stand_with_the_figures_of_their_own_plan(demo: str) -> None:
    found = material_of(demo)
    rows = {row[0]: row for row in table(demo, "Other ways").rows}
    made = [each.way for each in found.other_ways if each.way.plan is not None and each.way.name != "as_it_is"]
    assert len(rows) == len(made) + 1
    for way in made[:3]:
        assert way.plan is not None
        worth = float(appraise(way.plan).headline.npv[0])
        assert rows[way.label.replace("_", " ")][1] == (f"{worth:,.0f}" if abs(worth) >= 0.5 else "0")


def test_every_other_way_is_told_or_said_to_be_missing() -> None:
    found = material_of("small_herd_manure_only")
    blocks = paper("small_herd_manure_only").blocks
    place = next(n for n, each in enumerate(blocks) if isinstance(each, Heading) and each.text == "What else the farm could do")
    said = next(each for each in blocks[place:] if isinstance(each, Points))
    told = " ".join(said.items)
    for each in found.other_ways:
        assert each.way.name == "as_it_is" or each.way.label.replace("_", " ") in told
    assert not re.search(r"[a-z]\.[a-z]", told.replace("[partner.any_name]", "")), "a path instead of a label"


@pytest.mark.parametrize("demo", demos())
def test_words_are_explained_only_where_they_stand(demo: str) -> None:
    blocks = paper(demo).blocks
    place = next(n for n, each in enumerate(blocks) if isinstance(each, Heading) and each.text == "What the words mean")
    words = blocks[place + 1]
    assert isinstance(words, Points)
    before = repr(blocks[:place])
    for word, sign in (("scf:", "scf"), ("Nm3:", "Nm3"), ("Stop and ask:", "stop and ask")):
        assert any(item.startswith(word) for item in words.items) is (sign in before)


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("900 short ton/year", "900 short tons per year"),
        ("7,058 scf/short ton VS", "7,058 scf per short ton VS"),
        ("0.1315 USD/kWh", "0.1315 USD per kWh"),
        ("92.51%", "92.51%"),
    ],
)
def test_a_quantity_as_a_sentence_says_it(written: str, said: str) -> None:
    assert spoken(written) == said


def test_without_a_loan_nothing_is_said_of_cover_in_tables() -> None:
    """The small herd with nothing paid for, no grant, no loan and no range."""
    made = family_report(bare(), date="2026-11-26")
    heads = [head for each in made.blocks if isinstance(each, Tabled) for head in each.table.head]
    assert "least\ncover" in heads  # of the other ways, one of which may have a loan
    assert not any(head.startswith("cover") for head in heads)
    assert not any("no debt is due" in row for each in made.blocks if isinstance(each, Tabled) for row in each.table.rows)


def test_a_word_without_end_may_break_and_a_plain_one_stays_whole() -> None:
    word = "averyveryverylongwordwithoutanybreak" * 3
    assert "\u200b" in literal(word) and literal(word).replace("\u200b", "").strip('"') == word
    assert "\u200b" not in literal("https://farm.example/one/two/three/four/five/six/seven/eight/nine")


def test_a_long_series_stands_as_a_span() -> None:
    rows = {row[0]: row for row in table("heat_for_the_cheese_dairy", "Still a guess").rows}
    assert rows["Power bill now"][1] == "6,625 to 7,250"
    assert not any(row[1].count(", ") > 4 for row in rows.values())


@pytest.mark.parametrize("demo", demos())
def test_what_is_owed_reads_the_same_in_sentence_and_table(demo: str) -> None:
    shown = table(demo, "If the plant stops")
    said = next(item for each in paper(demo).blocks if isinstance(each, Points) for item in each.items if "still owed" in item)
    found = re.search(r"project year (\d+), ([\d,]+) ", said)
    assert found is not None
    assert shown.rows[-1][shown.head.index(f"year {found[1]}")] == found[2]
    for place in range(1, len(shown.head)):
        *parts, last = (int(row[place].replace(",", "")) for row in shown.rows)
        assert sum(parts) == last
