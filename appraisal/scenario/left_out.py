"""Fields that a file leaves out: the declared default, or the row of a reference table that the file names."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from difflib import get_close_matches
from functools import partial
from typing import Any

from appraisal.errors import AppraisalError, Fault
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.draft import Draft, stand_in
from appraisal.scenario.faults import one_line, shown
from appraisal.scenario.locate import dotted
from appraisal.scenario.quantity import SERIES, Declaration, Lookup
from appraisal.scenario.reference import Figure, UnknownRow, figure, interpolated, row

MONTH_COLUMNS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
Reader = Callable[[str], Figure]


def fill_defaults(fields: Iterable[Declaration], item: dict[str, Any], *, parts: tuple[str, ...], draft: Draft) -> None:
    """Put the declared default into every field that the item at `parts` leaves out and that has one.

    A field with a default and a look-up takes the default only where the item names no row.
    """
    for field in fields:
        if field.name not in item and field.default is not None and field.lookup is None:
            _put_default(field, item, parts=parts, draft=draft)


def _put_default(field: Declaration, item: dict[str, Any], *, parts: tuple[str, ...], draft: Draft) -> None:
    entries = SERIES.get(field.kind, 0)
    item[field.name] = [field.default] * entries if entries else field.default
    path = dotted((*parts, field.name))
    draft.assumptions[path] = Assumption(
        path=path, declaration=field, origin="default", source=field.source, known=field.basis,
        value=(field.default,) * entries if entries else field.default)


def look_up(fields: Iterable[Declaration], item: dict[str, Any], *, parts: tuple[str, ...], draft: Draft) -> None:
    """Fill every field that the item leaves out from the reference row that the item names.

    An item that names no row, or one that is not there, gets one fault, however many fields are left out; where no row
    is named, a field with a default besides takes that.
    """
    for group in _by_row(fields):
        if item.get(group[0][1].key) == "":
            for field, _ in group:
                if field.name not in item and field.default is not None:
                    _put_default(field, item, parts=parts, draft=draft)
        missing = [(field, lookup) for field, lookup in group if field.name not in item]
        reader = _reader(group[0][1], item, parts=parts, missing=[field for field, _ in missing], draft=draft)
        for field, lookup in missing:
            path = dotted((*parts, field.name))
            if reader is None:
                item[field.name] = stand_in(field)
                draft.doubtful.add(path)
            elif field.kind == "path":
                item[field.name] = _read_path(field, lookup, id=str(item[lookup.key]), path=path, draft=draft)
            else:
                item[field.name] = _read(field, lookup, reader=reader, path=path, draft=draft)


def _by_row(fields: Iterable[Declaration]) -> list[list[tuple[Declaration, Lookup]]]:
    """Fields with a look-up, gathered by the table and the key that names the row in it."""
    groups: dict[tuple[str, str], list[tuple[Declaration, Lookup]]] = {}
    for field in fields:
        if field.lookup is not None:
            groups.setdefault((field.lookup.table, field.lookup.key), []).append((field, field.lookup))
    return list(groups.values())


def _reader(
    lookup: Lookup, item: Mapping[str, Any], *, parts: tuple[str, ...], missing: list[Declaration], draft: Draft,
) -> Reader | None:
    """A function from column to figure, or None, with the fault in the draft, when no row can be named."""
    if lookup.key.startswith("="):
        return partial(figure, lookup.table, lookup.key[1:])
    key, path = item.get(lookup.key), dotted((*parts, lookup.key))
    if path in draft.doubtful:
        return None
    if lookup.interpolate:
        return partial(interpolated, lookup.table, at=key) if isinstance(key, float) and 0 < key < 1e9 else None
    if not isinstance(key, str):
        return None
    if not key:
        if missing:
            draft.refuse(_row_needed(lookup, path, missing=missing))
        return None
    return _of_row(lookup.table, key, path=path, draft=draft)


def _row_needed(lookup: Lookup, path: str, *, missing: list[Declaration]) -> Fault:
    names = ", ".join(field.name for field in missing)
    return Fault(path, f"needed: name a row of the reference table {lookup.table}, or give {names}")


def _of_row(table: str, id: str, *, path: str, draft: Draft) -> Reader | None:
    try:
        row(table, id)
    except UnknownRow as unknown:
        names = get_close_matches(id, unknown.likely, n=3, cutoff=0.8) or unknown.likely[:3]
        close = " or ".join(f"`{name}`" for name in names)
        hint = f"did you mean {close}?" if close else None
        draft.refuse(Fault(path, f"no such row in the reference table {table}", got=shown(id), hint=hint))
        return None
    return partial(figure, table, id)


def _read_path(field: Declaration, lookup: Lookup, *, id: str, path: str, draft: Draft) -> Any:
    """Read a left-out list of one cell, its entries parted by semicolons; nothing stands in the years after the list."""
    cell = row(lookup.table, id)
    numbers = tuple(float(part) * lookup.scale for part in cell[lookup.column].split(";"))
    whole = (*numbers, *(0.0,) * (SERIES["path"] - len(numbers)))
    draft.assumptions[path] = Assumption(
        path=path, value=whole, declaration=field, origin="reference", known=cell["basis"],
        source=f"{cell['source']} (table {lookup.table}, row {id})")
    return list(whole)


def _read(field: Declaration, lookup: Lookup, *, reader: Reader, path: str, draft: Draft) -> Any:
    """Read one left-out field, keep it as an assumption, and hand back the value [the field's unit]."""
    profile = field.kind == "profile"
    try:
        figures = [reader(lookup.column.format(month=month)) for month in (MONTH_COLUMNS if profile else ("",))]
    except AppraisalError as error:
        draft.refuse(Fault(path, one_line(str(error)), allowed=field.allowed()))
        return stand_in(field)
    values, first = tuple(each.value * lookup.scale for each in figures), figures[0]
    low, high = (None if profile or end is None else end * lookup.scale for end in (first.low, first.high))
    draft.assumptions[path] = Assumption(
        path=path, value=values if profile else values[0], declaration=field, origin="reference",
        source=f"{first.source} (table {first.table}, row {first.id})", known=first.basis, low=low, high=high)
    return list(values) if profile else values[0]
