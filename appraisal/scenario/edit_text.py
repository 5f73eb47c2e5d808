"""Changes to the text of a scenario file that leave everything else in it as it was: comments, order, own units."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

import tomlkit
from tomlkit.items import Table

from appraisal.errors import AppraisalError
from appraisal.scenario.beside import CHANGES
from appraisal.scenario.locate import dotted, line_map
from appraisal.scenario.model import ASIDE


class EditError(AppraisalError):
    """A change cannot be made in this text without touching more than it; it can be made by hand in the file itself."""


def with_edits(text: str, edits: Mapping[tuple[str, ...], Any]) -> str:
    """The text with values set, or taken out where None is given.

    edits: path as parts, such as ("feed", "whey", "tonnes_per_year") or ("range", "feed.whey.tonnes_per_year", "low").
    Raises EditError when the text would then not say exactly this.
    """
    wanted = tomllib.loads(text)
    fresh: dict[tuple[str, ...], dict[str, Any]] = {}
    for parts, value in edits.items():
        if value is not None and not _has(wanted, parts[:-1]):
            fresh.setdefault(parts[:-1], {})[parts[-1]] = value
    document = tomlkit.parse(text)
    for parts, value in edits.items():
        if parts[:-1] not in fresh:
            _set(document, parts, value)
        _set_plain(wanted, parts, value)
    text = tomlkit.dumps(document)
    for table, values in fresh.items():
        text = _with_table(text, table, values)
    return _checked(text, wanted)


def with_item(text: str, section: str, name: str, values: Mapping[str, Any]) -> str:
    """The text with one more named table; raises EditError when the name is taken."""
    wanted = tomllib.loads(text)
    if name in wanted.get(section, {}):
        raise EditError(f"{section}.{name} is there already")
    given = {key: value for key, value in values.items() if value is not None}
    wanted.setdefault(section, {})[name] = given
    return _checked(_with_table(text, (section, name), given), wanted)


def without_item(text: str, section: str, name: str) -> str:
    """The text without a named table and without ranges, sources, correlations and moves in bad cases of its values."""
    wanted = tomllib.loads(text)
    moves: dict[tuple[str, ...], Any] = {
        ("stress", case, kind, path): None
        for case, item in wanted.get("stress", {}).items()
        for kind in CHANGES
        for path in item.get(kind, {})
        if path.startswith(f"{section}.{name}.")
    }
    text = with_edits(text, moves)
    wanted = tomllib.loads(text)
    gone = [(section, name)]
    for aside in ("range", "source"):
        gone += [(aside, path) for path in wanted.get(aside, {}) if path.startswith(f"{section}.{name}.")]
    for pair, item in wanted.get("correlation", {}).items():
        ends = [str(item.get(end, "")) for end in ("first", "second")]
        if any(end.startswith(f"{section}.{name}.") for end in ends):
            gone.append(("correlation", pair))
    for table in gone:
        _set_plain(wanted, table, None)
        text = _without_table(text, table)
    return _checked(text, wanted)


def without_table(text: str, table: tuple[str, ...]) -> str:
    """The text without one table, such as ("range", "feed.whey.tonnes_per_year"); as it was when there is none."""
    wanted = tomllib.loads(text)
    if not _has(wanted, table):
        return text
    _set_plain(wanted, table, None)
    return _checked(_without_table(text, table), wanted)


def _has(tables: Mapping[str, Any], parts: tuple[str, ...]) -> bool:
    holder: Any = tables
    for part in parts:
        if not isinstance(holder, Mapping) or part not in holder:
            return False
        holder = holder[part]
    return True


def _with_table(text: str, table: tuple[str, ...], values: Mapping[str, Any]) -> str:
    """One more table, behind the last of its kind or at the end of the file."""
    block = [f"[{dotted(table)}]", *(f"{name} = {tomlkit.item(value).as_string()}" for name, value in values.items())]
    lines = text.split("\n")
    ends = [_end(lines, start, heads) for heads in [_heads(text)] for path, start in heads.items() if path[0] == table[0]]
    place = max(ends) if ends and len(table) > 1 else len(text.rstrip().split("\n"))
    return "\n".join([*lines[:place], "", *block, *(lines[place:] or [""])])


def _without_table(text: str, table: tuple[str, ...]) -> str:
    """The text without the lines of a table; comments behind its last value belong to what follows and stay."""
    lines, heads = text.split("\n"), _heads(text)
    if table not in heads:
        document = tomlkit.parse(text)
        _set(document, table, None)
        return tomlkit.dumps(document)
    start = heads[table]
    end = _end(lines, start, heads)
    while end < len(lines) and not lines[end].strip():
        end += 1
    return "\n".join([*lines[:start], *lines[end:]])


def _heads(text: str) -> dict[tuple[str, ...], int]:
    """The place of every table header in the lines of a text, by its parts."""
    lines = text.split("\n")
    found = {}
    for path, line in line_map(text).items():
        parts = _quoted_parts(path)
        if lines[line - 1].lstrip().startswith(f"[{dotted(parts)}]"):
            found[parts] = line - 1
    return found


def _end(lines: list[str], start: int, heads: Mapping[tuple[str, ...], int]) -> int:
    """The place behind the last line of a table that is neither blank nor a comment."""
    end = min((place for place in heads.values() if place > start), default=len(lines))
    while end > start + 1 and (not lines[end - 1].strip() or lines[end - 1].lstrip().startswith("#")):
        end -= 1
    return end


def parts_of(path: str) -> tuple[str, ...]:
    """The parts of a dotted path of a value: `feed.whey.gate_fee_per_t`, or `range."feed.whey.gate_fee_per_t".low`."""
    if path.partition(".")[0] in ASIDE:
        return _quoted_parts(path)
    return tuple(path.split("."))


def _quoted_parts(path: str) -> tuple[str, ...]:
    keys = tomllib.loads(f"{path} = 0")
    parts: list[str] = []
    while isinstance(keys, dict):
        name, keys = next(iter(keys.items()))
        parts.append(name)
    return tuple(parts)


def _set(document: Any, parts: tuple[str, ...], value: Any) -> None:
    *above, name = parts
    holder = document
    for part in above:
        if part not in holder:
            return
        holder = holder[part]
    if value is None:
        if name in holder:
            del holder[name]
        return
    if name in holder or not isinstance(holder, Table):
        holder[name] = value
    else:
        _add(holder, name, value)


def _add(table: Table, name: str, value: Any) -> None:
    """Put a new key behind the last value of a table, before the blank lines and comments that introduce the next one."""
    body = table.value.body
    last = max((place for place, (key, _) in enumerate(body) if key is not None), default=-1)
    if last == len(body) - 1:
        table.append(name, value)
    else:
        table.value._insert_at(last + 1, name, tomlkit.item(value))  # the public ways put it behind those comments


def _set_plain(tables: dict[str, Any], parts: tuple[str, ...], value: Any) -> None:
    *above, name = parts
    holder = tables
    for part in above:
        if value is None and part not in holder:
            return
        holder = holder.setdefault(part, {})
    if value is None:
        holder.pop(name, None)
    else:
        holder[name] = value


def _checked(text: str, wanted: Mapping[str, Any]) -> str:
    try:
        found = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        found = {}
    if _pruned(found) != _pruned(wanted):
        raise EditError("this change cannot be made safely in the text of the file; make it by hand in `The file itself`")
    return text


def _pruned(tables: Mapping[str, Any]) -> dict[str, Any]:
    """The tables without empty ones at the top, which say nothing."""
    return {name: entry for name, entry in tables.items() if entry != {}}


