"""Partners of a shared plant: parts that add up, and herds and feeds that somebody brings once."""

from __future__ import annotations

from collections import Counter

from appraisal.errors import Fault
from appraisal.scenario.faults import likely, shown
from appraisal.scenario.model import Scenario
from appraisal.scenario.partner import brought_names

CLOSE = 1e-6


def parts_add_up(scenario: Scenario) -> list[Fault]:
    """The parts of all partners are 1 together; so are their parts of the digestate, unless all are 0."""
    faults = []
    for field, may_be_nothing in (("plant_share", False), ("digestate_share", True)):
        total = sum(getattr(partner, field) for partner in scenario.partner.values())
        if scenario.partner and abs(total - 1) > CLOSE and not (may_be_nothing and total == 0):
            what = "the parts of all partners are not 1 together"
            first = next(iter(scenario.partner))
            faults.append(Fault(f"partner.{first}.{field}", what, got=f"{total:g} share", allowed="1 share together"))
    return faults


def brought_once(scenario: Scenario) -> list[Fault]:
    """What a partner brings is a herd or feed of the scenario, and no two bring the same."""
    known = [*scenario.herd, *scenario.feed]
    counted = Counter(name for partner in scenario.partner.values() for name in brought_names(partner))
    faults = []
    for short, partner in scenario.partner.items():
        for name in brought_names(partner):
            meant = likely(name, known)
            path = f"partner.{short}.brings"
            if name not in known:
                hint = f"did you mean `{meant}`?" if meant else None
                faults.append(Fault(path, "no such herd or feed", got=shown(name), allowed=", ".join(known), hint=hint))
            elif counted[name] > 1:
                faults.append(Fault(path, "brought by more than one partner", got=shown(name), allowed="one partner each"))
    return faults
