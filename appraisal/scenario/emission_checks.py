"""What is said of greenhouse gases that is fine alone and wrong together."""

from __future__ import annotations

from appraisal.errors import Fault
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row

STORE_STAGE = "digestate store"


def store_named(scenario: Scenario) -> list[Fault]:
    """A method after the IPCC needs the store of every herd, or its factor."""
    method = scenario.emissions.manure_method
    if method not in ("ipcc_2006", "ipcc_2019"):
        return []
    edition = method.removeprefix("ipcc_")
    hint = f"`appraisal reference manure_methane_{edition}` lists the stores"
    return [
        Fault(f"herd.{name}.store_{edition}", f"needed, because emissions.manure_method is `{method}`", hint=hint)
        for name, herd in scenario.herd.items()
        if not getattr(herd, f"store_{edition}") and getattr(herd, f"mcf_{edition}_share") == 0
    ]


def excreted_solids(scenario: Scenario) -> list[Fault]:
    """Counting from excreted solids needs them."""
    if scenario.emissions.manure_solids == "as_fed":
        return []
    hint = "`appraisal reference manure_potential` lists animals and regions"
    return [
        Fault(f"herd.{name}.excreted", "needed, because emissions.manure_solids is `as_excreted`", hint=hint)
        for name, herd in scenario.herd.items()
        if herd.excreted_kg_vs_per_head_day == 0
    ]


def waste_goes_once(scenario: Scenario) -> list[Fault]:
    """A tonne of leftovers went to a landfill or to animals, not to both."""
    return [
        Fault(
            f"feed.{name}.landfilled_share",
            "landfill and animals together get more than the whole feed",
            got=f"{feed.landfilled_share + feed.fed_before_share:.12g} share",
            allowed="at most 1 share",
        )
        for name, feed in scenario.feed.items()
        if feed.landfilled_share + feed.fed_before_share > 1 + 1e-9
    ]


def loss_of_a_digestate_store(scenario: Scenario) -> list[Fault]:
    """The row named for the store must be one of a digestate store."""
    named = scenario.store.loss
    if not named or row("project_losses", named)["stage"] == STORE_STAGE:
        return []
    return [
        Fault(
            "store.loss",
            "not a digestate store",
            got=f'"{named}"',
            allowed="open_store_long, open_store_short or gastight_store",
        )
    ]
