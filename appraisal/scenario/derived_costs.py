"""Costs taken from a reference table because the file asks for it, each brought to the scenario's today with its words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from appraisal.errors import AppraisalError, Fault
from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.draft import Draft, stand_in
from appraisal.scenario.faults import one_line
from appraisal.scenario.locate import dotted
from appraisal.scenario.quantity import Declaration
from appraisal.scenario.reference import Figure, figure, interpolated, row
from appraisal.scenario.todays_money import brought

SHARES_OF_NEW = {"top_end_cost": "top_end_cost_share_of_new_mid", "major_cost": "major_cost_share_of_new_mid"}


def today_of(project: Mapping[str, Any]) -> int | None:
    """Year of the scenario's money: the one it names, else that of its first month; None where neither can be read."""
    if project.get("price_year"):
        return int(project["price_year"])
    year = str(project.get("first_month", ""))[:4]
    return int(year) if year.isdecimal() else None


def factor_of(found: Figure, *, place: str, project: Mapping[str, Any]) -> tuple[float, str]:
    """What a table's money figure is multiplied by to be the scenario's today [1], and the chain in words.

    project: currency, first_month, price_year and inflation of the scenario. Raises NotBroughtError with what is missing.
    """
    if found.currency is None or found.price_year is None:
        return 1.0, "no currency"
    chain = brought(
        currency=found.currency, year=found.price_year, place=place, to_currency=str(project["currency"]),
        to_year=today_of(project) or 0, inflation=float(project["inflation"]))
    return chain.factor, chain.words


def derive_costs(
    fields: Mapping[str, Declaration], item: dict[str, Any], *, parts: tuple[str, ...], draft: Draft,
) -> None:
    """Fill the costs that an item wants from a table: a capital item `like` a row, an engine with `costs_from = "table"`.

    fields: declarations by name. item: field -> value. What the file gives is kept. A cost that cannot be brought to today's
    money is refused with what is missing.
    """
    if parts[0] == "capital" and item.get("like") and "amount" not in item:
        _put(fields["amount"], "like", item, parts=parts, draft=draft)
    if parts[0] == "engine" and item.get("costs_from") == "table":
        for name in ("maintenance_per_kwh", *(SHARES_OF_NEW if item.get("maintenance") == "routine" else ())):
            known = draft.assumptions.get(dotted((*parts, name)))
            if known is None or known.origin != "scenario":
                _put(fields[name], "costs_from", item, parts=parts, draft=draft)


def _put(field: Declaration, asked_by: str, item: dict[str, Any], *, parts: tuple[str, ...], draft: Draft) -> None:
    path = dotted((*parts, field.name))
    if dotted((*parts, asked_by)) in draft.doubtful or {"project.currency", "project.first_month"} & draft.doubtful:
        item[field.name] = stand_in(field)
        draft.doubtful.add(path)
        return
    try:
        found, times, place = (_capital(item) if parts[0] == "capital" else _engine(item, field.name))
        factor, words = factor_of(found, place=place, project=draft.content["project"])
    except AppraisalError as error:
        draft.refuse(Fault(path, one_line(str(error)), hint=f"give {field.name} yourself"))
        item[field.name] = stand_in(field)
        return
    low, high = (None if end is None else end * times * factor for end in (found.low, found.high))
    item[field.name] = found.value * times * factor
    draft.assumptions[path] = Assumption(
        path=path, value=item[field.name], declaration=field, origin="computed", known=found.basis, low=low, high=high,
        source=f"{found.value:g} {found.unit} (table {found.table}, row {found.id}) x {times:g}; {words}; {found.source}")


def _capital(item: Mapping[str, Any]) -> tuple[Figure, float, str]:
    line, found = row("capital_costs", item["like"]), figure("capital_costs", item["like"], "mid")
    if found.unit.startswith("%") or found.currency is None:
        raise AppraisalError(f"row {found.id} is in {found.unit}, which is no cost of its own")
    return found, float(item["size"]), line["country"]


def _engine(item: Mapping[str, Any], name: str) -> tuple[Figure, float, str]:
    """The figure of one engine cost, what it is multiplied by to be in the field's unit, and its place."""
    size = float(item["rated_kw"])
    if name == "maintenance_per_kwh":
        return interpolated("engines", f"maintenance_{item['maintenance']}_per_kwh_mid", at=size), 1.0, ""
    share = interpolated("engines", SHARES_OF_NEW[name], at=size).value
    return interpolated("engines", "installed_cost_per_kw_mid", at=size), share * size, ""
