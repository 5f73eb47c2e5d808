"""What the functions and operators of a workbook's formulas mean, for `pure_python`; only those that our books use."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from datetime import date
from typing import Any

from openpyxl.utils.datetime import from_excel, to_excel

Value = Any  # a number, a text, a truth, None, an error, or the cells of a range as a list
STEPS, CLOSE = 100, 1e-13


class CellError(Exception):
    """An error as a cell shows it; it starts with `#`."""


def number(held: Value) -> float:
    """A single value as a number: nothing counts as 0, a truth as 0 or 1; raises CellError for anything else."""
    if isinstance(held, CellError):
        raise held
    if held is None:
        return 0.0
    if isinstance(held, (bool, int, float)):
        return float(held)
    raise CellError("#VALUE!")


def called(function: Callable[..., Value], parts: list[Value]) -> Value:
    """A function of some parts; what goes beyond all numbers is an error of the cell."""
    try:
        return function(*parts)
    except ArithmeticError:
        raise CellError("#NUM!") from None


def single(held: Value) -> Value:
    """A single value as it is; raises CellError where it is one."""
    if isinstance(held, CellError):
        raise held
    return held


def numbers(parts: tuple[Value, ...]) -> Iterator[float]:
    """Numbers among values and ranges; in a range texts and empty cells are passed over."""
    for part in parts:
        if not isinstance(part, list):
            yield number(part)
            continue
        for held in part:
            if isinstance(single(held), (int, float)) and not isinstance(held, bool):
                yield float(held)


def _order(left: Value, right: Value) -> tuple[Value, Value]:
    """Two values that can be compared: numbers, or texts without regard to capitals; numbers come before texts."""
    left, right = ("" if side is None and isinstance(other, str) else side for side, other in ((left, right), (right, left)))
    if isinstance(single(left), str) and isinstance(single(right), str):
        return left.casefold(), right.casefold()
    if isinstance(left, str) or isinstance(right, str):
        return isinstance(left, str), isinstance(right, str)
    return number(left), number(right)


def _divided(left: Value, right: Value) -> float:
    over, under = number(left), number(right)
    if under == 0:
        raise CellError("#DIV/0!")
    return over / under


def _power(left: Value, right: Value) -> float:
    try:
        found = number(left) ** number(right)
    except (ZeroDivisionError, OverflowError):
        raise CellError("#NUM!") from None
    if isinstance(found, complex):
        raise CellError("#NUM!")
    return float(found)


OPERATORS: dict[str, Callable[[Value, Value], Value]] = {
    "+": lambda left, right: number(left) + number(right),
    "-": lambda left, right: number(left) - number(right),
    "*": lambda left, right: number(left) * number(right),
    "/": _divided,
    "^": _power,
    "=": lambda left, right: (lambda pair: pair[0] == pair[1])(_order(left, right)),
    "<>": lambda left, right: (lambda pair: pair[0] != pair[1])(_order(left, right)),
    "<": lambda left, right: (lambda pair: pair[0] < pair[1])(_order(left, right)),
    ">": lambda left, right: (lambda pair: pair[0] > pair[1])(_order(left, right)),
    "<=": lambda left, right: (lambda pair: pair[0] <= pair[1])(_order(left, right)),
    ">=": lambda left, right: (lambda pair: pair[0] >= pair[1])(_order(left, right)),
}


def _if(test: Callable[[], Value], then: Callable[[], Value], other: Callable[[], Value]) -> Value:
    return then() if number(test()) else other()


def _if_error(part: Callable[[], Value], other: Callable[[], Value]) -> Value:
    try:
        return single(part())
    except CellError:
        return other()


def _is_error(part: Callable[[], Value]) -> bool:
    try:
        single(part())
    except CellError:
        return True
    return False


LAZY: dict[str, Callable[..., Value]] = {"IF": _if, "IFERROR": _if_error, "ISERROR": _is_error}


def _npv(rate: Value, *parts: Value) -> float:
    growth = 1 + number(rate)
    if growth == 0:
        raise CellError("#DIV/0!")
    return math.fsum(value / growth**place for place, value in enumerate(numbers(parts), start=1))


def _irr(flows: Value, guess: Value = 0.1) -> float:
    """A rate at which the flows are worth nothing, by Newton's steps from a guess; raises CellError where none is reached."""
    values, rate = list(numbers((flows,))), number(guess)
    for _ in range(STEPS):
        growth = 1 + rate
        if growth <= 0 or not math.isfinite(growth):
            break
        worth = math.fsum(value / growth**place for place, value in enumerate(values))
        slope = math.fsum(-place * value / growth ** (place + 1) for place, value in enumerate(values))
        if slope == 0:
            break
        step = worth / slope
        rate -= step
        if abs(step) <= CLOSE * max(1.0, abs(rate)):
            return rate
    raise CellError("#NUM!")


def _sum_if(tested: list[Value], wanted: Value, summed: list[Value]) -> float:
    return math.fsum(number(held) for test, held in zip(tested, summed, strict=True) if _same(test, wanted))


def _same(held: Value, wanted: Value) -> bool:
    return held is not None and not isinstance(held, CellError) and bool(OPERATORS["="](held, wanted))


def _match(wanted: Value, among: list[Value], kind: Value) -> float:
    assert number(kind) == 0
    for place, held in enumerate(among, start=1):
        if _same(held, single(wanted)):
            return float(place)
    raise CellError("#N/A")


def _index(among: list[Value], place: Value) -> Value:
    row = int(number(place))
    if not 1 <= row <= len(among):
        raise CellError("#REF!")
    return single(among[row - 1])


def _average(*parts: Value) -> float:
    found = list(numbers(parts))
    return _divided(math.fsum(found), len(found))


def _date(year: Value, month: Value, day: Value) -> float:
    years, place = divmod(int(number(month)) - 1, 12)
    return float(to_excel(date(int(number(year)) + years, place + 1, 1))) + number(day) - 1


def _is_number(held: Value) -> bool:
    return isinstance(held, (int, float)) and not isinstance(held, bool)


FUNCTIONS: dict[str, Callable[..., Value]] = {
    "SUM": lambda *parts: math.fsum(numbers(parts)),
    "MIN": lambda *parts: min(numbers(parts), default=0.0),
    "MAX": lambda *parts: max(numbers(parts), default=0.0),
    "ABS": lambda held: abs(number(held)),
    "INT": lambda held: float(math.floor(number(held))),
    "EXP": lambda held: math.exp(number(held)),
    "SQRT": lambda held: math.sqrt(number(held)),
    "AND": lambda *parts: bool(math.prod(number(part) != 0 for part in parts)),
    "AVERAGE": _average,
    "COUNT": lambda *parts: float(sum(_is_number(held) for part in parts for held in part)),
    "COUNTA": lambda *parts: float(sum(held is not None for part in parts for held in part)),
    "COUNTIF": lambda among, wanted: float(sum(_same(held, wanted) for held in among)),
    "SUMIF": _sum_if,
    "SUMXMY2": lambda left, right: math.fsum((number(a) - number(b)) ** 2 for a, b in zip(left, right, strict=True)),
    "INDEX": _index,
    "MATCH": _match,
    "IRR": _irr,
    "NPV": _npv,
    "ISNUMBER": _is_number,
    "DATE": _date,
    "YEAR": lambda held: float(from_excel(number(held)).year),
    "MONTH": lambda held: float(from_excel(number(held)).month),
}
