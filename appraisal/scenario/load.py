"""From the text of a scenario file to a checked scenario, or to every fault in it at once."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from appraisal.errors import Fault, ScenarioError
from appraisal.scenario.asides import read_asides
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.checks import run_checks
from appraisal.scenario.draft import Draft, stand_in
from appraisal.scenario.faults import declaration_at, fault_of, shown
from appraisal.scenario.fill import fields_in, fill
from appraisal.scenario.locate import line_map, line_of, printable
from appraisal.scenario.migrate import NoStepError, migrate
from appraisal.scenario.model import ASIDE, SCHEMA_VERSION, Scenario
from appraisal.scenario.read_text import read_tables, read_text

FINGERPRINT_CHARACTERS = 16
FOR_FUTURES = ("range", "correlation", "stress", "wander")
FINGERPRINT_DIGITS = 12


@dataclass(frozen=True)
class Loaded:
    """A scenario file that has passed every check.

    scenario: all values, in the units of their declarations.
    assumptions: every declared input by dotted path, in file order, with how it was written and where it comes from.
    fingerprint: the same for files that say the same in another order, spelling or unit.
    text: the file as it was read, comments and all. changes: values put in the place of the file's, by dotted path.
    """

    scenario: Scenario
    assumptions: Mapping[str, Assumption]
    fingerprint: str
    text: str
    changes: Mapping[str, Any] = field(default_factory=dict)


def load(path: str | Path) -> Loaded:
    """Read and check a scenario file.

    path: a TOML file in UTF-8. Raises ScenarioError with every fault, each with its line.
    """
    file = printable(str(path))
    return loads(read_text(Path(path), file=file), file=file)


def loads(text: str, *, file: str = "<text>") -> Loaded:
    """Read and check the text of a scenario.

    text: TOML. file: its name in messages. Raises ScenarioError with every fault, each with its line.
    """
    plain = text.removeprefix("\ufeff")
    return _checked(read_tables(plain, file=file), text=plain, file=file)


def with_values(
    loaded: Loaded, changes: Mapping[str, Any], *, file: str = "<changed>", ranges: Mapping[str, Any] | None = None,
) -> Loaded:
    """The same file read anew with other values in it, so that whatever follows from them at reading follows too.

    Its ranges, correlations, movements and stress cases are left out, for they were made for the values of the file; given
    ranges that fit the new values, by path, the others stay too, but for correlations of a value without a range.

    changes: dotted path -> value as a file would hold it: a number in the field's unit, a text, or the table of an item;
    None takes out what stands there. They come on top of those the scenario carries already. `text` stays that of the file.
    Raises ScenarioError where the changed scenario is not valid.
    """
    changes = {**loaded.changes, **changes}
    raw = read_tables(loaded.text, file=file)
    tables = {name: table for name, table in raw.items() if name not in FOR_FUTURES or ranges is not None}
    if ranges is not None:
        pairs = raw.get("correlation", {}).items()
        kept = {name: pair for name, pair in pairs if {pair["first"], pair["second"]} <= set(ranges)}
        tables |= {"range": dict(ranges), "correlation": kept}
    for path, value in changes.items():
        *parts, name = path.split(".")
        holder = tables
        for part in parts:
            holder = holder.setdefault(part, {})
        if value is None:
            holder.pop(name, None)
        else:
            holder[name] = value
    return replace(_checked(tables, text=loaded.text, file=file), changes=changes)


def _checked(raw: dict[str, Any], *, text: str, file: str) -> Loaded:
    """The content of a file through every check; text: for the lines of faults."""
    draft, scenario = _drafted(raw, text=text, file=file)
    if scenario is not None:
        draft.faults += run_checks(scenario, draft.assumptions, doubtful=draft.doubtful)
    if draft.faults or scenario is None:
        raise ScenarioError(file, _in_order(draft.faults, line_map(text)))
    assumptions = {path: draft.assumptions[path] for path in fields_in(draft.content)}
    return Loaded(scenario, assumptions, fingerprint(scenario), text)


def fingerprint(scenario: Scenario) -> str:
    """Sixteen hexadecimal digits that change with any value, name, range, reason or source of a scenario.

    Numbers count to twelve digits, so that a value written in another unit is the same value.
    """
    canonical = json.dumps(_canonical(scenario.model_dump()), sort_keys=True)
    return hashlib.sha256(canonical.encode()).hexdigest()[:FINGERPRINT_CHARACTERS]


def _canonical(value: Any) -> Any:
    if isinstance(value, float):
        return f"{value + 0.0:.{FINGERPRINT_DIGITS}g}"
    if isinstance(value, dict):
        return {name: _canonical(entry) for name, entry in value.items()}
    return [_canonical(entry) for entry in value] if isinstance(value, (list, tuple)) else value


def _drafted(raw: dict[str, Any], *, text: str, file: str) -> tuple[Draft, Scenario | None]:
    """The draft of a file's content, and a scenario to check further: whole, or with stand-ins where it is faulty."""
    version = raw.get("schema_version")
    fault = _version_fault(version)
    if fault is None and isinstance(version, int):
        try:
            raw = migrate(raw, version)
        except NoStepError as error:
            fault = Fault("schema_version", str(error), got=shown(version))
            raise ScenarioError(file, _in_order([fault], line_map(text))) from error
    draft = fill(raw)
    if fault is not None:
        draft.refuse(fault)
    read_asides(raw, draft)
    return draft, _validated(draft)


def _version_fault(version: Any) -> Fault | None:
    hint = f"write schema_version = {SCHEMA_VERSION} as the first line"
    if version is None:
        return Fault("schema_version", "needed, but not given", hint=hint)
    if isinstance(version, bool) or not isinstance(version, int):
        return Fault("schema_version", "not a whole number", got=shown(version), hint=hint)
    return None


def _validated(draft: Draft) -> Scenario | None:
    """The content as a scenario; on refusals, the faults go into the draft and stand-ins into the content."""
    try:
        return Scenario.model_validate(draft.content)
    except ValidationError as refusal:
        errors = refusal.errors(include_url=False)
    for error in errors:
        draft.refuse(fault_of(error, draft.written))
        _stand_in_for(error, draft.content)
    try:
        return Scenario.model_validate(draft.content)
    except ValidationError:
        return None


def _stand_in_for(error: ErrorDetails, content: dict[str, Any]) -> None:
    """Put something acceptable where a value was refused, so that the other values can still be checked."""
    parts = tuple(str(part) for part in error["loc"])
    field = declaration_at(parts)
    if parts[0] in ASIDE:
        content[parts[0]].pop(parts[1], None)
    elif field is not None:
        holder = content[parts[0]] if len(parts) == 2 else content[parts[0]][parts[1]]
        holder[parts[-1]] = stand_in(field)


def _in_order(faults: list[Fault], lines: Mapping[str, int]) -> list[Fault]:
    """The faults with their lines, from the top of the file to its end."""
    placed = [fault if fault.line else replace(fault, line=line_of(lines, fault.path)) for fault in faults]
    return sorted(placed, key=lambda fault: fault.line or 0)
