"""How an input is declared: once, with its unit, allowed range, label, help, default and source.

Everything that must know about inputs (loader, JSON Schema, starter file, input sheet, bad-value tests) reads these
declarations; nothing about an input is written a second time.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, cast

from pydantic import BaseModel, ConfigDict, Field
from pydantic.fields import FieldInfo

Kind = Literal["number", "profile", "path", "list", "count", "choice", "text"]
MONTHS_PER_YEAR = 12
LONGEST_YEARS = 60  # no scenario runs longer
SERIES = {"profile": MONTHS_PER_YEAR, "path": LONGEST_YEARS}


class Section(BaseModel):
    """Base of every section: strict, frozen, unknown names and NaN refused."""

    model_config = ConfigDict(extra="forbid", strict=True, frozen=True, allow_inf_nan=False)


@dataclass(frozen=True)
class Lookup:
    """Where a default is read when the scenario leaves the field out.

    table: reference table; column: its column (`{month}` stands for jan to dec in a profile);
    key: sibling field that names the row or holds the size to interpolate at, or `=row` for a fixed row;
    scale: factor from the table's unit to the field's (0.01 for per cent, 0.365 for kg a day to t a year).
    interpolate: True when `key` holds a size and not the name of a row.
    """

    table: str
    column: str
    key: str
    scale: float = 1.0
    interpolate: bool = False


@dataclass(frozen=True)
class Event:
    """What happens at the time that an input tells, for those who count in how many futures it happened.

    words: how it stands in a sentence, `{item}` for the name of its item. when: early, a number of years that ends before
    the plan's (or within the project, where the plan lets it run out); once, a month of which 0 is never, counted from 1;
    late, a time after the plan's. after: inputs [month] that stand between month 0 and the time it is counted from, a
    name without a point being a sibling.
    """

    words: str
    when: Literal["early", "once", "late"] = "early"
    after: tuple[str, ...] = ("project.build_months",)


@dataclass(frozen=True)
class Declaration:
    """One declared input, with everything a reader, a form or a check needs.

    name: field name, which ends in its unit; kind: number (one value), profile (twelve calendar months), path (one value
    a project year, the last standing for the years after), list (any number of numbers, only beside the values),
    count (whole number that fixes the shape of the model), choice (one of `options`) or text.
    unit: in the vocabulary of `units.py`; low, high: allowed range in that unit, None where open.
    default: value used when left out, None when required or looked up; beside a lookup it stands in where no row is named.
    source, basis: of that default. event: what happens at the time that the input tells.
    required: True when the file must give it; a field with a lookup is filled before the section is checked.
    """

    name: str
    kind: Kind
    label: str
    help: str
    unit: str = ""
    low: float | None = None
    high: float | None = None
    default: Any = None
    required: bool = True
    source: str = ""
    basis: str = ""
    lookup: Lookup | None = None
    options: tuple[str, ...] = ()
    event: Event | None = None

    def allowed(self) -> str:
        """Say in words what is accepted, with the unit."""
        if self.kind == "choice":
            return " or ".join(self.options)
        if self.kind == "text":
            return "text"
        low, high = (f"{bound:.12g}" if bound is not None else "" for bound in (self.low, self.high))
        one_sided = f"at least {low}" if low else f"at most {high}" if high else "any number"
        span = f"{low} to {high}" if low and high else one_sided
        return f"{span} {self.unit if self.unit != '1' else ''}".rstrip() + _HOW_MANY.get(self.kind, "")


_HOW_MANY = {
    "profile": ", one value or twelve", "path": ", one value or one for each project year", "list": ", in square brackets"}


def _field(
    declaration: dict[str, Any], default: Any, low: float | None, high: float | None, *, optional: bool = False,
) -> Any:
    required = default is None and declaration.get("lookup") is None and not optional
    extra = {"declaration": {**declaration, "low": low, "high": high, "default": default, "required": required}}
    bounds: dict[str, Any] = {} if declaration["kind"] in (*SERIES, "list") else {"ge": low, "le": high}
    bounds = {key: value for key, value in bounds.items() if value is not None}
    missing = None if optional else ...
    return Field(default=missing if default is None else default, json_schema_extra=cast(Any, extra), **bounds)


def number(
    unit: str, low: float | None, high: float | None, *, label: str, help: str,
    default: float | None = None, source: str = "", basis: str = "", lookup: Lookup | None = None,
    optional: bool = False, event: Event | None = None,
) -> Any:
    """Declare one number [`unit`] between `low` and `high`; it may carry a range and be sampled.

    optional: True for a number beside the values that may be absent; annotate it `float | None`. event: what happens then.
    """
    facts = dict(
        kind="number", unit=unit, label=label, help=help, source=source, basis=basis, lookup=lookup, event=event)
    return _field(facts, default, low, high, optional=optional)


def profile(
    unit: str, low: float | None, high: float | None, *, label: str, help: str,
    default: float | None = None, source: str = "", basis: str = "", lookup: Lookup | None = None,
) -> Any:
    """Declare twelve numbers [`unit`], January first; a single number stands for all twelve."""
    facts = dict(kind="profile", unit=unit, label=label, help=help, source=source, basis=basis, lookup=lookup)
    return _field(facts, default, low, high)


def path(
    unit: str, low: float | None, high: float | None, *, label: str, help: str,
    default: float | None = None, source: str = "", basis: str = "", lookup: Lookup | None = None,
) -> Any:
    """Declare one number [`unit`] for each project year; a shorter list goes on with its last number."""
    facts = dict(kind="path", unit=unit, label=label, help=help, source=source, basis=basis, lookup=lookup)
    return _field(facts, default, low, high)


def numbers(unit: str, low: float | None, high: float | None, *, label: str, help: str) -> Any:
    """Declare a list of numbers [`unit`] of any length that may be absent; only for what stands beside the values."""
    return _field(dict(kind="list", unit=unit, label=label, help=help), None, low, high, optional=True)


def count(unit: str, low: int, high: int, *, label: str, help: str, default: int | None = None) -> Any:
    """Declare a whole number that fixes the shape of the model; it cannot carry a range."""
    return _field(dict(kind="count", unit=unit, label=label, help=help), default, low, high)


def choice(*options: str, label: str, help: str, default: str | None = None) -> Any:
    """Declare a choice among named options; annotate the field with the same `Literal`."""
    return _field(dict(kind="choice", options=options, label=label, help=help), default, None, None)


def text(*, label: str, help: str, default: str | None = None) -> Any:
    """Declare free text."""
    return _field(dict(kind="text", label=label, help=help), default, None, None)


def declaration(name: str, field: FieldInfo) -> Declaration:
    """The declaration behind one pydantic field."""
    extra = cast(dict[str, Any], field.json_schema_extra)["declaration"]
    return Declaration(name=name, **extra)


@cache
def declarations(section: type[Section]) -> tuple[Declaration, ...]:
    """All declarations of a section, in the order they are written."""
    fields = section.model_fields.items()
    return tuple(declaration(name, field) for name, field in fields if field.json_schema_extra is not None)
