"""One field as written in a file, turned into numbers in the field's own unit."""

from __future__ import annotations

import math
import unicodedata
from typing import Any

from appraisal.errors import AppraisalError, UnitError
from appraisal.scenario.faults import hint, one_line, out_of_range, shown
from appraisal.scenario.quantity import SERIES, Declaration
from appraisal.scenario.units import read_quantity

TEXT_CHARACTERS = 5000
LONGEST_LIST = 1000  # entries
UNSEEN = ("Cc", "Cf", "Zl", "Zp")  # they steer a screen, turn the direction of writing, or pass for nothing
ALLOWED_UNSEEN = "\n\t\u200c\u200d"  # line end, tab; the two joiners that Persian and Indic writing needs
_MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
           "December")


class RefusedError(AppraisalError):
    """A value that cannot be read: what is wrong, the value as written, and what is likely meant."""

    def __init__(self, what: str, *, got: str, hint: str | None = None) -> None:
        self.what, self.got, self.hint = what, got, hint
        super().__init__(what)


class UnjudgedError(AppraisalError):
    """A value in money while the scenario's currency is itself at fault: nothing can be said about it."""


def converted(item: Declaration, value: Any, *, currency: str | None) -> Any:
    """The value of one field for the section's class to check.

    Parameters
    ----------
    item : the field's declaration, with its unit.
    value : as TOML read it; a text holds a number with its unit.
    currency : three-letter code of the scenario's money; None when the file names none.

    Returns
    -------
    A number [item.unit], a list of twelve of them (of sixty for a path, of any length for a list), or the value untouched
    where the class itself can judge it.

    Raises
    ------
    RefusedError
        An unreadable quantity, a profile that is not one value or twelve good ones, a text with characters that cannot be seen.
    UnjudgedError
        A quantity in money without a currency.
    """
    if item.kind == "number":
        return _number(item, value, currency=currency)
    if item.kind == "list":
        return _list(item, value, currency=currency)
    if item.kind in SERIES:
        return _series(item, value, currency=currency)
    if item.kind == "text" and isinstance(value, str):
        return _text(value)
    return value


def as_written(value: Any) -> str:
    """The text of a value that was written with its unit, empty for plain numbers; twelve are parted by commas."""
    if isinstance(value, str):
        return value
    if isinstance(value, list) and any(isinstance(entry, str) for entry in value):
        return ", ".join(str(entry) for entry in value)
    return ""


def _number(item: Declaration, value: Any, *, currency: str | None) -> Any:
    if isinstance(value, str):
        return _quantity(item, value, currency=currency)
    if isinstance(value, int) and not isinstance(value, bool):
        try:
            return float(value)
        except OverflowError:
            raise RefusedError("not a finite number", got=shown(value)) from None
    return value


def _quantity(item: Declaration, value: str, *, currency: str | None) -> float:
    if currency is None and "money" in item.unit:
        raise UnjudgedError(item.name)
    try:
        return read_quantity(value, item.unit, currency=currency)
    except UnitError as error:
        raise RefusedError(one_line(str(error)), got=shown(value)) from error


def _series(item: Declaration, value: Any, *, currency: str | None) -> list[float]:
    """Twelve numbers of a profile, or the years of a path, carried on with the last one."""
    longest = SERIES[item.kind]
    if not isinstance(value, list):
        return [_entry(item, value, currency=currency)] * longest
    if item.kind == "profile" and len(value) != longest:
        raise RefusedError("one value or twelve are needed, January first", got=shown(value))
    if not 1 <= len(value) <= longest:
        raise RefusedError(f"one value or up to {longest} are needed, the first project year first", got=shown(value))
    numbers = _entries(item, value, currency=currency)
    return numbers + numbers[-1:] * (longest - len(numbers))


def _list(item: Declaration, value: Any, *, currency: str | None) -> list[float]:
    if not isinstance(value, list) or not 1 <= len(value) <= LONGEST_LIST:
        raise RefusedError(f"1 to {LONGEST_LIST} numbers are needed, in square brackets", got=shown(value))
    return _entries(item, value, currency=currency)


def _entries(item: Declaration, value: list[Any], *, currency: str | None) -> list[float]:
    """Every entry of a list in the field's unit; the message names the first that is refused."""
    numbers, bad = [], []
    for place, entry in enumerate(value):
        try:
            numbers.append(_entry(item, entry, currency=currency))
        except RefusedError as refused:
            bad.append((place, refused))
    if bad:
        place, first = bad[0]
        more = f", and {len(bad) - 1} more" if len(bad) > 1 else ""
        names = {"profile": f" ({_MONTHS[place % len(_MONTHS)]})", "path": f" (project year {place + 1})"}
        name = names.get(item.kind, "")
        raise RefusedError(f"entry {place + 1}{name}{more}: {first.what}", got=first.got, hint=first.hint)
    return numbers


def _entry(item: Declaration, value: Any, *, currency: str | None) -> float:
    number = _number(item, value, currency=currency)
    if isinstance(number, bool) or not isinstance(number, float):
        raise RefusedError("not a number", got=shown(value), hint=hint(item, value))
    if not math.isfinite(number):
        raise RefusedError("not a finite number", got=shown(value))
    if beyond := out_of_range(item, number):
        raise RefusedError(beyond, got=shown(value), hint=hint(item, value))
    return number


def _text(value: str) -> str:
    if len(value) > TEXT_CHARACTERS:
        raise RefusedError(f"longer than {TEXT_CHARACTERS} characters", got=shown(value))
    bad = [c for c in value if unicodedata.category(c) in UNSEEN and c not in ALLOWED_UNSEEN]
    if bad:
        name = unicodedata.name(bad[0], "a control character")
        raise RefusedError(f"holds {bad[0]!a}, which cannot be seen ({name.lower()})", got=shown(value), hint="delete it")
    return value
