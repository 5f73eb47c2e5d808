"""What changed between two scenario files, as tables."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.assumption_book import shown, unit_of
from appraisal.present.money_tables import money
from appraisal.present.naming import name_of
from appraisal.present.numbers import Units
from appraisal.present.page import table
from appraisal.present.tables import Table, units_of
from appraisal.risk.differences import Difference, Differences

HALF = 0.5  # money; what rounds to nothing


def results_table(found: Differences) -> Table:
    """Worth, return, cover and own money of both plans."""
    rows = tuple(
        (label, *(form(side) for side in (found.old, found.new)))
        for label, form in (
            ("Worth today, the project before its loans", lambda side: money(float(side.headline.npv[0]))),
            ("Least cover", _cover),
            ("Own money needed for building", lambda side: money(float(side.values["own_money_needed"][0, 0]))),
            ("Lowest point of the account", lambda side: money(float(side.values["bank_balance"][0].min()))),
            ("Fingerprint", lambda side: side.loaded.fingerprint),
        )
    )
    return Table(f"Results of both files, {units_of(found.old).currency}", ("", "old", "new"), rows)


def _cover(side: Appraisal) -> str:
    least = side.headline.dscr_min
    return f"{float(least.value[0]):.2f}" if np.isfinite(least.value[0]) else least.words[0]


def inputs_table(found: Differences) -> Table:
    """Every input that differs, with what it does by itself to the old plan."""
    units = units_of(found.old)
    rows = tuple(
        (
            _name(found, each.path),
            each.path,
            "" if each.old is None else shown(each.old, units),
            "" if each.new is None else shown(each.new, units),
            _unit(each, units),
            each.why if each.npv_change is None else money(each.npv_change),
            "" if each.cover_change is None else f"{each.cover_change + 0.0:+.2f}",
        )
        for each in found.inputs
    )
    head = ("input", "path", "old", "new", "unit", "change of worth\nby itself", "change of\nleast cover")
    return Table(
        f"Inputs that differ: {len(rows)}; {units.currency}, each by itself in the old plan",
        head,
        rows,
    )


def _name(found: Differences, path: str) -> str:
    """What a reader calls the input, in the file that has it."""
    side = next((one for one in (found.new, found.old) if path in one.loaded.assumptions), None)
    return "" if side is None else name_of(side.loaded, path)


def _unit(each: Difference, units: Units) -> str:
    known = each.new or each.old
    return "" if known is None else unit_of(known, units)


def together(found: Differences) -> str:
    """What all changes together do to worth and cover, and what single changes do not explain of the worth."""
    units = units_of(found.old)
    whole = float(found.new.headline.npv[0] - found.old.headline.npv[0])
    single = sum(each.npv_change or 0.0 for each in found.inputs)
    before, after = _cover(found.old), _cover(found.new)
    moved = f"least cover stays at {before}" if before == after else f"least cover goes from {before} to {after}"
    said = f"All changes together move the worth by {units.money(whole or 0.0)}; {moved}."
    if abs(whole - single) < HALF:
        return f"{said} The single changes add up to that."
    return (
        f"{said} The single changes add up to {units.money(single)} of worth; the rest of {units.money(whole - single)} comes "
        "from changes acting together or that cannot be made by themselves."
    )


def changes_page(found: Differences) -> str:
    """The page that `changes` prints."""
    if not found.inputs:
        return "No input differs.\n"
    return "\n\n".join((table(results_table(found)), table(inputs_table(found)), together(found))) + "\n"
