"""The assumption book as it is printed: fewer columns, a table for each way of knowing, and what moves the worth most."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from appraisal.present.assumption_book import MOST_MOVING, Entry, moved_by
from appraisal.present.citing import without
from appraisal.present.how_known import SECTIONS
from appraisal.present.numbers import counted
from appraisal.present.tables import Table
from appraisal.present.written import several

ITEM_PARTS = 3  # parts of a path that belongs to a named item
BASIS, MOVED = "source, date", "a tenth moves\nthe worth by"
OF_ITSELF = (*SECTIONS, "common practice, no source", "from memory", "read")  # what the title of the table says already
HEAD = ("input", "path", "value", "range", BASIS, "rank", MOVED)


def tables_for_paper(listed: Sequence[Entry], *, currency: str) -> dict[str, Table]:
    """The whole book, a table for each way of knowing by its title, the weakest first; worth in this currency.

    Items that have an input alike, none of them moving the worth, share a row: `capital.*.sales_tax_rate` of tank, engine.
    """
    made = {}
    for group, title in SECTIONS.items():
        held = [each for each in listed if each.known == group]
        rows = tuple(_row(alike) for alike in _alike(held))
        if rows:
            empty = [name for name, *cells in zip(HEAD, *rows, strict=True) if not any(cells)]
            basis = "" if MOVED in empty else f"; worth in {currency}"
            made[title] = without(Table(f"{title}: {counted(len(held), 'input')}{basis}", HEAD, rows), *empty)
    return made


def most_moving(listed: Iterable[Entry], *, currency: str) -> Table:
    """The inputs that move the worth [currency] most, however they are known."""
    first = sorted((each for each in listed if each.rank), key=lambda each: each.rank or 0)[:MOST_MOVING]
    rows = tuple(
        (str(each.rank), each.label, _with_unit(each), _range(each), each.known, _basis(each), moved_by(each))
        for each in first
    )
    head = ("rank", "input", "value", "range", "how it is known", BASIS, MOVED)
    return Table(f"The {len(rows)} inputs that move the worth most, however they are known; worth in {currency}", head, rows)


def _alike(held: Iterable[Entry]) -> Iterable[list[Entry]]:
    """Inputs in their order; those of several items that differ in nothing but the item stand together."""
    made: dict[tuple[object, ...], list[Entry]] = {}
    for each in held:
        parts = each.path.split(".")
        same = (parts[0], *parts[2:], each.value, each.range, each.reason, each.source, each.date, each.in_full)
        made.setdefault(same if len(parts) == ITEM_PARTS and each.rank is None else (each.path,), []).append(each)
    return made.values()


def _row(alike: Sequence[Entry]) -> tuple[str, ...]:
    first, names = alike[0], [each.path.split(".")[1].replace("_", " ") for each in alike if "." in each.path]
    label, path = first.label, first.path
    if len(alike) > 1:
        section, _, field = path.split(".")
        label = f"{label.removesuffix(f' ({names[0]})')} ({', '.join(names)})"
        path = f"{section}.*.{field}"
    rank = "" if first.rank is None else str(first.rank)
    return (label, path, _with_unit(first), _range(first), _basis(first), rank, moved_by(first))


def _range(each: Entry) -> str:
    """The range as declared or known; else how far the program lets the number go, so that nobody takes it for sure."""
    return each.range or (f"may be {each.limits}" if each.limits else "")


def _basis(each: Entry) -> str:
    """Source and date, how it is known as the source words it, and why the range is so wide."""
    told = "" if each.in_full in OF_ITSELF else each.in_full
    why = f"range: {each.reason}" if each.reason else ""
    return "; ".join(part for part in (", ".join(filter(None, (each.source, each.date))), told, why) if part)


def _with_unit(each: Entry) -> str:
    """A value with its unit; of a long series the least and the greatest, for all of it stands in the files."""
    number = each.brief.rpartition(" ")[2]
    return f"{each.brief} {several(number, each.unit)}".rstrip() if each.unit else each.brief
