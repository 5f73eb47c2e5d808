"""From a file on disk to the tables it holds, or to the line where it stops being readable."""

from __future__ import annotations

import re
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

from appraisal.errors import Fault, ScenarioError
from appraisal.scenario.faults import SHOWN_CHARACTERS, one_line, syntax_hint
from appraisal.scenario.locate import printable

SIZE_LIMIT_BYTES = 2 * 1024 * 1024
LINE_LIMIT = 20_000  # characters; no list of a scenario comes near it
# A name of dozens of parts: reading one takes time by the square of its depth.
_DEEP_NAME = re.compile(r"""\s*\[{0,2}\s*(?:["']?[^\s."'=\[\]]+["']?\s?\.\s?){40}""")
_WHERE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)")
_OPEN = re.compile(r"at end of document|column 1\)|[Uu]nclosed|[Uu]nterminated")
_PLAIN = re.compile(r"\s*[^\s\[#=]+.*=")  # a line that gives a value
NOT_LOOKED_AT = "the values were not looked at: check the file again when this is mended"
ONCE = "keep one of them"
MOST_FAULTS = 20  # a file with more unreadable lines is no scenario
WAY_OUT = 'write name = value, a text in quotes, or behind # what is only a remark'
_TWICE = re.compile(r"Cannot (overwrite a value|declare .* twice|mutate immutable namespace .*)")


def read_text(path: Path, *, file: str) -> str:
    """The text of a scenario file.

    path: where it lies. file: its name in messages. Raises ScenarioError when it is missing, no file, too large or
    not UTF-8 text.
    """
    try:
        if path.is_dir():
            raise _unreadable(file, "is a folder, not a scenario file")
        with path.open("rb") as handle:
            content = handle.read(SIZE_LIMIT_BYTES + 1)
    except FileNotFoundError:
        raise _unreadable(file, "no such file") from None
    except (OSError, ValueError) as error:
        raise _unreadable(file, f"cannot be read: {one_line(str(error))}") from error
    if len(content) > SIZE_LIMIT_BYTES:
        raise _too_large(file)
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        fault = Fault("", "not UTF-8 text", got=f"byte {content[error.start]:#04x}", hint="save it as UTF-8", line=line)
        raise ScenarioError(file, [fault]) from error


def read_tables(text: str, *, file: str) -> dict[str, Any]:
    """The tables of a TOML text; raises ScenarioError with the line where it cannot be read, or when it is empty."""
    if len(text) > SIZE_LIMIT_BYTES:
        raise _too_large(file)
    _refuse_endless_lines(text, file=file)
    try:
        tables = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise ScenarioError(file, _syntax_faults(text)) from error
    except RecursionError as error:
        raise _unreadable(file, "tables or lists are nested too deeply") from error
    except ValueError as error:
        raise _unreadable(file, f"holds a number that cannot be read: {one_line(str(error))}") from error
    if not tables:
        raise _unreadable(file, "holds no values", hint="begin with the starter scenario")
    return tables


def _refuse_endless_lines(text: str, *, file: str) -> None:
    """Refuse what the TOML reader would take minutes over: lines of no sane length, names of dozens of parts."""
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > LINE_LIMIT:
            allowed = f"at most {LINE_LIMIT:,} characters"
            raise ScenarioError(file, [Fault("", "the line is too long for a scenario file", allowed=allowed, line=number)])
        if _DEEP_NAME.match(line):
            raise ScenarioError(file, [Fault("", "a name of dozens of parts is no name of a scenario", line=number)])


def _unreadable(file: str, what: str, *, hint: str | None = None) -> ScenarioError:
    return ScenarioError(file, [Fault("", what, hint=hint)])


def _too_large(file: str) -> ScenarioError:
    limit = f"at most {SIZE_LIMIT_BYTES // 1024**2} MiB"
    return ScenarioError(file, [Fault("", "too large for a scenario file", allowed=limit)])


def _syntax_faults(text: str) -> list[Fault]:
    """Every line that TOML cannot read: each is left out in its turn, as far as the others can be told without it.

    The search ends at a head of a table, at something left open and at the end of the text: what follows would be misread.
    """
    lines, faults = text.split("\n"), list[Fault]()
    while len(faults) < MOST_FAULTS:
        try:
            tomllib.loads("\n".join(lines))
        except (tomllib.TOMLDecodeError, RecursionError, ValueError) as error:
            faults.append(_syntax_fault(str(error), "\n".join(lines)))
            place = (faults[-1].line or 1) - 1
            if _OPEN.search(str(error)) or not _PLAIN.match(lines[place]):
                break
            lines[place] = ""
        else:
            break
    last = faults[-1]
    return [*faults[:-1], replace(last, hint=f"{last.hint}; {NOT_LOOKED_AT}")]


def _cut(line: str) -> str:
    """A line that can be told again on one line."""
    plain = printable(line)
    return plain if len(plain) <= SHOWN_CHARACTERS else plain[:SHOWN_CHARACTERS] + "..."


def _syntax_fault(message: str, text: str) -> Fault:
    """What the TOML reader says, as a fault in its line, with the likely meaning of that line."""
    lines, found = text.rstrip().split("\n"), _WHERE.search(message)
    number = int(found.group(1)) if found and found.group(1) else len(lines)
    line = lines[min(number, len(lines)) - 1].strip()
    plain = _TWICE.sub("a name or table stands twice in the file", _WHERE.sub("", message))
    column = f" at column {found.group(2)}" if found and found.group(2) else ""
    what = f"cannot be read{column}: {one_line(plain)}"
    way_out = ONCE if "stands twice" in plain else WAY_OUT
    return Fault("", what, got=_cut(line) or None, hint=syntax_hint(line) or way_out, line=number)
