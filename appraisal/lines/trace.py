"""The second reading of a line: the same function called with cells that write down the spreadsheet formula."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from appraisal.errors import LineError
from appraisal.lines.names import Ref
from appraisal.lines.plan import Argument, Node
from appraisal.lines.tape import Stand

OPERATIONS = {
    np.add: "({}+{})",
    np.subtract: "({}-{})",
    np.multiply: "({}*{})",
    np.divide: "({}/{})",
    np.power: "({}^{})",
    np.negative: "(-{})",
    np.minimum: "MIN({},{})",
    np.maximum: "MAX({},{})",
    np.floor: "INT({})",
    np.exp: "EXP({})",
    np.sqrt: "SQRT({})",
    np.greater: "({}>{})",
    np.greater_equal: "({}>={})",
    np.less: "({}<{})",
    np.less_equal: "({}<={})",
    np.equal: "({}={})",
}
ALLOWED_NUMBERS = (0, 1, -1)


class Cell(np.lib.mixins.NDArrayOperatorsMixin):
    """A stand-in for an array that records operations as spreadsheet text instead of doing them."""

    def __init__(self, text: str) -> None:
        self.text = text

    def __array_ufunc__(self, ufunc: np.ufunc, method: str, *operands: Any, **options: Any) -> Cell:
        """Record one arithmetic operation; raises LineError for one that has no spreadsheet form."""
        if ufunc not in OPERATIONS or method != "__call__" or options:
            raise LineError(f"{ufunc.__name__} has no spreadsheet form")
        return Cell(OPERATIONS[ufunc].format(*map(_text, operands)))

    def __array_function__(self, function: Callable[..., Any], types: Any, operands: Any, options: Any) -> Cell:
        """Record `np.where`; raises LineError for any other function."""
        if function is not np.where:
            raise LineError(f"{function.__name__} has no spreadsheet form")
        return Cell("IF({},{},{})".format(*map(_text, operands)))

    def __bool__(self) -> bool:
        """Refuse a branch on a value."""
        raise LineError("a line may not branch on a value: use np.where, or two variants and a choice")


def _text(operand: Any) -> str:
    if isinstance(operand, Cell):
        return operand.text
    if isinstance(operand, (bool, np.ndarray)) or operand not in ALLOWED_NUMBERS:
        raise LineError(
            f"the number {operand!r} stands inside a line: declare it as an input or a constant with its source"
        )
    return str(int(operand))


def formula(node: Node, address: Callable[[Ref], str]) -> str:
    """The spreadsheet formula of a node, without the equals sign.

    address: gives the text for one value the node reads (a cell, or a function of a range).
    Raises LineError where the definition holds a number of its own or an operation with no spreadsheet form.
    """
    try:
        result = node.line.body(*[_cells(argument, address) for argument in node.arguments])
    except LineError as error:
        raise LineError(f"{node.name}: {error}") from error
    return _text(result)


def _cells(argument: Argument, address: Callable[[Ref], str]) -> Cell | list[Cell]:
    if isinstance(argument, tuple):
        return [Cell(address(ref)) for ref in argument]
    return Cell(address(argument))


def total(values: list[Any]) -> Any:
    """Sum of a list of lines in its order, 0 for none; lines use this for `each_` and `all_` arguments."""
    return sum(values)


def pick(row: Any, place: Any) -> Any:
    """Entry number `place` of a row, the first is 1; a line guards that the place lies inside the row.

    row: (1 or draws, entries), read through the view `years_of_`. place: (1 or draws, periods), whole numbers.
    """
    if isinstance(row, Cell):
        return Cell(f"INDEX({row.text},{_text(place)})")
    if isinstance(row, Stand):
        return row.done(pick, place, columns=getattr(place, "columns", None) or place.shape[1])
    if isinstance(place, Stand):
        return place.done(_picked_from, row, columns=place.columns)
    index = np.asarray(place, dtype=np.float64).astype(np.int64) - 1
    draws = max(row.shape[0], index.shape[0])
    whole, places = np.broadcast_to(row, (draws, row.shape[1])), np.broadcast_to(index, (draws, index.shape[1]))
    return np.take_along_axis(whole, places, axis=1)


def _picked_from(place: Any, row: Any) -> Any:
    return pick(row, place)
