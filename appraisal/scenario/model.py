"""The whole scenario: the sections above put together, with ranges and sources beside the values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal, get_args, get_origin

from pydantic import Field

from appraisal.scenario.beside import Correlation, Range, StressCase, Wander
from appraisal.scenario.costs import Labour, RunningCost, Task
from appraisal.scenario.credits import CarbonClaim, Credits
from appraisal.scenario.digester import Digester, Pasteuriser, Site
from appraisal.scenario.emissions import Emissions
from appraisal.scenario.engine import Engine
from appraisal.scenario.farm import FarmNow
from appraisal.scenario.feed import Feed
from appraisal.scenario.fertilizer import Fertilizer
from appraisal.scenario.funding import Capital, Funding, Grant, Loan
from appraisal.scenario.gas import Boiler, Cleaning, Gas, Grid, Upgrading
from appraisal.scenario.heat import Heat
from appraisal.scenario.herd import Herd
from appraisal.scenario.instead import Instead
from appraisal.scenario.land import Crop, Land
from appraisal.scenario.money import Claims, Judging
from appraisal.scenario.own_use import OwnUse
from appraisal.scenario.papers import Applicant, Concern, Emergency, Milestone
from appraisal.scenario.partner import Partner
from appraisal.scenario.power import OtherIncome, Power
from appraisal.scenario.quantity import Declaration, Event, Section, choice, count, declarations, number, text
from appraisal.scenario.shell import Shell
from appraisal.scenario.start_up import CleanOut, Recirculation, StartUp, Upset
from appraisal.scenario.store import DigestateStore, Separation
from appraisal.scenario.tax import Tax
from appraisal.scenario.whole_farm import WholeFarm

SCHEMA_VERSION = 1
Known = Literal["quote", "measured", "published", "common practice", "memory", "guess", "invented"]


class Project(Section):
    """Names, money and time."""

    name: str = text(label="Name of the plant", help="Shown on every page.")
    note: str = text(default="", label="Note", help="What this case is about.")
    currency: str = text(label="Currency",
        help="Three letters, for example USD or EUR; the whole scenario counts in it.")
    display_units: Literal["metric", "us"] = choice(
        "metric", "us", default="metric", label="Units shown", help="Files and JSON stay in SI.")
    first_month: str = text(label="First month of spending", help="As 2027-04; this is month 0.")
    price_year: int = count("year", 0, 2100, default=0, label="Year of today's money",
        help="All prices and costs are of this year; 0: the year of the first month. Table costs are brought to it.")
    years: int = count("year", 2, 60, default=21, label="Project years", help="From month 0, building included.")
    build_months: float = number(
        "month", 0, 60, default=12.0, label="Months until the first feeding",
        help="Building and waiting for the grid.", event=Event("the first feeding comes later than planned", "late", ()))
    closes_after_years: float = number(
        "year", 0.5, 60, default=60.0, label="Years of operation until the plant closes for good",
        help="From the first feeding; 60: it runs to the end of the project. Closed, it earns and costs nothing, and still owes.",
        event=Event("the plant closes for good"))
    inflation: float = number(
        "share/year", -0.05, 0.3, default=0.02, source="HICP, EU, long-run mean near 2 % to 2.4 % a year",
        basis="published", label="General inflation", help="For real figures and for prices without an own rise.")


class Source(Section):
    """Where a value comes from."""

    origin: str = text(label="Source", help="Quote, bill, laboratory report, publication, person.")
    known: Known = choice(*get_args(Known), label="How it is known", help="A guess is called a guess.")
    date: str = text(default="", label="Date", help="As 2026-11.")


class Scenario(Section):
    """Everything the user assumes; what is declared as a dict is a table of items by name."""

    schema_version: Literal[1] = Field(default=...)
    project: Project
    farm_now: FarmNow = FarmNow()
    site: Site
    herd: dict[str, Herd] = Field(default_factory=dict)
    feed: dict[str, Feed] = Field(default_factory=dict)
    digester: Digester
    recirculation: Recirculation = Recirculation()
    clean_out: CleanOut = CleanOut()
    start_up: StartUp = StartUp()
    upset: Upset = Upset()
    shell: Shell
    pasteuriser: Pasteuriser
    gas: Gas = Gas()
    cleaning: Cleaning
    engine: dict[str, Engine] = Field(min_length=1)
    boiler: Boiler
    upgrading: Upgrading
    grid: Grid = Grid()
    own_use: OwnUse
    heat: Heat = Heat()
    power: Power
    fertilizer: Fertilizer
    land: Land
    crop: dict[str, Crop] = Field(default_factory=dict)
    credits: Credits = Credits()
    carbon_claim: dict[str, CarbonClaim] = Field(default_factory=dict)
    store: DigestateStore = DigestateStore()
    separation: Separation = Separation()
    emissions: Emissions
    other_income: dict[str, OtherIncome] = Field(default_factory=dict)
    labour: Labour
    task: dict[str, Task] = Field(default_factory=dict)
    running_cost: dict[str, RunningCost] = Field(default_factory=dict)
    capital: dict[str, Capital] = Field(default_factory=dict)
    grant: dict[str, Grant] = Field(default_factory=dict)
    loan: dict[str, Loan] = Field(default_factory=dict)
    partner: dict[str, Partner] = Field(default_factory=dict)
    funding: Funding = Funding()
    tax: Tax
    whole_farm: WholeFarm = WholeFarm()
    judging: Judging
    claims: Claims = Claims()
    instead: Instead = Instead()
    applicant: Applicant = Applicant()
    emergency: Emergency = Emergency()
    milestone: dict[str, Milestone] = Field(default_factory=dict)
    concern: dict[str, Concern] = Field(default_factory=dict)
    range: dict[str, Range] = Field(default_factory=dict)
    correlation: dict[str, Correlation] = Field(default_factory=dict)
    stress: dict[str, StressCase] = Field(default_factory=dict)
    wander: dict[str, Wander] = Field(default_factory=dict)
    source: dict[str, Source] = Field(default_factory=dict)


ASIDE = ("range", "correlation", "stress", "wander", "source")


@dataclass(frozen=True)
class SectionPlace:
    """One section of the file: its name, its class, and whether it is a table of named items."""

    name: str
    section: type[Section]
    named: bool


def sections() -> Iterator[SectionPlace]:
    """All sections that hold values, in file order."""
    for name, field in Scenario.model_fields.items():
        annotation: Any = field.annotation
        if name in ASIDE or name == "schema_version":
            continue
        named = get_origin(annotation) is dict
        yield SectionPlace(name, get_args(annotation)[1] if named else annotation, named)


def declared() -> Mapping[str, Declaration]:
    """Every declared input by pattern: `digester.active_volume_m3`, or `feed.*.gate_fee_per_t` for named items."""
    return {
        f"{place.name}.{'*.' if place.named else ''}{item.name}": item
        for place in sections() for item in declarations(place.section)
    }
