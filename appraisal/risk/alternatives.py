"""Ready-made other ways for the same farm: the file edited as its user would, and read anew through every check."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from copy import deepcopy
from dataclasses import dataclass
from functools import partial

import tomlkit

from appraisal.errors import ScenarioError
from appraisal.risk.bare_farm import bare
from appraisal.risk.edits import Raw, put_off
from appraisal.risk.grids import SIZE_EXPONENT
from appraisal.risk.other_ways import (
    drop_grants,
    let_the_yard,
    manure_only,
    only_one_thing,
    refuse_sharing,
    resize_engines,
    sell_gas,
    shrink_grant,
    without_feeds,
)
from appraisal.risk.points import RiskError
from appraisal.scenario.load import Loaded, loads
from appraisal.scenario.read_text import read_tables
from appraisal.scenario.values_of_file import given_money

SMALLER, LARGER = 0.75, 1.25  # of rated power (our choice)
WAIT_YEARS = 2


@dataclass(frozen=True, eq=False)
class Alternative:
    """One other way. plan: read and checked, or None, and then `missing` says why. note: what was taken for it."""

    name: str
    label: str
    note: str
    plan: Loaded | None
    missing: str = ""


@dataclass(frozen=True)
class Way:
    """How to make one: `edit` changes the tables of the file and may raise RiskError with what is missing."""

    name: str
    label: str
    note: str
    edit: Callable[[Raw], None]


def ways(loaded: Loaded) -> Iterator[Way]:
    """Every ready-made way of this scenario, in the order shown; nothing is worked out yet."""
    yield Way(
        "as_it_is",
        "The farm as it is",
        "Nothing is built; every figure of a plan is a difference to this.",
        partial(bare, loaded=loaded),
    )
    yield from _other_feed(loaded)
    yield from _other_engines(loaded)
    yield from _other_grants(loaded)
    yield from _something_else(loaded)
    yield Way(
        "wait",
        f"Wait {WAIT_YEARS} years",
        "All given prices, costs and loans risen by general inflation; ceilings of "
        "grants and the accounts of the farm are not.",
        partial(put_off, loaded=loaded, years=WAIT_YEARS, paths=tuple(given_money(loaded))),
    )
    yield Way("shared", "Shared with partners", "", partial(refuse_sharing, loaded=loaded))


def _other_feed(loaded: Loaded) -> Iterator[Way]:
    """Manure alone, and the plan without each feed that somebody else may stop."""
    yield Way(
        "manure_only",
        "Manure only",
        "No bought or contracted feed, and nothing is built to take it in; loans and grants as entered.",
        partial(manure_only, loaded),
    )
    for name, feed in loaded.scenario.feed.items():
        if feed.supply_by == "contract":
            yield Way(
                f"without_{name}",
                f"Without the feed {name}",
                "From the first day; nothing takes its place, and what was built for it is still paid.",
                partial(without_feeds, names=(name,)),
            )


def _other_engines(loaded: Loaded) -> Iterator[Way]:
    """Every engine smaller, and larger."""
    for name, factor in (("smaller", SMALLER), ("larger", LARGER)):
        yield Way(
            f"{name}_engine",
            f"{name.capitalize()} engine",
            f"Every engine {factor:g} times as strong; what engines cost follows their size to the power "
            f"{SIZE_EXPONENT:g}; loans and grants as entered.",
            partial(resize_engines, loaded=loaded, factor=factor),
        )


def _other_grants(loaded: Loaded) -> Iterator[Way]:
    """No grant, and the smallest that does."""
    yield Way("without_grant", "Without any grant", "The family pays what the grants would have paid.", drop_grants)
    yield Way(
        "least_grant",
        "With the smallest grant",
        "The first public grant just large enough that the plan does not lose, nothing where it pays without "
        "one, its ceiling lifted; the loans stay, so cover hardly moves.",
        partial(shrink_grant, loaded=loaded),
    )


def _something_else(loaded: Loaded) -> Iterator[Way]:
    """Another use of the gas, another builder, or only a part of the plant: figures from [instead]."""
    yield Way(
        "gas",
        "Gas instead of power",
        "All gas is upgraded and sold; no engine is bought, the cost of upgrading stands in its place.",
        partial(sell_gas, loaded=loaded),
    )
    yield Way(
        "rent",
        "Another builds on our yard",
        "We get rent and the stated worth of digestate; no cost, no loan. A "
        "lawyer reads the contract: access, liability, removal at the end.",
        partial(let_the_yard, loaded=loaded),
    )
    yield Way(
        "cover_and_flare",
        "Cover and flare only",
        "Cost, income and upkeep as entered for this comparison.",
        partial(only_one_thing, loaded=loaded, what="cover", gain="cover_income_per_year"),
    )
    yield Way(
        "separator",
        "Separator only",
        "Cost, saving and upkeep as entered for this comparison.",
        partial(only_one_thing, loaded=loaded, what="separator", gain="separator_saving_per_year"),
    )


def alternatives(loaded: Loaded) -> tuple[Alternative, ...]:
    """Every ready-made way, read anew or with the reason why it cannot be."""
    return tuple(made(loaded, way) for way in ways(loaded))


def alternative(loaded: Loaded, name: str) -> Alternative:
    """One way by its name; raises RiskError where there is none of that name or it cannot be made."""
    known = {way.name: way for way in ways(loaded)}
    if name not in known:
        raise RiskError(f"no ready-made way is called {name}; there are: {', '.join(known)}")
    found = made(loaded, known[name])
    if found.plan is None:
        raise RiskError(f"{name} ({found.label}) cannot be compared: {found.missing}")
    return found


def made(loaded: Loaded, way: Way) -> Alternative:
    """A way carried out on the text of the scenario; its own stress cases are left out."""
    if loaded.changes:
        return Alternative(way.name, way.label, way.note, None, "the plan carries moved levers: save it first")
    raw = deepcopy(dict(read_tables(loaded.text, file=way.name)))
    try:
        way.edit(raw)
        raw.pop("stress", None)
        raw["project"]["name"] = way.label
        plan = loads(tomlkit.dumps(raw), file=way.name)
    except RiskError as missing:
        return Alternative(way.name, way.label, way.note, None, str(missing))
    except ScenarioError as error:
        return Alternative(way.name, way.label, way.note, None, _faults(error))
    return Alternative(way.name, way.label, way.note, plan)


def _faults(error: ScenarioError) -> str:
    return "; ".join(f"{fault.path}: {fault.what}" for fault in error.faults)
