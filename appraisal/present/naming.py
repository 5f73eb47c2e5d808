"""What readers call an input and its value."""

from __future__ import annotations

import re
from collections.abc import Mapping

from appraisal.appraise import Appraisal
from appraisal.present.numbers import Units, rounded, with_unit
from appraisal.present.written import reader_unit, reader_value, several
from appraisal.risk.swings import WANDERING, Swing
from appraisal.scenario.load import Loaded

NEVER = "never"
PLACES: Mapping[str, str] = {  # of findings about what is neither a line nor an input
    "measures.npv": "worth of the plan",
    "measures.irr": "rate of return",
    "measures.dscr_min": "least cover of debt service",
    "bank.signed_contracts_only": "cover on signed contracts alone",
    "energy_reconciliation": "energy in and out",
    "power_per_cow": "power for each cow",
}
NAMED = 2  # parts of a path that belongs to no named item


def name_of(loaded: Loaded, path: str) -> str:
    """What a reader calls an input or a movement of prices: its label, with the item it belongs to."""
    parts = path.split(".")
    if path not in loaded.assumptions:
        return f"{WANDERING} ({parts[-1].replace('_', ' ')})"
    label = loaded.assumptions[path].declaration.label
    return f"{label} ({item(parts[1])})" if len(parts) > NAMED else label


def item(name: str) -> str:
    """What a reader calls a named item: its name without the joints that a file needs."""
    return name.replace("_", " ")


def spot(appraisal: Appraisal, where: str) -> str:
    """What a reader calls the place of a finding: the label of its line or input, a measure in words; in small letters."""
    node = appraisal.plan.nodes.get(where)
    known = where in appraisal.loaded.assumptions
    label = node.line.label if node else name_of(appraisal.loaded, where) if known else _spelled(where)
    return f"{label[:1].lower()}{label[1:]}"


def place(appraisal: Appraisal, where: str) -> str:
    """The same as it begins a line: with a capital letter."""
    name = spot(appraisal, where)
    return f"{name[:1].upper()}{name[1:]}"


def _spelled(where: str) -> str:
    """A place that is neither line nor input in words: a measure, a whole item, a check."""
    section, _, name = where.partition(".")
    return PLACES.get(where) or (f"{item(section)} ({item(name)})" if name else item(where))


def value_text(value: float, unit: str, units: Units) -> str:
    """A value [`unit`] with its unit as a reader writes it."""
    number = rounded(reader_value(value, unit, units))
    return with_unit(number, several(number, reader_unit(unit, units)))


def spoken(written: str) -> str:
    """A written quantity as a sentence says it: 900 short ton/year becomes 900 short tons per year."""
    return re.sub(r"(?<=\d )short ton(?=/|$)", "short tons", written).replace("/", " per ")


def swing_value(each: Swing, value: float, units: Units) -> str:
    """The value at one end of a swing; of an event `never` where it does not come."""
    return NEVER if each.zero_is_never and value == 0 else value_text(value, each.unit, units)


def drawn_value(loaded: Loaded, path: str, value: float) -> str:
    """A value of an input in the reader's unit; of the month of an event `never` where it is 0."""
    field = loaded.assumptions[path].declaration
    never = field.event is not None and field.event.when == "once" and value == 0
    units = Units(loaded.scenario.project.display_units, loaded.scenario.project.currency)
    return NEVER if never else value_text(value, field.unit, units)
