"""Worth, rates of return and paybacks from eight sides, as live cells."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from appraisal.appraise import Appraisal
from appraisal.measures.arrays import Measured
from appraisal.reports.results import NEVER, NONE, Result, Stored, known, number
from appraisal.reports.sheets import Book
from appraisal.reports.workings.eight import SIDES, Side


def side_results(book: Book, paper: Appraisal, found: dict[str, tuple[str, str]]) -> Iterator[tuple[str, list[Result]]]:
    """Worth, returns and paybacks of all eight sides. found: ranges of rates of return and their ranks, by side."""
    for side, view in zip(SIDES, paper.money.views, strict=True):
        yield side.words.capitalize(), list(_side(book, side, view, found[side.key]))


def _side(book: Book, side: Side, view: Any, found: tuple[str, str]) -> Iterator[Result]:
    key, twelve, total = side.key, book.one("constant.months_per_year"), book.total
    yield Result(
        "Net present value", "money", f"={total(f'{key}_present')}", number(view.npv), "month m counts m/12 years"
    )
    yield Result(
        "Net present value, years dated at their ends",
        "money",
        f"={total(f'{key}_year_end_worth')}",
        number(view.npv_year_end),
        "for papers that count so; the first year is today",
    )
    rates, ranks = found
    best = f"INDEX({rates},MATCH(MIN({ranks}),{ranks},0))"
    rate = f'=IF(COUNT({ranks})=0,"{NONE}",(1+{best})^{twelve}-1)'
    several = "more than one rate fits; trust the net present value" if view.irr.words[0] == "several" else ""
    yield Result("Rate of return", "share/year", rate, known(view.irr), several)
    nothing = NONE if view.irr.words[0] == NONE else 0.0
    yield Result("Net present value at this rate", "money", "", nothing, "must be nothing: proof of the rate above")
    spent, earned = total(f"{key}_spent_worth"), total(f"{key}_earned_worth")
    months = f"({book.one('months_in_all')}-1)"
    modified = f'=IF(MIN({spent},{earned})>0,(MAX({earned},0)/{spent})^({twelve}/{months})-1,"{NONE}")'
    yield Result("Modified rate of return", "share/year", modified, known(view.mirr))
    for kind, words, back in (
        ("plain", "Payback", view.payback_years),
        ("discounted", "Payback, discounted", view.discounted_payback_years),
    ):
        text = f'=IF({total(f"{key}_{kind}_regained")}=0,"{NEVER}",{total(f"{key}_{kind}_moment")}/{twelve})'
        yield Result(words, "year", text, _back(back), "from the first spending")
        twice = f"AND({total(f'{key}_{kind}_regained')}=1,{total(f'{key}_{kind}_at_end')}=1)"
        status = f'=IF({total(f"{key}_{kind}_regained")}=0,"{NEVER}",IF({twice},"paid back","{back.names[1]}"))'
        yield Result(f"{words}: does it stay back", "", status, _status(back))
    rate_cell, years = book.one(f"{key}_discount"), book.one("project.years")
    recovery = f"{rate_cell}/IF({rate_cell}=0,1,1-(1+{rate_cell})^(0-{years}))"
    level = f"{total(f'{key}_present')}*IF({rate_cell}=0,1/{years},{recovery})"
    yield Result("Worth a year", "money/year", f"={level}", number(view.equivalent_annual_value))
    yield Result("Discounted at", "share/year", f"={rate_cell}", number(view.discount_rate))


def _back(back: Measured) -> Stored:
    return NEVER if back.words[0] == "nothing spent" else known(back)


def _status(back: Measured) -> str:
    return NEVER if back.words[0] == "nothing spent" else back.words[0]
