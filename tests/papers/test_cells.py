"""Cells of tables: on which side they stand, and one sign for a standard error everywhere."""

from __future__ import annotations

from appraisal.dashboard.blocks import _cell, plain
from appraisal.present.blocks import to_the_right
from appraisal.present.page import table as page_table
from appraisal.present.tables import Table
from appraisal.reports.csv_text import csv_bytes, safe


def test_columns_of_numbers_stand_to_the_right_and_sentences_do_not() -> None:
    """A word or two among numbers follow them; a sentence stays at the left, and so do numbers of which some have a unit."""
    rows = (
        ("a", "1,200", "5.5%", "-3", "12 months"),
        ("b", "not here", "0.2%", "a sentence that is far too long to stand there", "5"),
        ("c", "-7", "", "9", "6"),
    )
    assert to_the_right(Table("t", ("", "x", "y", "z", "units among them"), rows)) == (False, True, True, False, False)


def test_a_standard_error_has_one_sign_everywhere() -> None:
    """On the terminal, on the screen and in CSV alike, and never the two signs that a keyboard has for it."""
    table = Table("Worth (+- 3)", ("a",), (("12 +- 3",), ("+- 0.3",)))
    texts = (page_table(table), csv_bytes(table).decode(), *(_cell(row[0]) for row in table.rows), plain("(+- 1,970)"))
    for text in texts:
        assert "\u00b1" in text and "+-" not in text
    assert safe("12 +- 3") == "12 \u00b13" and safe("+5") == "5" and safe("+x") == "'+x"
