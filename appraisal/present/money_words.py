"""Sentences about the money for family, bank and grant office, beside those in words.py."""

from __future__ import annotations

from calendar import month_name

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.lines.evaluate import MONTHS
from appraisal.measures.cover import LeastCover
from appraisal.present import lender_words, month_words
from appraisal.present.numbers import counted, percent
from appraisal.present.tables import units_of
from appraisal.present.words import Passage
from appraisal.technical_yield.plant_year import months_of

NO_LOAN = (
    "The project's sides count no loan, and the tax that would fall due without one. The money by year shows the tax the family "
    "pays with its loans: the project's worth is counted on the project's own cash, which the workbook shows month by month."
)


def family_money(appraisal: Appraisal) -> Passage:
    """The worst month once it runs, the hours, what is owed if it stops, and whether the family would switch it off."""
    sentences = (
        month_words.worst_month(appraisal),
        *month_words.worst_running(appraisal),
        *month_words.short_years(appraisal),
        hours(appraisal),
        owed(appraisal),
        stop_rule(appraisal),
        *whole_farm(appraisal),
    )
    return Passage("Month by month, and if it goes wrong", sentences)


def hours(appraisal: Appraisal) -> str:
    """Hours of the family and of hired people in a full year, calls at night apart."""
    year, labour = appraisal.plant.year, appraisal.loaded.scenario.labour
    family, hired, night = (
        float(months_of(appraisal.values, line, year=year).sum())
        for line in ("family_hours", "hired_hours", "night_hours")
    )
    calls = f", {labour.night_calls_per_year:g} calls at night among them ({night:,.0f} hours)" if night else ""
    others = f"{hired:,.0f}" if hired else "none"
    return f"In project year {year} the family works {family:,.0f} hours{calls}, hired people {others}."


def owed(appraisal: Appraisal) -> str:
    """The largest sum still owed if the plant stops, and the year from which nothing is."""
    series = np.broadcast_to(appraisal.values["owed_if_stopped"][0], (appraisal.timeline.years,))
    worst, money = int(series.argmax()), units_of(appraisal).money
    if series[worst] <= 0:
        return "If it stops, nothing is owed in any year."
    after = np.flatnonzero(series > 0)[-1] + 1
    free = (
        f"from project year {after + 1} on nothing is"
        if after < appraisal.timeline.years
        else "something is owed to the end"
    )
    most = f"{money(float(series[worst]))} are still owed"
    return f"If it stops at the end of project year {worst + 1}, {most}, the most of any year; {free}."


def stop_rule(appraisal: Appraisal) -> str:
    """Both answers of the stop rule."""
    stop, money = appraisal.money.stop, units_of(appraisal).money
    year = int(stop.year[0])
    if year == 0:
        return "Before loan and tax, running it never loses money two full years in a row: switching it off would not help."
    on, off = float(stop.npv_running_on[0]), float(stop.npv_stopping[0])
    better = "stopping is better" if off > on else "running on is still better"
    return (
        f"Before loan and tax, running it loses money two years in a row up to project year {year}. Worth of the project "
        f"running on: {money(on)}; switched off then: {money(off)}: {better}."
    )


def whole_farm(appraisal: Appraisal) -> tuple[str, ...]:
    """The whole farm's capacity to repay, without and with the plant."""
    if appraisal.money.farm is None:
        return ("No accounts of the whole farm are given, so nothing is said about its capacity to repay.",)
    without, together = appraisal.money.farm
    words = [
        f"{name}: capacity {units_of(appraisal).money(float(side.capacity.capacity[0]))} a year, margin "
        f"{units_of(appraisal).money(float(side.capacity.margin[0]))}" + (
            f", term debts covered {float(side.capacity.coverage.value[0]):.2f} times"
            if np.isfinite(side.capacity.coverage.value[0]) else ""
        ) + (f", debts {percent(float(side.debt_to_assets.value[0]))} of assets"
             if np.isfinite(side.debt_to_assets.value[0]) else "")
        for name, side in (("Whole farm as it is", without), (f"with the plant in project year {appraisal.plant.year}", together))
    ]  # fmt: skip
    return ("; ".join(words) + ".",)


def bank_money(appraisal: Appraisal) -> Passage:
    """Cover from all sides, over the life of loan and plant, and what a lender's tests would do."""
    bank = appraisal.money.bank
    sentences = (
        _least("With the family's hours paid", bank.least["family_hours_paid"]),
        _least("On signed contracts only", bank.least["signed_contracts_only"]),
        *_overhauls(appraisal),
        *_part_year(appraisal),
        *_life(appraisal),
        *lender_words.tests(appraisal),
        losses_and_tax(appraisal),
        NO_LOAN,
    )
    return Passage("What a lender asks", sentences)


def _least(case: str, least: LeastCover) -> str:
    if least.words[0] == "no debt due":
        return f"{case} no loan falls due in a full operating year."
    return (
        f"{case} least cover is {float(least.value[0]):z.2f} in project year {int(least.year[0])}, "
        f"{float(least.average[0]):z.2f} on average."
    )


def _overhauls(appraisal: Appraisal) -> tuple[str, ...]:
    """How overhauls are paid, and what saving for them would change."""
    bank, funding = appraisal.money.bank, appraisal.loaded.scenario.funding
    as_it_is, saved = bank.least["as_assumed"], bank.with_overhaul_reserve
    if as_it_is.words[0] == "no debt due" or not appraisal.values["overhauls_of_year"][0].any():
        return ()
    if funding.overhaul_reserve == "three_years_ahead":
        return ("Overhauls, clean-outs and worn parts are saved for three years ahead; cover counts what is put by.",)
    then = f"least cover would be {float(saved.value[0]):.2f} in project year {int(saved.year[0])}"
    return (
        f"Overhauls, clean-outs and worn parts are paid out of the cash of their year. Saved for three years ahead, {then}.",
    )


def _part_year(appraisal: Appraisal) -> tuple[str, ...]:
    part = appraisal.money.bank.part_year
    if part.words[0] == "no debt due":
        return ()
    return (
        f"Apart from full operating years: in project year {int(part.year[0])}, still building or part of a year, cover is "
        f"{float(part.value[0]):z.2f}.",
    )


def _life(appraisal: Appraisal) -> tuple[str, ...]:
    bank = appraisal.money.bank
    if not np.isfinite(bank.llcr.value[0]):
        return ()
    rolling = float(bank.rolling[0])
    any_year = f" Over any twelve months in a row it is never under {rolling:.2f}." if np.isfinite(rolling) else ""
    return (
        f"When full operation begins, the value of the cash to come is {float(bank.llcr.value[0]):.2f} times the debt over the "
        f"years of the loans and {float(bank.plcr.value[0]):.2f} times over the years of the plant, at the loans' own rates."
        + any_year,
    )


def losses_and_tax(appraisal: Appraisal) -> str:
    """What is printed about tax: when it is paid, how losses and grants are taken."""
    tax = appraisal.loaded.scenario.tax
    late = tax.paid_months_after_year
    when = f"{counted(late, 'month')} after its year" if late else "in the last month of its tax year"
    grants = {
        "yes": "grants lower the depreciation",
        "no": "grants leave the depreciation as it is",
        "grant_is_income": "grants are taxed as income",
    }[tax.depreciation_reduced_by_grants]
    cap = (
        f", covering at most {percent(tax.loss_use_at_most_share)} of a profit"
        if tax.loss_use_at_most_share < 1
        else ""
    )
    losses = {
        "carried_forward": f"carried forward{cap}",
        "used_at_once": "used at once against other farm income",
        "lost": "lost",
    }[tax.losses]
    whose = "who is taxed is not said" if tax.entity == "not_said" else f"taxed is the {tax.entity.replace('_', ' ')}"
    return f"Tax is paid {when}; {grants}; losses are {losses}; {whose}; {_tax_year(appraisal)}."


def _tax_year(appraisal: Appraisal) -> str:
    """Which twelve months are a tax year, and what the first one holds of the plant."""
    first = appraisal.loaded.scenario.tax.year_first_month
    months = int(appraisal.values["tax_year_end_month"][0, 0])
    if months == MONTHS:
        same = f"the tax year begins in {month_name[first]}, as the project year does"
        return same if first else "the tax year is the project year"
    return (
        f"the tax year begins in {month_name[first]}: the first holds {months} months of the plant, the last runs on to the "
        "end of the project"
    )


def checks_line(appraisal: Appraisal) -> str:
    """One line: how many checks of the sum hold."""
    found = appraisal.money.checks
    passed = sum(each.passed for each in found)
    return f"Does the sum add up? {passed} of {len(found)} checks hold (`--reader bank` lists them)."


def grant_money(appraisal: Appraisal, bare: Appraisal | None = None) -> Passage:
    """What the grant changes, and whether the programme's own payback is met.

    bare: the plan run anew without its grants, so that the tax they change is counted; left out, it is not.
    """
    values, units = appraisal.values, units_of(appraisal)
    grants = float(values["grants"][0].sum())
    worth = float(appraisal.headline.npv[0])
    rate = appraisal.loaded.scenario.judging.discount_rate
    months = np.arange(values["grants"].shape[1])
    today = float((values["grants"][0] / (1 + rate) ** (months / MONTHS)).sum())
    back = appraisal.money.ratios.regulatory_payback_years
    payback = (
        f"Eligible cost over a year's energy and by-products, without credits and before running costs, is "
        f"{float(back.value[0]):.1f} years (own definition; ask the programme for its own)."
        if np.isfinite(back.value[0])
        else "No full operating year brings anything for energy and by-products, so there is no such payback."
    )  # fmt: skip
    benefits = float(months_of(values, "benefits_to_others", year=appraisal.plant.year).sum())
    others = (
        (f"Benefits to others in project year {appraisal.plant.year}: {units.money(benefits)}.",) if benefits else ()
    )
    without = (
        f"without them, and before what they change in the tax, the project is worth {units.money(worth - today)}"
        if bare is None
        else f"without them, and with the tax there would be, the project is worth {units.money(float(bare.headline.npv[0]))}"
    )
    changes = (
        f"Grants of {units.money(grants)} are worth {units.money(today)} today; {without} instead of {units.money(worth)}."
        if grants
        else f"The plan has no grant; the project is worth {units.money(worth)}."
    )
    return Passage(
        "What the grant changes",
        (
            changes,
            payback,
            *others,
        ),
    )
