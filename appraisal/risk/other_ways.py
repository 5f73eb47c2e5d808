"""What each ready-made way changes in the tables of a scenario file."""

from __future__ import annotations

from typing import Any

from appraisal.risk.bare_farm import bare
from appraisal.risk.edits import Raw, drop, multiply
from appraisal.risk.grids import SIZE_EXPONENT
from appraisal.risk.least_grant import NO_CEILING, least_grant
from appraisal.risk.points import RiskError
from appraisal.scenario.load import Loaded


def manure_only(loaded: Loaded, raw: Raw) -> None:
    """Leave out every feed and the capital of category feed; raises RiskError where there is no feed."""
    if not loaded.scenario.feed:
        raise RiskError("the plan takes manure alone already")
    without_feeds(raw, names=tuple(loaded.scenario.feed))
    for name, item in loaded.scenario.capital.items():
        if item.category == "feed":
            drop(raw, "capital", name)


def without_feeds(raw: Raw, *, names: tuple[str, ...]) -> None:
    """Leave out feeds by name, also from what partners bring."""
    for name in names:
        drop(raw, "feed", name)
    for partner in raw.get("partner", {}).values():
        brought = (each.strip() for each in partner.get("brings", "").split(","))
        partner["brings"] = ", ".join(each for each in brought if each not in names)


def resize_engines(raw: Raw, *, loaded: Loaded, factor: float) -> None:
    """Multiply the rated power of every engine by a factor [1], and capital of category engine by its power."""
    for name in loaded.scenario.engine:
        multiply(raw, loaded, f"engine.{name}.rated_kw", factor)
    for name, item in loaded.scenario.capital.items():
        if item.category == "engine":
            multiply(raw, loaded, f"capital.{name}.amount", factor**SIZE_EXPONENT)


def drop_grants(raw: Raw) -> None:
    """Leave out every grant; raises RiskError where there is none."""
    if not raw.get("grant"):
        raise RiskError("the plan has no grant")
    for name in tuple(raw["grant"]):
        drop(raw, "grant", name)


def shrink_grant(raw: Raw, *, loaded: Loaded) -> None:
    """Set the first public grant to the share with which the plan is worth nothing; raises RiskError where none is found."""
    found = least_grant(loaded)
    if not found.grant:
        raise RiskError("the plan has no public grant to change: write [grant.any_name]")
    share = next(target.share for target in found.targets if target.measure == "npv")
    if share is None:
        raise RiskError("no grant makes the plan worth at least nothing")
    drop(raw, "range", f"grant.{found.grant}.share_of_eligible")
    raw["grant"][found.grant] |= {"share_of_eligible": share, "at_most": NO_CEILING}


def sell_gas(raw: Raw, *, loaded: Loaded) -> None:
    """Send all gas to upgrading, at the cost in [instead]; raises RiskError with what is not given."""
    scenario = loaded.scenario
    asked = {
        "upgrading.contract_price_per_kwh": scenario.upgrading.contract_price_per_kwh,
        "upgrading.capacity_nm3_per_hour": scenario.upgrading.capacity_nm3_per_hour,
        "instead.upgrading_cost": scenario.instead.upgrading_cost,
    }
    if scenario.upgrading.takes != "nothing":
        raise RiskError("the plan sells gas already")
    _need(asked)
    raw["upgrading"] |= {"takes": "share_of_gas", "share_of_gas": 1.0}
    for name, item in scenario.capital.items():
        if item.category == "engine":
            drop(raw, "capital", name)
    raw.setdefault("capital", {})["upgrading_instead"] = _capital("Upgrading", scenario.instead.upgrading_cost)


def let_the_yard(raw: Raw, *, loaded: Loaded) -> None:
    """Nothing is built by the farm, rent is paid; raises RiskError where no rent is given."""
    instead = loaded.scenario.instead
    _need({"instead.rent_per_year": instead.rent_per_year})
    bare(raw, loaded=loaded)
    raw["other_income"] = {
        "rent": _income("Rent of the yard", instead.rent_per_year, "cash"),
        "digestate": _income("Digestate that comes back", instead.rent_digestate_value_per_year, "modelled_saving"),
    }


def only_one_thing(raw: Raw, *, loaded: Loaded, what: str, gain: str) -> None:
    """Nothing but a cover or a separator, as in [instead]; raises RiskError with what is not given."""
    given = loaded.scenario.instead.model_dump()
    _need({f"instead.{name}": given[name] for name in (f"{what}_cost", gain)})
    bare(raw, loaded=loaded)
    raw["capital"] = {what: _capital(what.capitalize(), given[f"{what}_cost"])}
    raw["other_income"] = {what: _income(f"Gain of the {what}", given[gain], "cash")}
    raw["running_cost"] = {what: {"label": f"Upkeep of the {what}", "per_year": given[f"{what}_upkeep_per_year"]}}


def refuse_sharing(raw: Raw, *, loaded: Loaded) -> None:
    """Say what sharing needs, or where its figures stand: a partner's part is no plan of its own."""
    if not loaded.scenario.partner:
        raise RiskError("no partner is given: write [partner.any_name] with its part of the plant and what it brings")
    raise RiskError(
        "the plan is shared already; what each partner puts in and gets stands in its own table of the results"
    )


def _need(asked: dict[str, float]) -> None:
    missing = [path for path, value in asked.items() if value == 0]
    if missing:
        raise RiskError(f"not given: {', '.join(missing)}")


def _capital(label: str, amount: float) -> dict[str, Any]:
    return {"label": label, "amount": amount, "contingency_share": 0.0}


def _income(label: str, per_year: float, counted_as: str) -> dict[str, Any]:
    return {"label": label, "per_year": per_year, "counted_as": counted_as}
