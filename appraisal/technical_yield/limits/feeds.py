"""Findings about herds and feeds: the peak day, contracts that end, figures that do not fit one another."""

from __future__ import annotations

from collections.abc import Iterator
from math import sqrt

from appraisal.errors import Finding, Severity
from appraisal.scenario.feed_checks import ceiling_of, potential_in_use
from appraisal.scenario.model import Scenario
from appraisal.scenario.plant_checks import substrates
from appraisal.scenario.quantity import MONTHS_PER_YEAR
from appraisal.scenario.reference import figure, row
from appraisal.scenario.said import plain, said
from appraisal.scenario.weighing import of_range, of_tests
from appraisal.technical_yield.limits.band import feed_kind, is_heated, sourced
from appraisal.technical_yield.plant_year import PlantYear, Values, months_of

PEAK_OVER_EVEN = 1.5  # volatile solids of the peak day over the even day; common practice, no source
MILK_LOW, MILK_HIGH = 15.0, 50.0  # kg a cow and day: where the equations of manure by milk hold; from memory
MANURE_APART = 2.0  # measured manure with its water over the manure of the animal table; judged
LAB_APART = 2.5  # deviations between laboratory and reference row; common practice, no source


def peak_day(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """The day on which every feed is delivered, against the even day and the load the tank bears."""
    over = months_of(values, "peak_day_over_even_day", year=plant.year)
    loads = months_of(values, "loading_rate", year=plant.year) * over
    most = int(loads.argmax())
    if over[most] <= PEAK_OVER_EVEN:
        return
    tonnes = float(months_of(values, "peak_day_tonnes", year=plant.year)[most])
    limit, severity, source = _bears(scenario, values, plant, load=float(loads[most]))
    yield Finding(
        "peak_day_over_even_day",
        f"On a day when every feed is delivered {said(scenario, tonnes, 't')} go into the tank, {over[most]:.1f} times the "
        "volatile solids of "
        f"an even day and {said(scenario, loads[most], 'kg VS/m3', '.1f')} of tank. A tank fed in gulps foams and sours; it "
        "would be even with buffers "
        f"of {_buffers(scenario, values, plant)}.",
        severity,
        float(loads[most]),
        limit,
        "kg VS/m3/day",
        source,
    )


def _bears(scenario: Scenario, values: Values, plant: PlantYear, *, load: float) -> tuple[float | None, Severity, str]:
    """The warning limit of a lasting load, how grave a peak above it is, and where it comes from."""
    facts = row("digester_limits", "olr_" + feed_kind(scenario, values, plant))
    limit = float(facts["warn_high"])
    heavy = is_heated(scenario) and load > limit
    source = sourced(facts["source"], facts["basis"]) + "; for single days common practice, no source"
    return limit, "warning" if heavy else "note", source


def _buffers(scenario: Scenario, values: Values, plant: PlantYear) -> str:
    room = {name: float(months_of(values, f"substrate.{name}.even_buffer", year=plant.year).max()) for name in scenario.feed}
    return " and ".join(
        f"{said(scenario, m3, 'm3')} for {plain(name)}" for name, m3 in room.items() if m3 > scenario.feed[name].buffer_m3
    )


def contracts(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """A contract that ends within the project: its stated chance of renewal beside what the figures count on."""
    project = scenario.project
    for name, feed in scenario.feed.items():
        begins = project.build_months + feed.starts_after_months
        ends = (begins / MONTHS_PER_YEAR) + feed.contract_years
        if feed.supply_by != "contract" or ends >= project.years:
            continue
        chance, counted = feed.renewal_chance, feed.share_after_contract
        if chance < 1 or counted > chance:
            yield Finding(
                f"feed.{name}.renewal_chance",
                f"The contract for {plain(name)} ends after {f'{ends:.1f}'.removesuffix('.0')} project years. "
                f"Its chance of renewal is given as "
                f"{chance:.0%}; "
                f"after it the figures count on {counted:.0%} of the feed.",
                "warning" if counted > chance else "note",
                chance,
                counted,
                "share",
                "stated in the scenario",
            )


def milk(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Manure by milk outside the herds that its equations were made from."""
    for name, herd in scenario.herd.items():
        kg = herd.milk_kg_per_head_day
        if herd.manure_method == "by_milk" and not MILK_LOW <= kg <= MILK_HIGH:
            yield Finding(
                f"herd.{name}.milk_kg_per_head_day",
                f"Manure of {plain(name)} is worked out from {said(scenario, kg, 'kg', '.1f')} of milk a cow and day; the "
                "equations hold for herd means of "
                f"{said(scenario, MILK_LOW, 'kg')} to {said(scenario, MILK_HIGH, 'kg')}.",
                "warning",
                kg,
                MILK_LOW if kg < MILK_LOW else MILK_HIGH,
                "kg/head/day",
                "ASABE D384.2 and Nennich et al. 2005 (from memory)",
            )


def measured_manure(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """Measured manure counted twice, or more than the animals can give."""
    for name, herd in scenario.herd.items():
        if herd.manure_method != "measured":
            continue
        besides = {
            "bedding": herd.bedding_t_per_head_year,
            "sand": herd.sand_t_per_head_year,
            "ageing": herd.pit_days,
            "wash water": herd.wash_water_l_per_head_day,
            "flush water": herd.flush_water_l_per_head_day,
            "rain": herd.yard_area_m2,
        }
        if given := [word for word, value in besides.items() if value > 0]:
            yield Finding(
                f"herd.{name}.measured_tonnes_per_year",
                f"The manure of {plain(name)} is measured, and {', '.join(given)} is counted besides: is it not in the "
                "measured figure?",
                "warning",
                None,
                None,
                None,
                "arithmetic",
            )
        a_head = herd.measured_tonnes_per_year / herd.head if herd.head > 0 else 0.0
        if a_head > MANURE_APART * herd.manure_t_per_head_year:
            yield Finding(
                f"herd.{name}.measured_tonnes_per_year",
                f"{said(scenario, a_head, 't', '.1f')} of manure for each animal of {plain(name)} and year are measured; "
                "the animal table has "
                f"{said(scenario, herd.manure_t_per_head_year, 't', '.1f')}. Is it water, or another herd's?",
                "warning",
                a_head,
                herd.manure_t_per_head_year,
                "t/head/year",
                "the program's table of animals; factor of 2 judged",
            )


def above_the_row(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """A potential above what the make-up of the reference row can give; a fault where the make-up is the user's own."""
    for path, item in substrates(scenario):
        ceiling = ceiling_of(item) if item.composition == "table" and item.like else None
        used = potential_in_use(item, test_share_of_ultimate=scenario.digester.test_share_of_ultimate)
        if ceiling is not None and used > ceiling:
            yield Finding(
                f"{path}.potential_nm3_per_t_vs",
                f"The potential used comes to {said(scenario, used, 'Nm3/t VS')}, but the make-up of {plain(item.like)} can "
                "give "
                f"{said(scenario, ceiling, 'Nm3/t VS')} at most, if all of it were digested. Enter the composition of your "
                "own feed, or ask the laboratory again.",
                "warning",
                used,
                ceiling,
                "Nm3/t VS",
                "stoichiometry (Buswell and Boyle) of table feedstocks",
            )


def laboratory(scenario: Scenario, values: Values, plant: PlantYear) -> Iterator[Finding | None]:
    """A laboratory result that lies far from the reference row it is weighed against."""
    for path, item in substrates(scenario):
        if item.potential_from != "lab_and_table":
            continue
        facts = figure("feedstocks", item.like, "bmp_mid")
        table = of_range(middle=facts.value, low=facts.low or 0.0, high=facts.high or facts.value)
        lab = of_tests(
            mean=item.lab_mean_nm3_per_t_vs,
            sd=item.lab_sd_nm3_per_t_vs,
            tests=item.lab_tests,
            between_share=item.lab_between_share,
        )
        apart = abs(lab.mean - table.mean) / sqrt(lab.sd**2 + table.sd**2)
        if apart > LAB_APART:
            yield Finding(
                f"{path}.lab_mean_nm3_per_t_vs",
                f"The laboratory found {said(scenario, lab.mean, 'Nm3/t VS')} where the row {plain(item.like)} has "
                f"{said(scenario, table.mean, 'Nm3/t VS')}: {apart:.1f} times what chance explains. Is it the same feed, "
                "and methane? Weighing them hides the difference.",
                "warning",
                lab.mean,
                table.mean,
                "Nm3/t VS",
                facts.source,
            )
