"""Land, crops and separated solids that are fine alone and wrong together."""

from __future__ import annotations

from appraisal.errors import Fault
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row


def some_land(scenario: Scenario) -> list[Fault]:
    """Counting the land needs crops, or land of others."""
    if scenario.land.count == "not_counted" or scenario.crop or scenario.land.more_land_ha > 0:
        return []
    return [Fault("crop", "needed, because land.count is `counted`", hint="write [crop.any_name] with its area_ha")]


def nitrogen_rule_is_one(scenario: Scenario) -> list[Fault]:
    """The rule named must be a limit of nitrogen per hectare."""
    named = scenario.land.n_rule
    if not named or row("nutrient_rules", named)["unit"].startswith("kg N/ha"):
        return []
    return [
        Fault(
            "land.n_rule",
            "not a limit of nitrogen per hectare",
            got=f'"{named}"',
            allowed="a row of nutrient_rules in kg N/ha",
        )
    ]


def solids_go_once(scenario: Scenario) -> list[Fault]:
    """A tonne of solids is sold or becomes bedding, not both."""
    apart = scenario.separation
    whole = apart.sold_share + apart.bedding_share
    if whole <= 1 + 1e-9:
        return []
    return [
        Fault(
            "separation.bedding_share",
            "sold and bedding together take more than all solids",
            got=f"{whole:.12g} share",
            allowed="at most 1 share",
        )
    ]
