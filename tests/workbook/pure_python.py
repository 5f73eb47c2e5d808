"""A third judge in nothing but Python: reads the formulas of a book, never the values stored beside them, and works them out.

Openpyxl reads the file and cuts a formula into tokens; here stand the order of operators and the functions that the books use.
Meanings are those of the OpenDocument formula standard (OASIS OpenFormula 1.3, part 4, from memory), where a minus before a
number binds tighter than a power. 24,000 formulas take some seconds.
"""

from __future__ import annotations

import csv
import sys
from collections.abc import Callable, Iterator, Sequence
from datetime import date, datetime
from io import BytesIO
from pathlib import Path

import openpyxl
from openpyxl.formula.tokenizer import Token, Tokenizer
from openpyxl.utils.cell import range_boundaries
from openpyxl.utils.datetime import to_excel

from tests.workbook.formula_functions import FUNCTIONS, LAZY, OPERATORS, CellError, Value, called, number

Part = Callable[[], Value]
BINDING = {"=": 1, "<>": 1, "<": 1, ">": 1, "<=": 1, ">=": 1, "+": 3, "-": 3, "*": 4, "/": 4, "^": 5}
SIGN = 6  # how tightly a sign before a number binds
DEEP = 200_000  # calls inside each other: a chain of months runs through many lines


class Book:
    """Every cell of a workbook, worked out when it is first asked for."""

    def __init__(self, content: bytes) -> None:
        book = openpyxl.load_workbook(BytesIO(content))
        self.sheets: dict[str, dict[tuple[int, int], object]] = {}
        self.sizes: dict[str, tuple[int, int]] = {}
        self.known: dict[tuple[str, int, int], Value] = {}
        for sheet in book.worksheets:
            cells = (cell for row in sheet.iter_rows() for cell in row if cell.value is not None)
            self.sheets[sheet.title] = {(cell.row, cell.column): _content(cell) for cell in cells}
            self.sizes[sheet.title] = (sheet.max_row, sheet.max_column)

    def at(self, sheet: str, row: int, column: int) -> Value:
        """What a cell holds; a formula is worked out once, its error handed on to whoever reads it."""
        place = (sheet, row, column)
        if place not in self.known:
            held = self.sheets[sheet].get((row, column))
            self.known[place] = self._worked_out(held, sheet) if isinstance(held, Formula) else held  # type: ignore[assignment]
        return self.known[place]

    def _worked_out(self, formula: Formula, sheet: str) -> Value:
        tokens = [token for token in Tokenizer(formula).items if token.type != Token.WSPACE]
        try:
            return Parser(self, sheet, tokens).expression()()
        except CellError as error:
            return error


class Formula(str):
    """The text of a formula, with its sign of equality."""


def _content(cell: object) -> object:
    held = cell.value  # type: ignore[attr-defined]
    if cell.data_type == "f":  # type: ignore[attr-defined]
        return Formula(held)
    return to_excel(held) if isinstance(held, (date, datetime)) else held


class Parser:
    """One formula on its way from tokens to something that can be called."""

    def __init__(self, book: Book, sheet: str, tokens: Sequence[Token]) -> None:
        self.book, self.sheet, self.tokens, self.place = book, sheet, tokens, 0

    def expression(self, least: int = 0) -> Part:
        """Operands joined by all operators that bind tighter than `least`, from left to right."""
        left = self._operand()
        while self._kind() == Token.OP_IN and BINDING[self._value()] > least:
            sign = self._take().value
            left = _joined(OPERATORS[sign], left, self.expression(BINDING[sign]))
        return left

    def _operand(self) -> Part:
        token = self._take()
        if token.type == Token.OP_PRE:
            part, factor = self.expression(SIGN), -1.0 if token.value == "-" else 1.0
            return lambda: factor * number(part())
        if token.type == Token.PAREN:
            inner = self.expression()
            self._take()
            return inner
        if token.type == Token.FUNC:
            return self._function(token.value.rstrip("("))
        if token.subtype == Token.RANGE:
            return self._range(token.value)
        held: Value = token.value[1:-1] if token.subtype == Token.TEXT else float(token.value)
        return lambda: held

    def _function(self, name: str) -> Part:
        parts = []
        while self._kind() != Token.FUNC or self.tokens[self.place].subtype != Token.CLOSE:
            parts.append(self.expression())
            if self._kind() == Token.SEP:
                self._take()
        self._take()
        if name in LAZY:
            return lambda: LAZY[name](*parts)
        return lambda: called(FUNCTIONS[name], [part() for part in parts])

    def _range(self, text: str) -> Part:
        named, _, cells = text.rpartition("!")
        sheet, book = named.strip("'") or self.sheet, self.book
        left, top, right, bottom = (int(end or 0) for end in range_boundaries(cells))
        if ":" not in cells:
            return lambda: book.at(sheet, top, left)
        rows, columns = range(top, min(bottom, book.sizes[sheet][0]) + 1), range(left, right + 1)
        return lambda: [book.at(sheet, row, column) for row in rows for column in columns]

    def _kind(self) -> str:
        return self.tokens[self.place].type if self.place < len(self.tokens) else ""

    def _value(self) -> str:
        return str(self.tokens[self.place].value)

    def _take(self) -> Token:
        self.place += 1
        return self.tokens[self.place - 1]


def _joined(operator: Callable[[Value, Value], Value], left: Part, right: Part) -> Part:
    return lambda: operator(left(), right())


def recalculated_in_python(books: Sequence[Path], folder: Path) -> list[Path]:
    """As `office.recalculated`: every sheet as text with all digits; one name a book."""
    sys.setrecursionlimit(DEEP)
    made = []
    for path in books:
        book, name = Book(path.read_bytes()), folder / path.stem
        for sheet in book.sizes:
            with name.with_name(f"{name.name}-{sheet}.csv").open("w", encoding="utf-8", newline="") as out:
                csv.writer(out).writerows(rows(book, sheet))
        made.append(name)
    return made


def rows(book: Book, sheet: str) -> Iterator[list[str]]:
    """Every row of a sheet, worked out, as text."""
    height, width = book.sizes[sheet]
    for row in range(1, height + 1):
        yield [_text(book.at(sheet, row, column)) for column in range(1, width + 1)]


def _text(held: Value) -> str:
    if held is None:
        return ""
    return repr(float(held)) if isinstance(held, (int, float)) else str(held)


