"""The whole book, recalculated in a spreadsheet program at changed inputs: lines, years, measures, checks, no error anywhere."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import MONTHS, evaluate
from appraisal.measures.headline import headline
from appraisal.measures.money_view import money_view
from appraisal.model import inputs as model_inputs
from appraisal.reports import subjects as where
from appraisal.reports.check_sheet import HOLDS
from appraisal.reports.export import input_labels
from appraisal.reports.layout import FIRST_COLUMN, HEAD_ROW, Layout
from appraisal.reports.workbook import workbook
from appraisal.reports.worked_out import worked_out
from appraisal.scenario.load import Loaded, load, with_values
from appraisal.timeline import Timeline
from tests.workbook.office import cells, recalculated, sheets
from tests.workbook.test_workbook_equals_engine import Arrays, changed, compared

pytestmark = pytest.mark.office
TOLERANCE = 1e-6
SHORT_YEARS = 4  # of most cases, so that twenty fit into the time of a test; each demo runs once at full length
SEEDS = range(5)
YEARLY = (where.STATEMENTS, where.MONEY, where.LOANS, where.TAX, where.PLANT)
ZERO = tuple(
    f"check_{name}"
    for name in (
        *("balance", "overpaid", "gas", "mass", "power", "power_money", "profit_to_cash"),
        *("fees", "order", "debt_reserve"),
    )
)
"""Rows that are nothing but the rounding of a difference; the checks of the book hold them to their limits."""
SUMS = 4  # row of the sheet of checks that speaks of the sums alone: random inputs may be impossible together
Judge = Callable[[Sequence[Path], Path], list[Path]]


def short(name: str) -> Loaded:
    """A demo over fewer project years, its loans over fewer still."""
    loaded = load(demos()[name])
    loans = {f"loan.{each}.years": 3 for each in loaded.scenario.loan}
    return with_values(loaded, {"project.years": SHORT_YEARS, **loans})


def written(tool: Appraisal, stale: Arrays) -> tuple[bytes, Layout]:
    """The book of a case with the tool's figures at its inputs, but other values stored beside the formulas."""
    return workbook(
        tool.plan,
        inputs=tool.inputs,
        stored=stale,
        timeline=tool.timeline,
        labels=input_labels(tool),
        paper=tool,
    )


def at(case: Appraisal, inputs: Arrays) -> Appraisal:
    """What the engine makes of changed inputs under the same choices."""
    values = evaluate(case.plan, model_inputs(case.structure, inputs))
    money = money_view(values, year=min(int(values["first_full_year"][0, 0]), case.timeline.years))
    return replace(case, values=values, inputs=inputs, headline=headline(values), money=money)


def errors(book: Path) -> list[tuple[str, int, int, str]]:
    """Every cell of every sheet that shows an error."""
    return [
        (sheet, row, column, cell)
        for sheet in sheets(book)
        for row, line in enumerate(cells(book, sheet))
        for column, cell in enumerate(line)
        if cell.startswith(("#", "Err:"))
    ]


def different_measures(book: Path) -> list[tuple[str, str, str]]:
    """Measures whose live cell is not the tool's figure beside it, and those the book itself does not call the same."""
    found = [row for row in cells(book, where.RESULTS)[HEAD_ROW + 1 :] if row[3] or row[4]]
    assert len(found) > 100
    return [(row[0], row[2], row[3]) for row in found if row[4] != "same" or not alike(row[2], row[3])]


def alike(live: str, wanted: str) -> bool:
    try:
        return abs(float(live) - float(wanted)) <= TOLERANCE * max(abs(float(wanted)), 1e-6)
    except ValueError:
        return live == wanted


def years_off(book: Path, plot: Layout) -> Iterator[tuple[str, str]]:
    """Rows of the yearly sheets whose years are not the twelve months of the row's line on its monthly sheet."""
    for sheet in YEARLY:
        for row in cells(book, sheet):
            name = row[3]
            node = plot.plan.nodes.get(name)
            if node is None or node.grid != "month" or not node.line.unit.endswith("/month"):
                continue
            place = plot.places[name]
            months = np.array(
                cells(book, place.sheet)[place.row][FIRST_COLUMN : FIRST_COLUMN + plot.month_count], float
            )
            want = months.reshape(-1, MONTHS).sum(axis=1)
            got = np.array(row[FIRST_COLUMN : FIRST_COLUMN + plot.year_count], float)
            if np.abs(got - want).max() > TOLERANCE * max(float(np.abs(want).max()), 1e-9):
                yield sheet, name


def prove(cases: list[tuple[str, Appraisal, Arrays]], folder: Path, judge: Judge = recalculated) -> None:
    """Write each case at changed inputs beside the stored values of the unchanged one; recalculated, all is the engine's.

    judge: recalculates books and gives their sheets as text.
    """
    books, facts = [], []
    for name, case, inputs in cases:
        tool = at(case, inputs)
        content, plot = written(tool, dict(case.values))
        path = folder / f"{name}.xlsx"
        path.write_bytes(content)
        books.append(path)
        facts.append((plot, worked_out(plot.plan, tool.values)))
    for book, (plot, lines) in zip(judge(books, folder), facts, strict=True):
        assert [name for name in compared(book, plot, lines) if name not in ZERO] == [], book.name
        assert errors(book) == []
        assert different_measures(book) == [], book.name
        assert list(years_off(book, plot)) == []
        assert cells(book, where.CHECKS)[SUMS][2] == HOLDS, book.name


@pytest.mark.parametrize("name", sorted(demos()))
def test_changed_books_equal_the_engine(name: str, tmp_path: Path) -> None:
    """Twenty random changes of a third of all numbers over the demos, each over a few project years."""
    case = appraise(short(name))
    prove([(f"{name}{seed}", case, changed(case, seed)) for seed in SEEDS], tmp_path)


def test_every_group_of_inputs_is_changed() -> None:
    """The random changes above touch at least one number of every section of a scenario file that has numbers."""
    groups, moved = set(), set()
    for name in demos():
        case = appraise(short(name))
        groups |= {path.partition(".")[0] for path in case.inputs if _can_move(case, path)}
        for seed in SEEDS:
            inputs = changed(case, seed)
            moved |= {path.partition(".")[0] for path in inputs if (inputs[path] != case.inputs[path]).any()}
    assert groups - moved == set()


def _can_move(case: Appraisal, path: str) -> bool:
    """Whether a number can be moved by a factor inside its limits: nothing and the ends of a range cannot."""
    item = case.loaded.assumptions[path].declaration
    value = float(case.inputs[path][0, 0])
    low, high = (value if bound is None else bound for bound in (item.low, item.high))
    return item.kind == "number" and value != 0 and low < value < high


def test_the_first_month_is_live(tmp_path: Path) -> None:
    """Another first month of spending in its cell moves the calendar, and with it weather, seasons and profiles."""
    case = appraise(short("dairy_with_leftovers"))
    later = Timeline(2029, 11, case.timeline.years)
    facts = {"inputs": case.inputs, "stored": case.values, "labels": input_labels(case)}
    content, plot = workbook(case.plan, timeline=later, **facts)
    path = tmp_path / "later.xlsx"
    path.write_bytes(content)
    shifted = replace(case.structure, first_month=(later.first_year, later.first_month))
    lines = evaluate(case.plan, model_inputs(shifted, dict(case.inputs)))
    assert not np.allclose(lines["power_gross"], case.values["power_gross"])
    assert compared(recalculated([path], tmp_path)[0], plot, lines) == []
