"""Which pictures stand in which part of a report."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal

from appraisal.present.blocks import Block, Figure
from appraisal.present.charts.gas import gas_by_feed, gas_energy
from appraisal.present.charts.heat import heat_by_month
from appraisal.present.charts.picture import Picture
from appraisal.risk.material import Material

Part = Literal["decision", "money", "swings", "plant", "cover", "bad_cases", "tonnes", "nutrients"]
PICTURES: Mapping[Part, tuple[Callable[[Material], Picture | None], ...]] = {
    "plant": (
        lambda found: gas_energy(found.appraisal),
        lambda found: gas_by_feed(found.appraisal),
        lambda found: heat_by_month(found.appraisal),
    ),
}


def pictures(found: Material, part: Part) -> tuple[Block, ...]:
    """The pictures of one part of a report; their tables stand in the report or among the files."""
    made = (make(found) for make in PICTURES.get(part, ()))
    return tuple(Figure(each.title, each.alt, each.chart) for each in made if each is not None)
