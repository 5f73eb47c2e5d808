"""A first scenario file for a farmer to overwrite: every input with its meaning, range and default beside it."""

from __future__ import annotations

import inspect
import json
import textwrap
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from appraisal.errors import Fault, ScenarioError
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.beside import Range
from appraisal.scenario.draft import Draft
from appraisal.scenario.faults import shown
from appraisal.scenario.fill import fill
from appraisal.scenario.model import SCHEMA_VERSION, SectionPlace, Source, sections
from appraisal.scenario.money_checks import CURRENCY
from appraisal.scenario.quantity import Declaration, Section, declarations
from appraisal.scenario.schema import describe
from appraisal.scenario.starter_examples import (
    ASIDE_MEANING,
    ASIDES,
    EXAMPLES,
    NAMED_ASIDES,
    RANGED,
    DisplayUnits,
    Example,
    Written,
)

WIDTH = 110
PREFACE = (
    "This file holds everything the appraisal assumes. The farm in it is invented: overwrite the values with your own.",
    "A line that begins with # is not read. A value behind # is what is used now; take the # away to set your own.",
    "Numbers have a decimal point, no comma. A value with its unit stands in quotes: \"90 %\", \"5 US_gal/head/day\".",
    "Twelve monthly values stand in square brackets, January first; one value stands for all twelve months.",
    "A share is 0.32 or \"32 %\". Money is in the currency named below.",
)


def starter(*, currency: str = "USD", display_units: DisplayUnits = "us") -> str:
    """The text of a scenario file that loads as it stands, every input in it explained.

    Parameters
    ----------
    currency : three capital letters, the money of all amounts.
    display_units : "metric" or "us", for the units in the examples and for what is shown.

    Raises
    ------
    ScenarioError
        The currency is not three capital letters.
    """
    given = examples(currency=currency, display_units=display_units)
    draft = fill(nested(given))
    blocks = [head(PREFACE), *(_section(place, given, draft=draft) for place in sections())]
    blocks += [_aside("range", Range, display_units=display_units), *_named_asides()]
    blocks += [_aside("source", Source, display_units=display_units)]
    return "\n".join(blocks)


def examples(*, currency: str, display_units: DisplayUnits) -> Mapping[str, Written]:
    """Dotted path -> invented value in the units of the reader.

    Raises
    ------
    ScenarioError
        The currency is not three capital letters.
    """
    if not CURRENCY.fullmatch(currency):
        fault = Fault("project.currency", "not a currency", got=shown(currency), allowed="three capital letters")
        raise ScenarioError("starter", [fault])
    chosen = {"project.currency": currency, "project.display_units": display_units}
    return {path: _pick(value, display_units) for path, value in {**EXAMPLES, **chosen}.items()}


def numbers_and_units() -> tuple[str, ...]:
    """How values are written in the file, sentence by sentence."""
    return PREFACE[1:]


def _pick(value: Example | Written, display_units: DisplayUnits) -> Written:
    return getattr(value, display_units) if isinstance(value, Example) else value


def nested(flat: Mapping[str, Written]) -> dict[str, Any]:
    """Tables from dotted paths."""
    tables: dict[str, Any] = {}
    for path, value in flat.items():
        *parts, name = path.split(".")
        holder = tables
        for part in parts:
            holder = holder.setdefault(part, {})
        holder[name] = value
    return tables


def head(sentences: Iterable[str]) -> str:
    """The first lines of a file: where its schema lies, what it is, and its version."""
    words = [line for text in sentences for line in commented(text)]
    return "\n".join(["#:schema ./appraisal.schema.json", "", *words, "", f"schema_version = {SCHEMA_VERSION}", ""])


def _section(place: SectionPlace, given: Mapping[str, Written], *, draft: Draft) -> str:
    tables = [f"{place.name}.{name}" for name in draft.content[place.name]] if place.named else [place.name]
    lines = [*title(inspect.getdoc(place.section) or "")]
    for table in tables:
        lines.append(f"[{table}]")
        for item in declarations(place.section):
            path = f"{table}.{item.name}"
            lines += _field(item, given.get(path), in_use=draft.assumptions.get(path))
    return "\n".join(lines)


def _aside(name: str, section: type[Section], *, display_units: DisplayUnits) -> str:
    lines = [*title(ASIDE_MEANING[name]), f'[{name}."{RANGED}"]']
    for item in declarations(section):
        value = ASIDES[name].get(item.name)
        if value is None and item.default is None:
            lines += [*commented(describe(item)), f"#   {item.name} = {'[1, 2]' if item.kind == 'list' else 1}", ""]
        else:
            lines += _field(item, None if value is None else _pick(value, display_units))
    return "\n".join(lines)


def _named_asides() -> Iterator[str]:
    """An example of a correlation, a stress case and a wandering price, all behind the comment sign."""
    for meaning, example in NAMED_ASIDES:
        yield "\n".join([*title(meaning), *(f"#   {line}" for line in example), ""])


def title(text: str) -> Iterator[str]:
    """A rule and the meaning of a table, behind the comment sign."""
    yield f"# {'-' * (WIDTH - 2)}"
    yield from commented(text)


def _field(item: Declaration, given: Written | None, *, in_use: Assumption | None = None) -> list[str]:
    """Comment and value of one field; what is not given stands behind # with the value in use."""
    if given is not None:
        return [*commented(describe(item)), f"{item.name} = {toml(given)}", ""]
    value = in_use.value if in_use is not None else item.default if item.default is not None else ""
    return [*commented(describe(item)), f"# {item.name} = {toml(value)}", ""]


def toml(value: object) -> str:
    """A value as it stands in the file."""
    if isinstance(value, tuple):
        return toml(value[0]) if len(set(value)) == 1 else f"[{', '.join(toml(each) for each in value)}]"
    if isinstance(value, float):
        return f"{value:.10g}"
    return json.dumps(value, ensure_ascii=False)


def commented(text: str) -> Iterable[str]:
    """A text behind the comment sign, wrapped."""
    return textwrap.wrap(text, WIDTH, initial_indent="# ", subsequent_indent="# ", break_on_hyphens=False)
