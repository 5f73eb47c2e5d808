"""Walk a file's sections: read what is given, fill what is left out, and gather every fault on the way."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from appraisal.errors import Fault
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.convert import RefusedError, UnjudgedError, as_written, converted
from appraisal.scenario.derived import derive
from appraisal.scenario.derived_costs import derive_costs
from appraisal.scenario.draft import STAND_IN, Draft, stand_in
from appraisal.scenario.faults import hint, shown
from appraisal.scenario.left_out import fill_defaults, look_up
from appraisal.scenario.locate import dotted
from appraisal.scenario.model import SCHEMA_VERSION, Scenario, SectionPlace, sections
from appraisal.scenario.money_checks import CURRENCY
from appraisal.scenario.quantity import SERIES, Declaration, declarations

ITEM_NAME = re.compile(r"[a-z][a-z0-9_]{0,30}")
ITEM_NAME_RULE = "a small letter, then at most 30 small letters, digits or _"


def fill(raw: Mapping[str, Any]) -> Draft:
    """Read all sections that hold values; ranges and sources beside them are read afterwards."""
    draft = Draft(currency=_currency(raw))
    draft.content["schema_version"] = SCHEMA_VERSION
    for name in raw:
        if name not in Scenario.model_fields:
            _unknown(name, parts=(), known=list(Scenario.model_fields), draft=draft)
    for place in sections():
        draft.content[place.name] = (_items if place.named else _section)(place, raw, draft=draft)
    return draft


def fields_in(content: Mapping[str, Any]) -> dict[str, Declaration]:
    """Every field that a scenario with these sections has, by dotted path, in file order."""
    found: dict[str, Declaration] = {}
    for place in sections():
        names = [name for name in content[place.name] if name != STAND_IN] if place.named else [""]
        for name in names:
            table = f"{place.name}.{name}" if place.named else place.name
            found |= {f"{table}.{item.name}": item for item in declarations(place.section)}
    return found


def read_fields(
    fields: Iterable[Declaration], given: Mapping[str, Any], *, parts: tuple[str, ...], draft: Draft,
) -> dict[str, Any]:
    """Turn the given fields of one table into their own units; what cannot be read is refused and stood in for."""
    known = {field.name: field for field in fields}
    item: dict[str, Any] = {}
    for name, value in given.items():
        if name in known:
            item[name] = _given(known[name], value, path=dotted((*parts, name)), draft=draft)
        elif (meant := _unknown(name, parts=parts, known=list(known), draft=draft)) and meant not in given:
            item[meant] = stand_in(known[meant])
    return item


def _unknown(name: str, *, parts: tuple[str, ...], known: list[str], draft: Draft) -> str | None:
    """Refuse a name that nobody declared; the name that was likely meant is not asked for a second time."""
    meant = draft.likely(name, known)
    what = "unknown name" if parts else "unknown section"
    draft.refuse(Fault(dotted((*parts, name)), what, hint=f"did you mean `{meant}`?" if meant else None))
    if meant:
        draft.doubtful.add(dotted((*parts, meant)))
    return meant


def _currency(raw: Mapping[str, Any]) -> str | None:
    project = raw.get("project")
    code = project.get("currency") if isinstance(project, dict) else None
    return code if isinstance(code, str) and CURRENCY.fullmatch(code) else None


def _given(field: Declaration, value: Any, *, path: str, draft: Draft) -> Any:
    """The value of one field in the field's own unit, or a stand-in when it is refused."""
    try:
        read = converted(field, value, currency=draft.currency)
    except UnjudgedError:
        draft.doubtful.add(path)
        return stand_in(field)
    except RefusedError as refused:
        draft.refuse(Fault(
            path, refused.what, got=refused.got, allowed=field.allowed(), hint=refused.hint or hint(field, value)))
        return stand_in(field)
    if field.kind in ("number", *SERIES):
        draft.written[path] = as_written(value)
    return read


def _filled(place: SectionPlace, given: Mapping[str, Any], *, parts: tuple[str, ...], draft: Draft) -> dict[str, Any]:
    fields = list(declarations(place.section))
    item = read_fields(fields, given, parts=parts, draft=draft)
    for field in fields:
        path = dotted((*parts, field.name))
        if field.name in given and path not in draft.doubtful:
            value = item[field.name]
            draft.assumptions[path] = Assumption(
                path=path, value=tuple(value) if isinstance(value, list) else value, declaration=field,
                origin="scenario", given_as=draft.written.get(path, ""))
    fill_defaults(fields, item, parts=parts, draft=draft)
    named = {field.name: field for field in fields}
    derive(named, item, parts=parts, draft=draft)  # what is worked out here need not be looked up
    look_up(fields, item, parts=parts, draft=draft)
    derive(named, item, parts=parts, draft=draft)
    derive_costs(named, item, parts=parts, draft=draft)
    return item


def _stand_in_item(place: SectionPlace) -> dict[str, Any]:
    return {field.name: stand_in(field) for field in declarations(place.section)}


def _section(place: SectionPlace, raw: Mapping[str, Any], *, draft: Draft) -> dict[str, Any]:
    given = raw.get(place.name, {})
    required = [field.name for field in declarations(place.section) if field.required]
    if place.name in draft.doubtful:
        return _stand_in_item(place)
    if place.name not in raw and required:
        what = f"needed section is missing; it must give {', '.join(required)}"
        draft.refuse(Fault(place.name, what, hint=f"write [{place.name}]"))
    elif isinstance(given, dict):
        return _filled(place, given, parts=(place.name,), draft=draft)
    else:
        hint = f"write [{place.name}] on a line of its own, its values below"
        draft.refuse(Fault(place.name, "must be one table of values", got=shown(given), hint=hint))
    return _stand_in_item(place)


def _items(place: SectionPlace, raw: Mapping[str, Any], *, draft: Draft) -> dict[str, Any]:
    given, read = raw.get(place.name, {}), {}
    fault = None if place.name in draft.doubtful else _not_named(place, given)
    if fault is not None:
        draft.refuse(fault)
    elif isinstance(given, dict):
        read = {name: _item(place, name, value=given[name], draft=draft) for name in given}
    good = {name: item for name, item in read.items() if item is not None}
    if place.name not in draft.doubtful and len(good) == len(read):
        return good
    draft.doubtful.add(dotted((place.name, STAND_IN)))
    return {STAND_IN: _stand_in_item(place), **good}


def _not_named(place: SectionPlace, given: Any) -> Fault | None:
    """The fault of a table of named items that is none, or None."""
    hint = f"write [{place.name}.any_name], one such table for each"
    if not isinstance(given, dict):
        return Fault(place.name, "must be tables with a name each", got=shown(given), hint=hint)
    fields = {field.name for field in declarations(place.section)}
    if given and not any(isinstance(value, dict) for value in given.values()) and fields & set(given):
        return Fault(place.name, "its values stand in no named table", hint=hint)
    if not given and Scenario.model_fields[place.name].metadata:
        return Fault(place.name, "at least one is needed", hint=hint)
    return None


def _item(place: SectionPlace, name: str, *, value: Any, draft: Draft) -> dict[str, Any] | None:
    path = dotted((place.name, name))
    if not ITEM_NAME.fullmatch(name):
        draft.refuse(Fault(path, "not a usable name", got=shown(name), allowed=ITEM_NAME_RULE))
        return None
    if isinstance(value, dict):
        return _filled(place, value, parts=(place.name, name), draft=draft)
    hint = f"write [{place.name}.{name}] on a line of its own, its values below"
    draft.refuse(Fault(path, "must be a table of values", got=shown(value), hint=hint))
    return None
