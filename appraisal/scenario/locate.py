"""Where a value stands in the text of a scenario file: dotted paths and line numbers."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

DEEPEST = 4  # parts of the longest path that a fault is about
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_TOKEN = re.compile(
    r'''(?P<comment>\#[^\n]*)
    |(?P<text>"""(?:[^\\]|\\.)*?"""(?:"{0,2})|\'\'\'.*?\'\'\'(?:\'{0,2})|"(?:[^"\\\n]|\\.)*"|'[^'\n]*'|[A-Za-z0-9_-]+)
    |(?P<blank>[ \t\r]+)
    |(?P<mark>.)''', re.DOTALL | re.VERBOSE)


def printable(text: str) -> str:
    """The text with every character that would break a line or a screen written as an escape."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)


def dotted(parts: Iterable[str]) -> str:
    """One dotted path for the parts of a key; a part that holds more than letters, digits, _ and - is quoted."""
    escaped = (part.replace("\\", "\\\\").replace('"', '\\"') for part in parts)
    return ".".join(part if _BARE.fullmatch(part) else f'"{printable(part)}"' for part in escaped)


def line_of(lines: Mapping[str, int], path: str) -> int | None:
    """The line of a path, or of the nearest table around it, or None when the file holds neither."""
    while path:
        if path in lines:
            return lines[path]
        path = path.rpartition(".")[0]
    return None


def line_map(text: str) -> dict[str, int]:
    """The line, counted from 1, of every table and key in a valid TOML text, by dotted path."""
    lines: dict[str, int] = {}
    for parts, line in _keys(text):
        for length in range(1, min(len(parts), DEEPEST) + 1):
            lines.setdefault(dotted(parts[:length]), line)
    return lines


@dataclass
class _Place:
    """Where the scan stands: the open brackets, the key being spelled and the tables around it."""

    table: tuple[str, ...] = ()
    value_of: tuple[str, ...] = ()
    around: list[tuple[tuple[str, ...], tuple[str, ...]]] = field(default_factory=list)
    spelled: list[str] = field(default_factory=list)
    joined: bool = False
    fresh: bool = True
    header: bool = False


def _keys(text: str) -> Iterator[tuple[tuple[str, ...], int]]:
    """Every table header and key with its line; an equals sign outside of texts always follows a key."""
    place, line = _Place(), 1
    for token in _TOKEN.finditer(text):
        kind, piece = token.lastgroup, token.group()
        if kind == "text":
            _spell(place, piece)
        elif kind == "mark":
            found = _mark(place, piece)
            if found is not None:
                yield found, line
        line += piece.count("\n")


def _spell(place: _Place, piece: str) -> None:
    if not place.joined:
        place.spelled.clear()
    place.spelled.append(piece)
    place.joined = place.fresh = False


def _mark(place: _Place, mark: str) -> tuple[str, ...] | None:
    """Move past one sign, and hand back the path of the key or table that it ends."""
    found: tuple[str, ...] | None = None
    if mark == "=":
        found = place.value_of = place.table + _names(place)
    elif mark == "[" and place.fresh and not place.around:
        place.header = True
    elif mark == "]" and place.header:
        found = place.table = _names(place)
    elif mark in "[{":
        place.around.append((place.table, place.value_of))
        place.table = place.value_of
    elif mark in "]}" and place.around:
        place.table, place.value_of = place.around.pop()
    elif mark == "\n" and not place.around:
        place.fresh, place.header = True, False
    place.joined = mark == "."
    return found


def _names(place: _Place) -> tuple[str, ...]:
    return tuple(_unquoted(piece) for piece in place.spelled)


def _unquoted(piece: str) -> str:
    if piece.startswith("'"):
        return piece[1:-1]
    if not piece.startswith('"'):
        return piece
    return piece[1:-1] if "\\" not in piece else next(iter(tomllib.loads(f"{piece} = 0")))
