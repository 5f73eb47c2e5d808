"""The bad cases that every plant is put to. Sizes are common practice, no source, unless said otherwise."""

from __future__ import annotations

from dataclasses import dataclass

from appraisal.lines.names import MONTHS
from appraisal.risk.changes import Change, numbers
from appraisal.scenario.load import Loaded
from appraisal.scenario.named_asides import matching

LOST_YEAR = 3
SOURED_MONTH = 18.0
EARLY = 0.75
PRICES = (
    "power.contract_price_per_kwh",
    "power.market_price_per_kwh",
    "upgrading.contract_price_per_kwh",
    "upgrading.market_price_per_kwh",
)


@dataclass(frozen=True)
class Case:
    """One bad case: its changes, or why this scenario cannot have it.

    name: stable name. label: for people. adverse: False for the milder side of a pair, left out of all together.
    """

    name: str
    label: str
    changes: tuple[Change, ...]
    reason: str = ""
    adverse: bool = True
    impossible: str = ""


@dataclass(frozen=True)
class Template:
    """A case before it meets a scenario: only the changes whose values exist and are not zero remain."""

    name: str
    label: str
    changes: tuple[Change, ...]
    nothing: str
    adverse: bool = True


TEMPLATES: tuple[Template, ...] = (
    Template(
        "capital_dearer", "Building costs 20% more", (Change("capital.*.amount", "times", 1.2),), "nothing is built"
    ),
    Template("six_months_late", "First feeding six months late", (Change("project.build_months", "plus", 6.0),), ""),
    Template("less_gas", "15% less gas", (Change("digester.gas_cut_share", "less", 0.15),), ""),
    Template(
        "engine_stands", "Engines run 5 points less of the time", (Change("engine.*.availability", "plus", -0.05),), ""
    ),
    Template(
        "lower_price",
        "Energy sells for 10% less",
        tuple(Change(path, "times", 0.9) for path in PRICES),
        "nothing is sold",
    ),
    Template(
        "overhaul_early",
        "Overhauls due after three quarters of the hours",
        (
            Change("engine.*.top_end_interval_hours", "times", EARLY),
            Change("engine.*.major_interval_hours", "times", EARLY),
        ),
        "",
    ),
    Template(
        "tank_soured",
        "The tank turns sour in its second year",
        (Change("upset.month", "to", SOURED_MONTH),),
        "no such input",
    ),
    Template("dearer_loans", "Interest 2 points higher", (Change("loan.*.rate", "plus", 0.02),), "there is no loan"),
    Template(
        "no_credits", "Credits worth nothing", (Change("credits.price_per_t_co2e", "to", 0.0),), "no credits are sold"
    ),
    Template("more_inflation", "General inflation 1 point higher", (Change("project.inflation", "plus", 0.01),), ""),
    Template("less_inflation", "General inflation 1 point lower", (Change("project.inflation", "plus", -0.01),), ""),
)


def standard_cases(loaded: Loaded) -> list[Case]:
    """The ready-made cases as this scenario can have them, in order."""
    known = numbers(loaded)
    return [_case(template, known) for template in TEMPLATES]


def _case(template: Template, known: dict[str, float]) -> Case:
    def there(change: Change) -> bool:
        paths = matching(change.pattern, known)
        moving = change.kind != "times" and not (change.kind == "to" and change.amount == 0)
        return bool(paths) and (moving or any(known[path] != 0 for path in paths))

    changes = tuple(change for change in template.changes if there(change))
    impossible = "" if changes else template.nothing or "this scenario has no such value"
    return Case(template.name, template.label, changes, adverse=template.adverse, impossible=impossible)


def lost_contracts(loaded: Loaded) -> list[Case]:
    """For each feed under contract: lost for good at the start of project year 3, with all its gas."""
    project = loaded.scenario.project
    years = max((LOST_YEAR - 1) * MONTHS - project.build_months, 0.0) / MONTHS
    return [
        Case(
            f"lost_{name}",
            f"The contract for {name.replace('_', ' ')} is lost in project year {LOST_YEAR}",
            (
                Change(f"feed.{name}.contract_years", "to", min(years, feed.contract_years)),
                Change(f"feed.{name}.share_after_contract", "to", 0.0),
            ),
        )
        for name, feed in loaded.scenario.feed.items()
        if feed.supply_by == "contract" and feed.tonnes_per_year > 0
    ]


def own_cases(loaded: Loaded) -> list[Case]:
    """The cases that the scenario file itself declares."""
    made = []
    for name, item in loaded.scenario.stress.items():
        changes = [Change(path, "times", amount) for path, amount in item.times.items()]
        changes += [Change(path, "plus", amount) for path, amount in item.plus.items()]
        changes += [Change(path, "to", amount) for path, amount in item.to.items()]
        made.append(Case(name, item.label or name, tuple(changes), reason=item.reason))
    return made
