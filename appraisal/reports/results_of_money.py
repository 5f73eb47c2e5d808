"""Unit costs and quotients, a lender's measures, stopping and the whole farm, as live cells."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.measures.cover import LeastCover
from appraisal.measures.farm_view import FarmSide
from appraisal.reports import subjects as where
from appraisal.reports.layout import YEAR_ROW, letter
from appraisal.reports.results import NO_DEBT, NONE, Result, Stored, known, number, quotient
from appraisal.reports.sheets import Book


def cost_results(book: Book, paper: Appraisal) -> Iterator[tuple[str, list[Result]]]:
    """What a kilowatt-hour costs, and quotients."""
    yield "What a kilowatt-hour costs, before tax and grants, at the discount rate", list(_unit_costs(book, paper))
    yield "Quotients", [*_cost_quotients(book, paper), *_savings_quotients(book, paper)]


def _unit_costs(book: Book, paper: Appraisal) -> Iterator[Result]:
    costs, total = paper.money.unit_costs, book.total
    spent, others = total("costs_worth"), total("by_products_worth")
    sold, used = total("sold_worth"), total("used_worth")
    for label, top, bottom, measure in (
        ("Of power sold, all costs", spent, sold, costs.gross_sold),
        ("Of power sold or used, all costs", spent, used, costs.gross_used),
        ("Of power sold, less other income and savings", f"{spent}-{others}", sold, costs.net_sold),
        ("Of power sold or used, less other income and savings", f"{spent}-{others}", used, costs.net_used),
    ):
        yield Result(label, "money/kWh", quotient(top, bottom), known(measure))


def _cost_quotients(book: Book, paper: Appraisal) -> Iterator[Result]:
    """Benefits over costs, in three ways."""
    total, found = book.total, paper.money.ratios
    benefits = f"{total('gained_worth')}+{total('grants_worth')}"
    run, overhauls, invested = total("running_worth"), total("overhauls_worth"), total("invested_worth")
    yield Result(
        "Benefits over all costs and tax",
        "1",
        quotient(benefits, total("costs_with_tax_worth")),
        known(paper.headline.benefit_cost_ratio),
        "grants are benefits, tax is a cost",
    )
    all_costs = f"{run}+{overhauls}+{invested}"
    yield Result(
        "Benefits over all costs, before tax", "1", quotient(benefits, all_costs), known(found.all_costs_below)
    )
    yield Result(
        "Benefits less running costs, over capital",
        "1",
        quotient(f"{benefits}-({run}+{overhauls})", invested),
        known(found.capital_below),
    )


def _savings_quotients(book: Book, paper: Appraisal) -> Iterator[Result]:
    """What is saved against what is laid out, and a programme's payback."""
    total, found = book.total, paper.money.ratios
    saved = f"{total('gained_worth')}-{total('running_worth')}"
    outlay = f"{total('invested_worth')}+{total('overhauls_worth')}-{total('grants_worth')}"
    rate, years = book.one("judging.discount_rate"), book.one("project.years")
    adjusted = f'IF({saved}>0,(1+{rate})*MAX(({saved})/({outlay}),0)^(1/{years})-1,"{NONE}")'
    yield Result("Savings to investment", "1", quotient(saved, outlay), known(found.savings.sir))
    yield Result("Net savings", "money", f"={saved}-({outlay})", number(found.savings.net_savings))
    yield Result(
        "Adjusted rate of return",
        "share/year",
        f'=IF({outlay}<=0,"{NONE}",{adjusted})',
        _or(number(found.savings.airr), NONE),
    )
    yield Result(
        "Eligible cost over a year's energy and by-products",
        "year",
        quotient(total("eligible_cost"), total("counted_by_programmes")),
        known(found.regulatory_payback_years),
        "the first full year",
    )


LEAST = {
    "as_assumed": "as assumed",
    "family_hours_paid": "with the family's hours paid",
    "signed_contracts_only": "on signed contracts only",
    "part_year": "in years with debt that are no full year",
}


def bank_results(book: Book, paper: Appraisal, covers: dict[str, str]) -> Iterator[tuple[str, list[Result]]]:
    """Cover over years, life and any twelve months. covers: case -> range of the covers that count, on the sheet Cover."""
    bank = paper.money.bank
    rows = [
        result
        for case, least in (*bank.least.items(), ("part_year", bank.part_year))
        for result in _least_cover(LEAST[case], covers[case], least)
    ]
    span = covers["rolling"]
    rolling = f'=IF(COUNT({span})=0,"{NO_DEBT}",MIN({span}))'
    rows.append(Result("Least cover over any twelve full months", "1", rolling, _or(number(bank.rolling), NO_DEBT)))
    debt = book.total("debt_at_start")
    for label, line, measure in (
        ("Cover over the life of the loans", "cash_ahead_while_owed", bank.llcr),
        ("Cover over the life of the plant", "cash_ahead", bank.plcr),
    ):
        rows.append(Result(label, "1", quotient(book.total(line), debt), known(measure), "from full operation on"))
    yield "What a lender looks at", rows


def _least_cover(words: str, span: str, least: LeastCover) -> Iterator[Result]:
    """Least cover of a case, its year, and the average. span: range of the covers that count."""
    none, year = f"COUNT({span})=0", float(least.year[0])
    yield Result(f"Least cover {words}", "1", f'=IF({none},"{NO_DEBT}",MIN({span}))', known(least))
    which = f'=IF({none},"{NO_DEBT}",MATCH(MIN({span}),{span},0))'
    yield Result("   in project year", "", which, _or(year, NO_DEBT))
    average = f'=IF({none},"{NO_DEBT}",AVERAGE({span}))'
    yield Result("   on average", "1", average, _or(number(least.average), NO_DEBT))


def _or(value: float, words: str) -> Stored:
    return value if np.isfinite(value) else words


def stop_results(book: Book, paper: Appraisal) -> Iterator[tuple[str, list[Result]]]:
    """What stopping after two losing years in a row is worth."""
    stop = paper.money.stop
    yield (
        "If the family stops after two losing years in a row",
        [
            Result(
                "It stops at the end of project year (0: never)",
                "",
                f"={book.total('stop_year_number')}",
                float(stop.year[0]),
            ),
            Result(
                "Project's worth, running on",
                "money",
                f"={book.total('project_after_nominal_present')}",
                number(stop.npv_running_on),
            ),
            Result("Project's worth, stopping", "money", f"={book.total('stopping_worth')}", number(stop.npv_stopping)),
            Result(
                "Family's worth, running on",
                "money",
                f"={book.total('owner_after_nominal_present')}",
                number(stop.owner_running_on),
            ),
            Result(
                "Family's worth, stopping",
                "money",
                f"={book.total('owner_stopping_worth')}",
                number(stop.owner_stopping),
            ),
        ],
    )


def farm_results(book: Book, paper: Appraisal) -> Iterator[tuple[str, list[Result]]]:
    """The whole farm without the plant and with it in its first full year; nothing where the scenario gives no accounts."""
    if paper.money.farm is None:
        return
    farm = {name.removeprefix("whole_farm."): book.one(name) for name in book.inputs if name.startswith("whole_farm.")}
    parts = _farm_parts(book, farm)
    for words, with_plant, side in zip(FARMS, (False, True), paper.money.farm, strict=True):
        amounts = {name: f"({own}+{more})" if with_plant else own for name, (own, more) in parts.items()}
        yield words, list(_farm_side(amounts, farm, side))


FARMS = ("The whole farm as it is", "The whole farm with the plant")


def _farm_parts(book: Book, farm: Mapping[str, str]) -> dict[str, tuple[str, str]]:
    """For each amount the farm's own, and what the plant adds in its first full year."""
    year = f"MIN({book.one('first_full_year')},{book.one('project.years')})"
    numbers = f"'{where.TIME}'!${letter(0)}${YEAR_ROW + 1}:${letter(book.plot.month_count - 1)}${YEAR_ROW + 1}"
    twelve = book.one("constant.months_per_year")

    def of(name: str) -> str:
        return f"SUMIF({numbers},{year},{book.row(name)})"

    def at_end(name: str) -> str:
        return f"INDEX({book.row(name)},{year}*{twelve})"

    return {
        "income": (farm["net_income_per_year"], of("profit_before_tax")),
        "depreciation": (farm["depreciation_per_year"], f"0-{of('written_off')}-{of('grants_earned')}"),
        "interest": (farm["interest_per_year"], f"0-{of('interest_cost')}"),
        "tax": (farm["tax_per_year"], f"0-{of('tax_cost')}"),
        "principal": (farm["principal_per_year"], f"0-{of('principal_paid')}"),
        "debts": (farm["debts_amount"], at_end("debts")),
        "assets": (farm["assets_amount"], at_end("assets")),
        "due": (farm["current_debts_amount"], f"0-SUMIF({numbers},{year}+1,{book.row('principal_paid')})"),
        "current": (farm["current_assets_amount"], at_end("cash_held")),
    }


def _farm_side(v: Mapping[str, str], farm: Mapping[str, str], side: FarmSide) -> Iterator[Result]:
    """Capacity to repay, cover and the two quotients of the balance sheet. v: amounts of this side."""
    earned = f"{v['income']}+{farm['off_farm_income_per_year']}+{v['depreciation']}+{v['interest']}"
    capacity = f"{earned}-{farm['living_per_year']}-{v['tax']}"
    due = f"({v['principal']}+{v['interest']})"
    current = quotient(v["current"], v["due"])
    yield Result("Capacity to repay", "money/year", f"={capacity}", number(side.capacity.capacity))
    yield Result("Left after debt service", "money/year", f"={capacity}-{due}", number(side.capacity.margin))
    yield Result("Cover of all debt service", "1", quotient(capacity, due), known(side.capacity.coverage))
    yield Result("Debts over assets", "1", quotient(v["debts"], v["assets"]), known(side.debt_to_assets))
    yield Result("Current assets over what is due", "1", current, known(side.current_ratio))
