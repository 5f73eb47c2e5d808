"""Values of herds and feeds that are fine alone and wrong together: manure, laboratory, composition, contract."""

from __future__ import annotations

from appraisal.errors import Fault
from appraisal.scenario.derived import ELEMENTS, LAB, SHARES, formula_of
from appraisal.scenario.model import Scenario
from appraisal.scenario.plant_checks import Assumptions, substrates
from appraisal.scenario.quantity import MONTHS_PER_YEAR
from appraisal.scenario.substrate import Substrate
from appraisal.stoichiometry import methane_nm3_per_t

SUM_WITHIN = 0.02  # of 1; analyses of fat, protein and fibre rarely add up better
ROUNDING = 1e-6  # of the ceiling


def manure_figures(scenario: Scenario) -> list[Fault]:
    """Manure counted by milk or as measured needs its figure."""
    needed = {"by_milk": "milk_kg_per_head_day", "measured": "measured_tonnes_per_year"}
    units = {"by_milk": "kg/head/day", "measured": "t/year"}
    return [
        Fault(f"herd.{name}.{needed[how]}", f"needed above 0 {units[how]}, because manure_method is `{how}`")
        for name, herd in scenario.herd.items() if (how := herd.manure_method) in needed and getattr(herd, needed[how]) == 0
    ]


def laboratory_result(scenario: Scenario) -> list[Fault]:
    """A laboratory result needs mean, spread and number of tests; the reference row it is weighed against is an ordinary test."""
    faults = []
    for path, item in substrates(scenario):
        if item.potential_from != "lab_and_table":
            continue
        faults += [
            Fault(f"{path}.{name}", "needed above 0, because potential_from is `lab_and_table`")
            for name in LAB[:3] if getattr(item, name) == 0]
        if item.potential_kind != "ordinary_test":
            faults.append(Fault(
                f"{path}.potential_kind", "reference rows hold ordinary tests, and so must the laboratory's",
                got=item.potential_kind, allowed="ordinary_test"))
    return faults


def whole_composition(scenario: Scenario) -> list[Fault]:
    """Shares of an own make-up add up to one; elements are those of something that can give methane."""
    faults = []
    for path, item in substrates(scenario):
        if item.composition == "make_up":
            whole = sum(getattr(item, name) for name in SHARES)
            if abs(whole - 1) > SUM_WITHIN:
                faults.append(Fault(
                    f"{path}.{SHARES[-1]}", "fat, protein and carbohydrate do not make up the volatile solids",
                    got=f"{whole:.4g} share together", allowed=f"{1 - SUM_WITHIN:g} to {1 + SUM_WITHIN:g} share"))
        elif item.composition != "table" and formula_of(item.model_dump()) is None:
            faults.append(Fault(
                f"{path}.{ELEMENTS[0]}", f"needed, because composition is `{item.composition}`: with these elements "
                "nothing would give methane", hint="are the elements by mass and by mol exchanged, or is one missing?"))
    return faults


def ceiling_of(item: Substrate) -> float | None:
    """What the composition of a herd or feed can give at most [Nm3/t VS]; None where it says nothing usable."""
    formula = formula_of(item.model_dump())
    return None if formula is None else methane_nm3_per_t(formula)


def potential_in_use(item: Substrate, *, test_share_of_ultimate: float) -> float:
    """The potential of a herd or feed as an ultimate one [Nm3/t VS]; of an achieved yield per tonne what it comes to."""
    if item.potential_kind == "achieved":
        return item.achieved_nm3_per_t / item.ts_share / item.vs_share_of_ts
    return item.potential_nm3_per_t_vs / (test_share_of_ultimate if item.potential_kind == "ordinary_test" else 1.0)


def below_the_ceiling(scenario: Scenario) -> list[Fault]:
    """No feed gives more methane than its own composition holds."""
    faults, test_share = [], scenario.digester.test_share_of_ultimate
    for path, item in substrates(scenario):
        ceiling = ceiling_of(item) if item.composition != "table" else None
        used = potential_in_use(item, test_share_of_ultimate=test_share)
        if ceiling is None or used <= ceiling * (1 + ROUNDING):
            continue
        raised = f", an ordinary test raised by {test_share:.3g}" if item.potential_kind == "ordinary_test" else ""
        field = "achieved_nm3_per_t" if item.potential_kind == "achieved" else "potential_nm3_per_t_vs"
        faults.append(Fault(
            f"{path}.{field}", "more methane than the composition can give if all of it were digested and no cells grew: "
            "one of the two is not right", got=f"{used:.4g} Nm3/t VS{raised}", allowed=f"at most {ceiling:.4g} Nm3/t VS",
            hint="is it biogas instead of methane, or per tonne of volatile solids digested instead of fed?"))
    return faults


def feed_begins(scenario: Scenario) -> list[Fault]:
    """A feed begins within the project."""
    running = scenario.project.years * MONTHS_PER_YEAR - scenario.project.build_months
    return [
        Fault(f"feed.{name}.starts_after_months", "the project is over before this feed begins",
              got=f"{feed.starts_after_months:g} month", allowed=f"below {running:g} month")
        for name, feed in scenario.feed.items() if feed.starts_after_months >= running
    ]


def given_twice(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """A figure that a choice takes from elsewhere is not written in the file besides."""
    faults = []
    for path, item in substrates(scenario):
        for field, choice, chosen, not_own in (
            ("potential_nm3_per_t_vs", "potential_from", item.potential_from, ("table", "lab_and_table")),
            ("methane_share", "methane_share_from", item.methane_share_from, ("composition",)),
        ):
            if chosen in not_own and assumptions[f"{path}.{field}"].origin == "scenario":
                faults.append(Fault(
                    f"{path}.{field}", f"written, but {choice} is `{chosen}`", hint=f'leave it out, or {choice} = "own"'))
    return faults


def make_up_given(scenario: Scenario, assumptions: Assumptions) -> list[Fault]:
    """An own make-up is written in the file, not looked up."""
    return [
        Fault(f"{path}.{name}", "needed, because composition is `make_up`", allowed="0 to 1 share, 0 if it is meant")
        for path, item in substrates(scenario) if item.composition == "make_up"
        for name in SHARES if assumptions[f"{path}.{name}"].origin != "scenario"
    ]
