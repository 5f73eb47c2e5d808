"""What changed between two scenario files: tables, sentences, the page that `changes` prints, and the paper."""

from __future__ import annotations

from typing import Literal

import numpy as np

from appraisal import __version__
from appraisal.appraise import Appraisal
from appraisal.present.assumption_book import shown, unit_of
from appraisal.present.blocks import Block, Heading, Note, Paper, Points, Tabled
from appraisal.present.money_tables import money
from appraisal.present.naming import item, name_of
from appraisal.present.numbers import Units, counted
from appraisal.present.page import table
from appraisal.present.tables import Table, units_of
from appraisal.risk.differences import ONLY_NEW, ONLY_OLD, Difference, Differences, ItemDifference

HALF = 0.5  # money; what rounds to nothing
NOT_THERE, WITH_ITEM = "not in it", "with its item"
TITLE = "What changed"


def results_table(found: Differences) -> Table:
    """Worth, return, cover and own money of both plans."""
    rows = tuple(
        (label, *(form(side) for side in (found.old, found.new)))
        for label, form in (
            ("Name of the plan", lambda side: side.loaded.scenario.project.name),
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


def items_table(found: Differences) -> Table:
    """Whole items that came, went or were renamed, with what each does to the old plan."""
    rows = tuple(
        (
            _kind(each),
            item(each.old.partition(".")[2]) or NOT_THERE,
            item(each.new.partition(".")[2]) or NOT_THERE,
            str(each.inputs),
            *_effects(each),
        )
        for each in found.items
    )
    head = ("item of", "old", "new", "inputs", "change of worth\nby itself", "change of\nleast cover")
    currency = units_of(found.old).currency
    return Table(f"Items that came, went or are renamed: {len(rows)}; {currency}, each as a whole in the old plan", head, rows)


def _kind(each: ItemDifference) -> str:
    return item((each.old or each.new).partition(".")[0])


def _effects(each: Difference | ItemDifference) -> tuple[str, str]:
    of_item = isinstance(each, Difference) and each.path.count(".") > 1 and each.why in (ONLY_NEW, ONLY_OLD)
    why = WITH_ITEM if of_item else each.why
    worth = why if each.npv_change is None else money(each.npv_change if abs(each.npv_change) >= HALF else 0.0)
    cover = "" if each.cover_change is None else f"{each.cover_change:+.2f}"
    return worth, cover if cover.strip("+-0.") else cover.lstrip("+-")


def inputs_table(found: Differences) -> Table:
    """Every input of both files that differs, with what it does by itself to the old plan; then what came and went is stated."""
    units = units_of(found.old)
    listed = [each for each in found.inputs if each.why not in (ONLY_NEW, ONLY_OLD) or _stated(each)]
    rows = tuple(
        (
            _name(found, each.path),
            each.path,
            NOT_THERE if each.old is None else shown(each.old, units),
            NOT_THERE if each.new is None else shown(each.new, units),
            _unit(each, units),
            *_effects(each),
        )
        for each in listed
    )
    head = ("input", "path", "old", "new", "unit", "change of worth\nby itself", "change of\nleast cover")
    return Table(f"Inputs that differ: {len(rows)}; {units.currency}, each by itself in the old plan", head, rows)


def _stated(each: Difference) -> bool:
    """Whether the file itself says the value of an input that came or went; its defaults are not listed."""
    known = each.new or each.old
    return known is not None and known.origin == "scenario"


def _name(found: Differences, path: str) -> str:
    """What a reader calls the input, in the file that has it."""
    side = next((one for one in (found.new, found.old) if path in one.loaded.assumptions), None)
    return "" if side is None else name_of(side.loaded, path)


def _unit(each: Difference, units: Units) -> str:
    known = each.new or each.old
    return "" if known is None else unit_of(known, units)


def together(found: Differences) -> str:
    """What all changes together do to worth and cover, and what single changes do not explain: sums of what the tables show."""
    units = units_of(found.old)
    worths = [float(each.headline.npv[0]) for each in (found.old, found.new)]
    alone = [each.npv_change for each in found.inputs] + [each.npv_change for each in found.items]
    changes = [each or 0.0 for each in alone]
    whole, single = float(round(worths[1]) - round(worths[0])), float(sum(map(round, changes)))
    before, after = _cover(found.old), _cover(found.new)
    moved = f"least cover stays at {before}" if before == after else f"least cover goes from {before} to {after}"
    said = f"All changes together move the worth by {units.money(whole)}; {moved}."
    if abs(worths[1] - worths[0] - sum(changes)) < HALF:
        return f"{said} The single changes add up to that."
    return (
        f"{said} The single changes add up to {units.money(single)} of worth; the rest of {units.money(whole - single)} comes "
        "from changes acting together or that cannot be made by themselves."
    )


def grounds(found: Differences) -> str:
    """Which inputs keep their value and rest on another source or carry another range; empty where none does."""
    if not found.grounds:
        return ""
    named = "; ".join(f"{name_of(found.new.loaded, path)}, {path}" for path in found.grounds)
    return f"The value stays, the source or the range differs, of {counted(len(found.grounds), 'input')}: {named}."


def tables(found: Differences) -> tuple[Table, ...]:
    """The tables of what changed, those without a row left out."""
    return tuple(each for each in (results_table(found), items_table(found), inputs_table(found)) if each.rows)


def sentences(found: Differences) -> tuple[str, ...]:
    """What the changes do, in words."""
    if not (found.inputs or found.items or found.grounds):
        return ("No input differs.",)
    return tuple(each for each in (together(found), grounds(found)) if each)


def changes_page(found: Differences) -> str:
    """The page that `changes` prints."""
    said = sentences(found)
    if not (found.inputs or found.items or found.grounds):
        return said[0] + "\n"
    return "\n\n".join((*(table(each) for each in tables(found)), *said)) + "\n"


def changes_paper(found: Differences, *, date: str) -> Paper:
    """The same as a paper; date: ISO, on every page."""
    old, new = found.old.loaded, found.new.loaded
    project = new.scenario.project
    page: Literal["a4", "letter"] = "letter" if project.display_units == "us" else "a4"
    facts = (
        ("Date, program", f"{date}, appraisal {__version__}"),
        ("Old file", f"{old.scenario.project.name}, fingerprint {old.fingerprint}"),
        ("New file", f"{project.name}, fingerprint {new.fingerprint}"),
    )
    blocks: tuple[Block, ...] = (
        Heading("In short"),
        Points(sentences(found)),
        Note("Worth is that of the project before its loans; cover is the least of any full year. A change by itself is the old "
             "plan with only that one change in it."),
        *(Tabled(each) for each in tables(found)),
    )  # fmt: skip
    foot = f"scenarios {old.fingerprint} and {new.fingerprint}, appraisal {__version__}, {date}"
    subject = " and ".join(dict.fromkeys((old.scenario.project.name, project.name)))
    return Paper(TITLE, subject, facts, foot, page, date, blocks, wide=True)
