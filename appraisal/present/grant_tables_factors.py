"""The grant table of emission factors: every input and constant that the count of greenhouse gases of this plan rests on."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.constants import CONSTANTS
from appraisal.present.assumption_book import shown, unit_of
from appraisal.present.emission_tables import SOURCES
from appraisal.present.how_known import known
from appraisal.present.naming import name_of
from appraisal.present.numbers import rounded
from appraisal.present.tables import Table, units_of
from appraisal.present.words import BLANK
from appraisal.risk.material import Planned
from appraisal.scenario.assumptions import Assumption

OF_EMISSIONS = "emissions"  # the modules of the count begin so
# Lines of other modules that turn an amount into what escapes, by a factor.
LOSSES = (
    "methane_leaked",
    "methane_slipped",
    "slip",
    "boiler_slip",
    "upgrading_slip",
    "nitrogen_lost",
    "digestate_truck_diesel",
)
FIXED = {f"constant.{each.name}": each for each in CONSTANTS if each.source != "definition"}
FEW = 60  # characters
HEAD = ("factor", "first used for", "path", "value", "unit", "source", "how it is known")


def emission_factors(found: Planned) -> Table:
    """Every factor that moves the count, with its source and how it is known; a source that is nothing has none."""
    units, rows = units_of(found.appraisal), []
    for path, used_for in factors_used(found.appraisal).items():
        each = found.loaded.assumptions.get(path)
        if each is not None and np.any(each.value):
            told = (shown(each, units), unit_of(each, units), _source(each), _known(each))
            rows.append((name_of(found.loaded, path), used_for, path, *told))
        elif path in FIXED:
            fixed = FIXED[path]
            rows.append((fixed.meaning, used_for, path, rounded(fixed.value), fixed.unit, fixed.source, fixed.basis))
    return Table("Factors of the greenhouse-gas count", HEAD, tuple(rows))


def factors_used(appraisal: Appraisal) -> dict[str, str]:
    """Path of each input and constant read by a line of the count that is not nothing -> name of the first source it is for."""
    found, seen = dict[str, str](), set[str]()
    for source in SOURCES:
        for line in (*source.without, *source.with_plant):
            for path in _read_by(appraisal, line, seen):
                found.setdefault(path, source.name.replace("_", " "))
    return found


def _read_by(appraisal: Appraisal, name: str, seen: set[str]) -> Iterator[str]:
    """What a line of the count reads that is no line itself; each line is gone through once."""
    node = appraisal.plan.nodes.get(name)
    if node is None:
        yield name
    elif name not in seen and np.any(appraisal.values[name]):
        seen.add(name)
        if node.line.sheet.startswith(OF_EMISSIONS) or name.rpartition(".")[2] in LOSSES:
            for ref in node.refs():
                yield from _read_by(appraisal, ref.name, seen)


def _known(each: Assumption) -> str:
    """How a factor is known, in the words of its source where they are few."""
    return each.known if 0 < len(each.known) <= FEW else known(each)


def _source(each: Assumption) -> str:
    return each.source or each.declaration.source or ("default of the program" if each.origin == "default" else BLANK)
