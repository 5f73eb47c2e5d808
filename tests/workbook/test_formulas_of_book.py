"""What a formula of the book may hold, what it may not, and that texts of users stay texts: read from the file itself."""

from __future__ import annotations

import re
import zipfile
from collections.abc import Iterator
from io import BytesIO
from xml.etree import ElementTree

import openpyxl
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.reports import subjects as where
from appraisal.reports.export import workbook_bytes
from appraisal.scenario.load import load, with_values

NAMESPACE = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"
SEE = re.compile(
    r"\"[^\"]*\"|'[^']*'!|\$?[A-Z]{1,3}\$?\d+"
)  # words, sheet names and addresses: no numbers of the formula
NUMBER = re.compile(r"(?<![A-Za-z_.])\d+(?:\.\d+)?")
FUNCTION = re.compile(r"\b([A-Z][A-Z.]*)\(")
ALLOWED = {
    *("SUM", "SUMIF", "COUNT", "COUNTA", "COUNTIF", "MIN", "MAX", "ABS", "INT", "EXP", "SQRT", "AVERAGE", "AND", "IF"),
    *("INDEX", "MATCH", "IRR", "NPV", "IFERROR", "ISERROR", "ISNUMBER", "DATE", "YEAR", "MONTH", "SUMXMY2"),
}  # none is volatile, none works on arrays, none is newer than 2007
INJECTIONS = (
    "=1+1",
    "+1+cmd|' /C calc'!A0",
    "-2+3",
    "@SUM(1)",
    '=HYPERLINK("http://example.invalid","x")',
    "\t=1",
    "{=1}",
)


@pytest.fixture(scope="module")
def cases() -> dict[str, Appraisal]:
    return {name: appraise(load(path)) for name, path in demos().items()}


def formulas(content: bytes) -> Iterator[tuple[str, str, str]]:
    """Sheet file, cell and text of every formula."""
    with zipfile.ZipFile(BytesIO(content)) as book:
        for name in sorted(each for each in book.namelist() if each.startswith("xl/worksheets/sheet")):
            for _, cell in ElementTree.iterparse(book.open(name)):
                if cell.tag == f"{NAMESPACE}c":
                    text = cell.find(f"{NAMESPACE}f")
                    if text is not None:
                        yield name, str(cell.get("r")), str(text.text)
                if cell.tag == f"{NAMESPACE}row":
                    cell.clear()


def forbidden(text: str) -> list[str]:
    """Numbers other than 0 and 1 (a minus before them is allowed) and functions that are not on the list."""
    bare = SEE.sub("", text)
    return [x for x in NUMBER.findall(bare) if x not in ("0", "1")] + [
        f for f in FUNCTION.findall(bare) if f not in ALLOWED
    ]


@pytest.mark.parametrize("name", sorted(demos()))
def test_no_formula_holds_a_number_or_a_function_it_may_not(name: str, cases: dict[str, Appraisal]) -> None:
    content = workbook_bytes(cases[name])
    found = list(formulas(content))
    assert len(found) > 100_000
    assert [each for each in found if forbidden(each[2])] == []
    assert [each for each in found if "[" in each[2] or "http" in each[2] or "#REF" in each[2]] == []
    with zipfile.ZipFile(BytesIO(content)) as book:
        assert not [each for each in book.namelist() if "external" in each.lower()]
        names = re.findall(r'definedName name="([^"]*)"', book.read("xl/workbook.xml").decode())
        assert set(names) <= {"_xlnm.Print_Area", "_xlnm.Print_Titles"}
        assert set(re.findall(r'<sheet name="([^"]*)"', book.read("xl/workbook.xml").decode())) <= set(where.SHEETS)


def test_the_rule_has_teeth() -> None:
    assert forbidden("2*A1") == ["2"] and forbidden("OFFSET(A1,0,1)") == ["OFFSET"] and forbidden("A1*1.5") == ["1.5"]
    assert forbidden("'Monthly feeds'!$A$1+IF(B2>0,\"7 days\",-1)") == []


def row_forms(content: bytes) -> Iterator[tuple[str, str, list[str]]]:
    """Every row of formulas with its forms from left to right, columns written as how far they lie from the cell."""
    rows: dict[tuple[str, str], list[str]] = {}
    for sheet, cell, text in formulas(content):
        column, row = re.sub(r"\d", "", cell), re.sub(r"\D", "", cell)
        if _number(column) >= _number("E"):
            rows.setdefault((sheet, row), []).append(_relative(text, _number(column)))
    return ((sheet, row, forms) for (sheet, row), forms in rows.items())


def _number(column: str) -> int:
    number = 0
    for letter in column:
        number = number * 26 + ord(letter) - 64
    return number


def _relative(text: str, at: int) -> str:
    def shifted(found: re.Match[str]) -> str:
        return f"[{_number(found[1]) - at}]{found[2]}"

    return re.sub(r"(?<![$A-Z'])([A-Z]{1,3})(\$?\d+)", shifted, text)


def test_one_formula_along_a_row(cases: dict[str, Appraisal]) -> None:
    """A row is one formula; only its first and last column may differ, where there is no month before or after."""
    name, case = "small_herd_manure_only", cases["small_herd_manure_only"]
    rows = [(sheet, row, forms[1:-1]) for sheet, row, forms in row_forms(workbook_bytes(case)) if _is_grid(forms, case)]
    assert len(rows) > 1000, name
    assert [(sheet, row) for sheet, row, inner in rows if len(set(inner)) > 1] == []


def _is_grid(forms: list[str], case: Appraisal) -> bool:
    """Whether a row holds a formula for each month, or for each year (then the comparison stands to its right)."""
    if len(forms) > case.timeline.years:
        forms.pop() if len(forms) == case.timeline.years + 1 else None
    return len(forms) in (case.timeline.months, case.timeline.years)


def test_texts_of_users_stay_texts() -> None:
    loaded = load(demos()["dairy_with_leftovers"])
    texts = [path for path, each in loaded.assumptions.items() if each.declaration.kind == "text" and _free(path)]
    changes = {path: INJECTIONS[place % len(INJECTIONS)] for place, path in enumerate(texts)}
    content = workbook_bytes(appraise(with_values(loaded, changes)))
    book = openpyxl.load_workbook(BytesIO(content), read_only=True)
    seen = {
        cell.value
        for sheet in book.worksheets[:6]
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type != "f" and cell.value in INJECTIONS
    }
    ours = {text for _, _, text in formulas(content)}
    assert seen == set(INJECTIONS) & set(changes.values()) and len(seen) >= 5
    assert not {each.lstrip("=") for each in INJECTIONS} & ours


def _free(path: str) -> bool:
    return path.rpartition(".")[2] in (
        "name",
        "note",
        "label",
        "supplier",
        "category",
        "buyer",
        "evidence",
        "gas_cut_reason",
    )
