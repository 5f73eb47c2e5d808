"""Which pictures stand in which part of a report."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal

from appraisal.present.blocks import Block, Figure
from appraisal.present.charts.account_fan import account_fan
from appraisal.present.charts.air import with_and_without
from appraisal.present.charts.cover import cover_by_year
from appraisal.present.charts.gas_by_feed import gas_by_feed
from appraisal.present.charts.gas_energy import gas_energy
from appraisal.present.charts.heat import heat_by_month
from appraisal.present.charts.income_to_net import income_to_net
from appraisal.present.charts.land import nutrients_against_land
from appraisal.present.charts.money_by_year import money_by_year
from appraisal.present.charts.picture import Picture
from appraisal.present.charts.ranked_swings import ranked_swings
from appraisal.present.charts.three_years import three_years_side_by_side
from appraisal.present.charts.worth_spread import worth_spread
from appraisal.present.tables import units_of
from appraisal.risk.material import Material

Part = Literal[
    "money",
    "net",
    "swings",
    "feeds",
    "plant",
    "heat",
    "cover",
    "three_years",
    "account",
    "worth",
    "tonnes",
    "nutrients",
]


def _cover(found: Material) -> Picture | None:
    bank = found.appraisal.money.bank
    if bank.least["as_assumed"].words[0] == "no debt due":
        return None
    bad = found.downside
    combined = bad.money.bank.covers["as_assumed"].value[0] if bad else None
    return cover_by_year(found.appraisal, combined=combined)


def _three_years(found: Material) -> Picture | None:
    if found.three_years is None:
        return None
    currency = units_of(found.appraisal).currency
    return three_years_side_by_side(found.three_years, timeline=found.appraisal.timeline, currency=currency)


PICTURES: Mapping[Part, tuple[Callable[[Material], Picture | None], ...]] = {
    "money": (lambda found: money_by_year(found.appraisal),),
    "net": (lambda found: income_to_net(found.appraisal),),
    "swings": (lambda found: ranked_swings(found.loaded, found.by_range or found.by_share),),
    "feeds": (lambda found: gas_by_feed(found.appraisal),),
    "plant": (lambda found: gas_energy(found.appraisal),),
    "heat": (lambda found: heat_by_month(found.appraisal),),
    "cover": (_cover,),
    "three_years": (_three_years,),
    "account": (lambda found: account_fan(found.futures) if found.futures else None,),
    "worth": (lambda found: worth_spread(found.futures) if found.futures else None,),
    "tonnes": (lambda found: with_and_without(found.appraisal),),
    "nutrients": (lambda found: nutrients_against_land(found.appraisal),),
}


def pictures(found: Material, part: Part) -> tuple[Block, ...]:
    """The pictures of one part of a report; their tables stand in the report or among the files."""
    made = (make(found) for make in PICTURES[part])
    return tuple(Figure(each.title, each.alt, each.chart) for each in made if each is not None)
