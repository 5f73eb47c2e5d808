"""The page that `run` prints by itself: the answer, why, what must hold, what hurts, the worst month, the loan, what next."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import fill

from appraisal.appraise import Appraisal
from appraisal.present import money_words, words
from appraisal.present.decision import decide
from appraisal.present.design_sheet import design_tables
from appraisal.present.futures_hold import futures_hold_briefly
from appraisal.present.naming import place
from appraisal.present.page import WIDTH, passage, table
from appraisal.present.tables import Table, money_table
from appraisal.present.words import Passage
from appraisal.risk.reverse import Break
from appraisal.risk.swings import Swings

CAUTIONS = ("not_advice", "h2s_smell", "confined_space", "methane_explosion")
MORE_CAUTIONS = "Defer to local codes and licensed practice. More cautions: `--full`, the README and every paper."


def short_page(
    appraisal: Appraisal, *, command: str, breaks: tuple[Break, ...], swings: Swings | None, monthly: bool = False
) -> str:
    """One text that a family reads at the kitchen table.

    command: how the scenario was named, to print after `appraisal run`. breaks: of the worth. swings: None where nothing
    carries a range. monthly: adds the design sheet by month.
    """
    return "\n\n".join(_parts(appraisal, command, breaks, swings, monthly=monthly)) + "\n"


def _parts(
    appraisal: Appraisal, command: str, breaks: tuple[Break, ...], swings: Swings | None, *, monthly: bool
) -> Iterator[str]:
    loaded, project = appraisal.loaded, appraisal.loaded.scenario.project
    told = decide(appraisal, breaks=breaks, swings=swings)
    yield f"{project.name}\n{'=' * len(project.name)}"
    if project.note:
        yield fill(project.note, WIDTH)
    yield passage(told.said)
    yield table(_years(appraisal))
    yield passage(told.must_hold)
    hurts = futures_hold_briefly(loaded) if loaded.scenario.range or loaded.scenario.wander else ()
    yield passage(Passage(told.hurts.title, (*told.hurts.sentences, *hurts)))
    yield passage(Passage(told.work.title, tuple(each for each in told.work.sentences if each != money_words.hours(appraisal))))
    yield passage(_loan(appraisal))
    if monthly:
        yield from (table(each) for each in design_tables(appraisal))
    yield _grave(appraisal)
    careful = words.cautions_short(CAUTIONS)
    yield passage(Passage(careful.title, (*careful.sentences, words.whom_to_call(loaded), MORE_CAUTIONS)))
    yield next_commands(command)
    yield f"Scenario fingerprint {loaded.fingerprint}. Figures are nominal; month 0 is {project.first_month}."


def _loan(appraisal: Appraisal) -> Passage:
    covered, *_ = words.bank(appraisal).sentences
    return Passage("The loan", (covered, *words.cover_with_less_gas(appraisal), money_words.owed(appraisal)))


def _years(appraisal: Appraisal) -> Table:
    """Few rows of the money by project year: while it is built, the first full one, and two later on."""
    whole, years = money_table(appraisal), appraisal.timeline.years
    least = appraisal.headline.dscr_min
    worst = () if least.words[0] == "no debt due" else (int(least.year[0]),)
    shown = sorted({1, min(appraisal.plant.year, years), *worst, years})
    currency = appraisal.loaded.scenario.project.currency
    title = f"Money in {len(shown)} of {years} project years, {currency}, inflow positive (`--full`: all years)"
    return Table(title, whole.head, tuple(whole.rows[year - 1] for year in shown))


def _grave(appraisal: Appraisal) -> str:
    """What to ask about before building: findings but the notes, which are counted."""
    grave = tuple(each for each in appraisal.findings if each.severity != "note")
    notes = len(appraisal.findings) - len(grave)
    more = (f"{notes} notes more, and the limits with their sources: `--full`.",) if notes else ()
    told = tuple(f"[{each.severity}] {place(appraisal, each.where)}: {each.what}" for each in grave)
    return passage(Passage("What to ask about", (*told, *more) or ("Nothing stands out.",)))


def next_commands(command: str) -> str:
    """What to ask the program next, ready to type."""
    asked = (
        (f"simulate {command}", "how often it pays, over ten thousand futures"),
        (f"stress {command}", "bad cases, and how far each driver may move"),
        (f"rank {command}", "which assumption decides"),
        (f"compare {command} --ways", "other ways for this farm, each with its figures"),
        (f"run {command} --full", "all years, bank and grant office too"),
        (f"papers {command} --to FOLDER", "reports and tables to take away"),
    )
    width = max(len(each) for each, _ in asked)
    return "\n".join(("What next", "---------", *(f"appraisal {each:{width}}  {what}" for each, what in asked)))
