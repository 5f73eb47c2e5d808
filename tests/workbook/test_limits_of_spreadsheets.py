"""What one spreadsheet program forgives and another refuses, read from the file: lengths, depths, names, numbers, texts."""

from __future__ import annotations

import math
import re
import zipfile
from collections.abc import Iterator
from functools import cache
from io import BytesIO
from xml.etree import ElementTree

import openpyxl
import pytest

from appraisal.appraise import appraise
from appraisal.demos import demos
from appraisal.reports.export import workbook_bytes
from appraisal.scenario.load import load, with_values
from tests.workbook.test_formulas_of_book import NAMESPACE, formulas
from tests.workbook.test_without_office import LOAN, YEARS

FORMULA, DEPTH, WORDS, MESSAGE, TITLE, SHEET, CELL, HIGH, WIDE = 8192, 64, 255, 255, 32, 31, 32_767, 409, 255
"""Specifications and limits of Excel as its maker publishes them, from memory; the deepest nesting is counted by brackets."""
NOTE = "A very long note. " * 270 + "_x0041_ and <tags> & \u20ac"


@cache
def content() -> bytes:
    """The book of a demo over two years, with a long and odd text of the user in it."""
    loaded = load(demos()["shared_plant_three_farms"])
    loans = {f"loan.{each}.{key}": value for each in loaded.scenario.loan for key, value in LOAN.items()}
    return workbook_bytes(appraise(with_values(loaded, {**loans, **YEARS, "project.note": NOTE})))


def elements(*tags: str) -> Iterator[tuple[str, ElementTree.Element]]:
    """Elements of all sheets with the tag's name."""
    wanted = {f"{NAMESPACE}{tag}": tag for tag in tags}
    with zipfile.ZipFile(BytesIO(content())) as book:
        for name in book.namelist():
            if name.startswith("xl/worksheets/sheet"):
                for _, each in ElementTree.iterparse(book.open(name)):
                    if each.tag in wanted:
                        yield wanted[each.tag], each


def depth(text: str) -> int:
    """Deepest nesting of brackets; words in quotes do not count."""
    deepest = level = 0
    for sign in re.sub(r'"[^"]*"', "", text):
        level += {"(": 1, ")": -1}.get(sign, 0)
        deepest = max(deepest, level)
    assert level == 0, text
    return deepest


def test_formulas_are_short_flat_and_plain() -> None:
    texts = [text for _, _, text in formulas(content())]
    assert max(map(len, texts)) <= FORMULA and max(map(depth, texts)) <= DEPTH
    assert max(len(words) for text in texts for words in re.findall(r'"([^"]*)"', text)) <= WORDS
    assert not [text for text in texts if "{" in text or "_xl" in text or text.startswith("=")]
    assert not [each.attrib for _, each in elements("f") if each.attrib]  # no array, no shared formula


def test_the_measure_of_depth_has_teeth() -> None:
    assert depth("IF(A1,MAX(1,(A2)),0)") == 3 and depth('IF(A1,"(((",0)') == 1
    with pytest.raises(AssertionError):
        depth("SUM(A1")


def test_cells_rows_and_rules_keep_to_the_limits() -> None:
    for tag, each in elements("row", "col", "dataValidation", "oddFooter", "c"):
        if tag == "row":
            assert float(each.get("ht", "0")) <= HIGH
        elif tag == "col":
            assert float(each.get("width", "0")) <= WIDE
        elif tag == "oddFooter":
            assert len(each.text or "") <= WORDS
        elif tag == "dataValidation":
            assert max(len(each.get(part, "")) for part in ("error", "prompt")) <= MESSAGE
            assert max(len(each.get(part, "")) for part in ("errorTitle", "promptTitle")) <= TITLE
        else:
            value = each.findtext(f"{NAMESPACE}v")
            assert each.get("t") != "e" and (each.get("t") or not value or math.isfinite(float(value)))


def test_names_of_sheets_and_texts_of_the_user() -> None:
    book = openpyxl.load_workbook(BytesIO(content()), read_only=True)
    names = book.sheetnames
    assert all(len(name) <= SHEET and not re.search(r"[\\/?*\[\]:']", name) for name in names)
    assert len({name.lower() for name in names}) == len(names)
    shown = {cell.value for row in book["Read first"].iter_rows() for cell in row if isinstance(cell.value, str)}
    assert max(map(len, shown)) <= CELL and any("_x0041_ and <tags> & \u20ac" in text for text in shown)
