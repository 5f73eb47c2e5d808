"""The result in plain sentences, for the family, the bank and the grant office."""

from __future__ import annotations

from dataclasses import dataclass

from appraisal.appraise import Appraisal
from appraisal.measures.headline import VIEW
from appraisal.present.naming import spot
from appraisal.present.numbers import counted, percent, times
from appraisal.present.tables import units_of
from appraisal.scenario.load import Loaded
from appraisal.scenario.reference import row, rows
from appraisal.technical_yield.plant_year import months_of

BLANK = "[to fill in]"
NO_RETURN = -0.5  # 1/year; judged: a rate further below nothing says that money is lost, not how fast


@dataclass(frozen=True)
class Passage:
    """A heading with its sentences."""

    title: str
    sentences: tuple[str, ...]


def family(appraisal: Appraisal) -> Passage:
    """Should we build: worth, payback, own money, hours, and what the answer hangs on."""
    head, share = appraisal.headline, percent(appraisal.plant.contract_gas_share)
    sentences = (
        verdict(appraisal),
        *worth_with_less_gas(appraisal),
        payback(appraisal),
        own_money(appraisal),
        f"{share} of the gas comes from feeds that somebody else may stop.",
        hours_of_work(appraisal),
        f"Rate of return {rate(head.irr.words[0], float(head.irr.value[0]))}. It and the worth are counted as if no loan were "
        f"taken, after the tax that would then fall due, in the money of each year, every month at its date ({VIEW}).",
    )
    return Passage("For the family", sentences)


def own_money(appraisal: Appraisal) -> str:
    """How deep the family's own pocket must be, and when."""
    balance = appraisal.values["bank_balance"][0]
    lowest = int(balance.argmin())
    if balance[lowest] >= 0:
        return "The account never goes below zero."
    worst = units_of(appraisal).money(float(balance[lowest]))
    said = (
        f"Own money is needed: at the lowest point, the end of {appraisal.timeline.in_words(lowest)}, the account stands at "
        f"{worst}, month by month and from nothing at the start, with grants, loans and tax."
    )
    part = float(appraisal.values["own_money_needed"][0, 0])
    if not 0 < part < -balance[lowest] - 1:
        return said
    return (
        f"{said} Of this {units_of(appraisal).money(part)} pay for the plant (its cost with fees and interest while building, "
        "less all grants and loans); the rest bridges what comes late or falls short."
    )


def hours_of_work(appraisal: Appraisal) -> str:
    """Hours a week, and what the family's unpaid hours would cost."""
    labour, year = appraisal.loaded.scenario.labour, appraisal.plant.year
    hired = counted(labour.hired_hours_per_week, "hired hour") if labour.hired_hours_per_week else "no hired hours"
    unpaid = -float(months_of(appraisal.values, "family_labour_at_hired_wage", year=year).sum())
    return (
        f"It takes {counted(labour.family_hours_per_week, 'family hour')} and {hired} a week; the "
        f"family's hours are not paid in these figures (at the hired wage they would cost {units_of(appraisal).money(unpaid)} "
        f"in project year {year})."
    )


def verdict(appraisal: Appraisal) -> str:
    """One sentence that follows from the net present value, and never says more past a stop-and-ask finding."""
    value, discount = float(appraisal.headline.npv[0]), appraisal.loaded.scenario.judging.discount_rate
    worth = units_of(appraisal).money(abs(value))
    at = f"at {percent(discount)} a year"
    if value < 0:
        return f"On these figures it does not pay: {at} it is worth {worth} less than nothing in today's money."
    if any(finding.severity == "stop and ask" for finding in appraisal.findings):
        return (
            f"On paper it is worth {worth} in today's money {at}, but a finding marked `stop and ask` stands below: "
            "clear it first."
        )
    return f"On these figures alone it is worth {worth} in today's money, counted {at}, if what is assumed comes true."


def worth_with_less_gas(appraisal: Appraisal) -> tuple[str, ...]:
    """The value once more with the declared gas cut, where an operating limit says stop and ask; else nothing."""
    second, units = appraisal.cautious, units_of(appraisal)
    if second is None:
        return ()
    value, less = (float(head.npv[0]) for head in (appraisal.headline, second.headline))
    no = " and does not pay" if less < 0 else ""
    passed = ", ".join(spot(appraisal, each) for each in second.because)
    return (
        f"A stop-and-ask limit is passed ({passed}), so the sum is made twice. As entered the plant is "
        f"worth {units.money(value)}; with {percent(second.gas_cut_share)} less gas in every month it is worth "
        f"{units.money(less)}{no}. Why so much less: {second.reason.rstrip('.')}.",
    )


def cover_with_less_gas(appraisal: Appraisal) -> tuple[str, ...]:
    """Least cover once more with the declared gas cut, where an operating limit says stop and ask; else nothing."""
    second = appraisal.cautious
    if second is None or second.headline.dscr_min.words[0] == "no debt due":
        return ()
    entered, least = appraisal.headline.dscr_min, second.headline.dscr_min
    return (
        f"With {percent(second.gas_cut_share)} less gas ({second.reason.rstrip('.')}) least cover is "
        f"{float(least.value[0]):.2f} in project year {int(least.year[0])}, against {float(entered.value[0]):.2f} as entered; "
        "a stop-and-ask finding stands below.",
    )


def payback(appraisal: Appraisal) -> str:
    """How long the money is away."""
    back = appraisal.headline.payback_years
    if back.words[0] == "never":
        return f"Loans left aside, tax counted, the money put in does not come back within {appraisal.timeline.years} years."
    again = ", and later falls below zero again" if back.words[0].endswith("again") else ""
    years = f"{float(back.value[0]):.1f} years after the first spending{again}"
    return f"Loans left aside, tax counted, the money put in is back {years}."


def rate(status: str, value: float) -> str:
    """A rate of return with its status in words; far below nothing it is the root of a formula and no return."""
    if status == "none":
        return "none: no rate makes these flows worth zero"
    if value < NO_RETURN:
        return f"none to speak of: more money goes out than ever comes back (the arithmetic gives {percent(value)} a year)"
    if value < 0 and status == "one":
        return f"{percent(value)} a year: more money goes out than ever comes back"
    return f"{percent(value)} a year" + (
        " (more than one rate fits; trust the net present value)" if status == "several" else ""
    )


def bank(appraisal: Appraisal) -> Passage:
    """Does it carry its loan, and what is counted."""
    least, scenario = appraisal.headline.dscr_min, appraisal.loaded.scenario
    wanted = scenario.judging.least_cover
    covered = (
        "No loan falls due in a full operating year."
        if least.words[0] == "no debt due"
        else f"Least cover of debt service is {times(float(least.value[0]), wanted)} in project year {int(least.year[0])}, "
        f"{float(least.average[0]):.2f} on average; {wanted:.2f} is wanted."
    )
    counted = (
        "Counted by project year, in the money of that year: cash income and savings shown by a bill, less running costs, "
        "overhauls and tax; least and average over years in which the plant is fed in all months. "
        "Savings no bill proves stay out."
    )
    losses = {"carried_forward": "carried forward", "used_at_once": "used at once against other income", "lost": "lost"}
    tax = (
        f"Tax is {percent(scenario.tax.rate)} of profit, a rate of {scenario.tax.rate_year}; losses are "
        f"{losses[scenario.tax.losses]}. An accountant should confirm it."
    )
    return Passage("For the bank", (covered, *cover_with_less_gas(appraisal), counted, tax))


def grant_office(appraisal: Appraisal) -> Passage:
    """Money asked for, energy made, tonnes kept out of the air."""
    values, units, plant = appraisal.values, units_of(appraisal), appraisal.plant
    grants, spent = float(values["grants"][0].sum()), -float(values["investment"][0].sum())
    tonnes, heat = float(values["credit_tonnes"][0].sum()), plant.heat_used_kwh + plant.heat_from_boiler_kwh
    return Passage(
        "For the grant office",
        (
            f"Capital {units.money(spent)}, grants {units.money(grants)}"
            + (f", {percent(grants / spent)} of it." if spent else "."),
            f"In a full year: {units.amount(plant.power_sold_kwh + plant.power_to_farm_kwh, 'kWh')} of power for grid and farm, "
            + (f"{units.amount(heat, 'kWh')} of heat used, the digester's own among it" if heat > 0 else "no heat used")
            + (f", {units.amount(plant.methane_sold_nm3, 'Nm3')} of methane sold." if plant.methane_sold_nm3 > 0 else "."),
            f"Avoided emissions that may be credited over the crediting period: {units.amount(tonnes, 't CO2e')} "
            f"(methane counted {appraisal.loaded.scenario.credits.gwp_methane:g} times CO2).",
        ),
    )


def cautions(place: str) -> Passage:
    """The cautions to show in one place: readme, screen or paper."""
    shown = tuple(each["caution"] for each in rows("cautions") if place in each["show_in"].split(";"))
    return Passage("Before anyone acts on this", shown)


def whom_to_call(loaded: Loaded) -> str:
    """The numbers the scenario names for an emergency, a blank for each that it leaves out."""
    held = loaded.scenario.emergency
    numbers = (("emergency", held.number), ("gas supplier", held.gas_supplier), ("engineer on call", held.engineer))
    said = "; ".join(f"{who} {number or BLANK}" for who, number in numbers)
    return f"Whom to call (the plan keeps the numbers under emergency): {said}."


def cautions_short(names: tuple[str, ...]) -> Passage:
    """A few cautions by the id of their row."""
    return Passage("Before anyone acts on this", tuple(row("cautions", name)["caution"] for name in names))
