"""The formula page: every line with its equation, meaning, source and range of validity, read from its own definition.

The equation is the line itself, written down by the same trace that writes the workbook, so it cannot go stale.
"""

from __future__ import annotations

import ast
import difflib
import inspect
import re
import sys
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from appraisal.constants import CONSTANTS, Constant
from appraisal.errors import AppraisalError
from appraisal.lines.catalogue import Catalogue
from appraisal.lines.define import Line
from appraisal.lines.names import ALL, EACH, VIEWS, split_view
from appraisal.lines.trace import Cell
from appraisal.scenario.model import declared
from appraisal.scenario.quantity import Declaration

CONSTANT = {constant.name: constant for constant in CONSTANTS}
LISTED = re.compile(r"0 \+ (?P<name>(?:each|all)_\w+)")  # what `total` leaves of a list: its sum
EQUALS = re.compile(r"(?<![<>=])=")
TITLE = "# Formulas"
PREFACE = (
    "Generated from the definitions by `python -m tests.regenerate`; a test keeps it current. One line on the terminal:\n"
    "`appraisal formulas NAME`. The equation is the line itself: a name is another line, an input of the scenario\n"
    "(`digester_ph_low` is `digester.ph_low`) or a constant. A view before a name says which months are read:"
)
ARITHMETIC = "arithmetic"
VALID = re.compile(r"\b[Vv]alid(?: for|:)? (?P<range>[^.;]*(?:\.\d[^.;]*)*)")
# A source named inside a sentence: a year, a table of the reference, a standard, or an open word about memory or practice.
PROSE = re.compile(
    r"\b(1[89]|20)\d\d\b|\btables? [a-z_]+|ISO \d|ASABE|from memory|textbook|practice|Chen and Hashimoto|protocol"
)


class UnknownFormulaError(AppraisalError):
    """There is no line of this name; the message names likely ones."""


def page(catalogue: Catalogue) -> str:
    """The whole page in Markdown: a chapter for each module, an entry for each definition of a line, then the constants."""
    ends = ("## Constants", "\n".join(_constant_rows()))
    parts = [TITLE, PREFACE, "\n".join(_views()), "## Contents", "\n".join(_contents(catalogue)), *_chapters(catalogue), *ends]
    return "\n\n".join(parts) + "\n"


def one(catalogue: Catalogue, name: str) -> str:
    """Every definition of one line with the constants it reads. Raises UnknownFormulaError."""
    if name not in catalogue.lines:
        likely = difflib.get_close_matches(name, catalogue.lines, 3)
        hint = f"; did you mean {' or '.join(likely)}?" if likely else "; `appraisal formulas` lists them all"
        raise UnknownFormulaError(f"no line {name!r}{hint}")
    variants = catalogue.lines[name]
    read = dict.fromkeys(each for line in variants for each in line.arguments if each in CONSTANT)
    return "\n\n".join((*(entry(catalogue, line) for line in variants), *(_constant(CONSTANT[each]) for each in read)))


def entry(catalogue: Catalogue, line: Line) -> str:
    """One definition: name, label, unit, equation, meaning, choice, validity and source."""
    meaning, _, valid = parted(line)
    choice = " and ".join(f"`{name}` is `{option.replace('|', '` or `')}`" for name, option in line.when.items())
    ranges = _ranges(catalogue, line)
    facts = [
        f"**`{line.name}{'__' * bool(line.variant)}{line.variant}`** {line.label} [{line.unit}]",
        f"`{equation(line)}`",
        meaning,
        f"Holds when {choice}." if choice else "",
        f"Valid: {valid}." if valid else "",
        f"Inputs accepted: {ranges}." if ranges else "",
        f"Source: {source(line)}.",
    ]
    return "  \n".join(fact for fact in facts if fact)


def source(line: Line) -> str:
    """Where a relation comes from: what its docstring names, then the published constants it reads, else arithmetic."""
    meaning, named, _ = parted(line)
    constants = [f"`{name}`" for name in line.arguments if name in CONSTANT and CONSTANT[name].basis != "arithmetic"]
    read = [f"constants {', '.join(constants)}"] if constants else []
    said = ["as said"] if not named and PROSE.search(meaning) else []
    return "; ".join((*named, *said, *read)) or ARITHMETIC


def equation(line: Line) -> str:
    """The line as one expression of the names it reads, as the workbook holds it, without brackets it can do without."""
    cells: list[Any] = [[Cell(name)] if name.startswith((EACH, ALL)) else Cell(name) for name in line.arguments]
    traced = line.body(*cells).text
    plain = ast.unparse(ast.parse(EQUALS.sub("==", traced).replace("^", "**"), mode="eval"))
    return LISTED.sub(lambda found: f"sum of {found['name']}", plain.replace(" ** ", "^").replace("==", "="))


def parted(line: Line) -> tuple[str, tuple[str, ...], str]:
    """Meaning, sources after `Source:` in the docstring, and the range after `valid`, empty where none is named."""
    meaning, *sources = re.split(r"\s*\bSource: ", line.meaning)
    found = VALID.search(meaning)
    return meaning, tuple(each.strip().rstrip(".") for each in sources), found["range"].strip() if found else ""


def _views() -> Iterator[str]:
    yield from (f"- `{prefix}`: {means}" for prefix, (_, means) in VIEWS.items())
    yield f"- `{EACH}`: all items of a family, `{ALL}`: all lines of a role in the statements"


def _contents(catalogue: Catalogue) -> Iterator[str]:
    """A link to each chapter, with what it is about and how many definitions it holds."""
    for module, lines in _modules(catalogue).items():
        about = _about(module).partition("\n")[0].rstrip(".")
        yield f"- [{_short(module)}](#{_short(module).replace('.', '').lower()}), {len(lines)}: {about}"
    yield f"- [Constants](#constants), {len(CONSTANTS)}"


def _chapters(catalogue: Catalogue) -> Iterator[str]:
    for module, lines in _modules(catalogue).items():
        yield f"## {_short(module)}"
        yield _about(module)
        yield from (entry(catalogue, line) for line in lines)


def _modules(catalogue: Catalogue) -> Mapping[str, list[Line]]:
    """Module -> its definitions, both in the order of the catalogue."""
    modules: dict[str, list[Line]] = {}
    for line in (line for variants in catalogue.lines.values() for line in variants):
        modules.setdefault(line.body.__module__, []).append(line)
    return modules


def _short(module: str) -> str:
    return module.removeprefix("appraisal.")


def _about(module: str) -> str:
    return inspect.cleandoc(sys.modules[module].__doc__ or "")


def _constant_rows() -> Iterator[str]:
    yield from (f"- {_constant(constant)}" for constant in CONSTANTS)


def _constant(constant: Constant) -> str:
    value = f"{constant.value:.6g} {constant.unit}".removesuffix(" 1")
    return f"`{constant.name}` = {value}: {constant.meaning}. Source: {constant.source} ({constant.basis})."


def _ranges(catalogue: Catalogue, line: Line) -> str:
    """What the scenario accepts for each number a line reads."""
    found = (_range(name, item) for argument in line.arguments for name, item in _declared(catalogue, argument))
    return "; ".join(dict.fromkeys(text for text in found if text))


def _declared(catalogue: Catalogue, argument: str) -> Iterator[tuple[str, Declaration]]:
    name = split_view(argument.removeprefix(EACH))[1]
    family = catalogue.family_of(name)
    tables = catalogue.families[family] if family else ()
    names = (name, *(f"{table}_{name.removeprefix(f'{family}_')}" for table in tables))
    for pattern in dict.fromkeys(catalogue.inputs.get(each, "") for each in names):
        item = _inputs().get(pattern)
        if item is not None and item.kind not in ("choice", "text") and name not in catalogue.lines:
            yield pattern, item


@cache
def _inputs() -> Mapping[str, Declaration]:
    return declared()


def _range(pattern: str, item: Declaration) -> str:
    low, high = (f"{bound:.12g}" if bound is not None else "any" for bound in (item.low, item.high))
    return f"`{pattern}` {low} to {high} {item.unit}".removesuffix(" 1").rstrip()
