"""The material of a demo, worked out once for all tests of a run, and a scenario whose every text looks like a formula."""

from __future__ import annotations

import tomllib
from functools import cache

import tomlkit

from appraisal.demos import demos
from appraisal.risk.material import Material, material
from appraisal.scenario.load import Loaded, load, loads
from appraisal.scenario.model import declared

DEMOS = tuple(demos())
STARTS = ("=1+1", "+cmd", "-2+3", "@SUM(1)", "\tx", "\rx")
EVIL = '=HYPERLINK("http://x","y")'


@cache
def material_of(demo: str) -> Material:
    """Material of a demo."""
    return material(load(demos()[demo]))


def free_texts(loaded: Loaded) -> list[str]:
    """Paths of all free texts of a scenario that may hold anything: no name of a row, no date, no currency."""
    return [
        path
        for path, each in loaded.assumptions.items()
        if each.declaration.kind == "text" and each.declaration.name in FREE
    ]


FREE = {
    item.name
    for item in declared().values()
    if item.kind == "text"
    and item.name
    in ("label", "name", "note", "supplier", "evidence", "own_money_evidence", "legal_form", "address", "site_address",
        "register_number", "contact", "programme", "need", "done_when", "what_helps", "who", "gas_cut_reason",
        "engineer", "gas_supplier", "number")
}  # fmt: skip


@cache
def bare() -> Material:
    """The small herd with nothing paid for, no grant, no loan and no range."""
    text = demos()["small_herd_manure_only"].read_text(encoding="utf-8")
    tables = tomllib.loads(text)
    for name in ("capital", "grant", "loan", "range", "correlation", "stress", "source"):
        tables.pop(name, None)
    return material(loads(tomlkit.dumps(tables)))


@cache
def evil() -> Material:
    """The shared plant with a text that looks like a formula in every free text field, and in sources, reasons and cases."""
    tables = tomllib.loads(demos()["shared_plant_three_farms"].read_text(encoding="utf-8"))
    tables["milestone"]["evil"] = {"month": 3}
    tables["concern"]["six_months_late"] = {"chance": "low"}
    tables["source"]["capital.tanks.amount"] = {"origin": EVIL, "known": "quote", "date": "2026-11"}
    tables["stress"] = {"own": {"label": EVIL, "reason": "@SUM(1)", "times": {"capital.tanks.amount": 1.3}}}
    for each in tables["range"].values():
        each["reason"] = "+cmd"
    starts = (*(start for start in STARTS if start != "\rx"), EVIL)  # the loader refuses the last
    for place, path in enumerate(free_texts(loads(tomlkit.dumps(tables)))):
        *parts, name = path.split(".")
        holder = tables
        for part in parts:
            holder = holder.setdefault(part, {})
        holder[name] = starts[place % len(starts)]
    return material(loads(tomlkit.dumps(tables)))
