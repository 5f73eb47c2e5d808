"""Fields of a herd or feed that are worked out from others: a potential weighed with the laboratory, a methane share."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from appraisal.scenario.assumptions import Assumption
from appraisal.scenario.draft import Draft
from appraisal.scenario.locate import dotted
from appraisal.scenario.quantity import Declaration
from appraisal.scenario.weighing import Spread, of_range, of_tests, weighed
from appraisal.stoichiometry import Formula, methane_share, of_make_up, of_masses, products

POTENTIAL, SHARE = "potential_nm3_per_t_vs", "methane_share"
SHARES = ("fat_share_of_vs", "protein_share_of_vs", "carbohydrate_share_of_vs")
ELEMENTS = ("carbon_parts", "hydrogen_parts", "oxygen_parts", "nitrogen_parts", "sulphur_parts")
LAB = ("lab_mean_nm3_per_t_vs", "lab_sd_nm3_per_t_vs", "lab_tests", "lab_between_share")
METHOD = "weights 1/variance, normal errors (Gelman et al., Bayesian Data Analysis, from memory)"
BUSWELL = "Buswell and Mueller 1952, Boyle 1976, from memory"


def formula_of(item: Mapping[str, Any]) -> Formula | None:
    """The formula behind the composition of a herd or feed; None where it says nothing usable.

    item: field -> value. Shares count in proportion to their sum. None also where the formula would give no methane.
    """
    fields = _made_of(item)
    values = [item[name] for name in fields]
    whole = sum(values)
    if whole <= 0:
        return None
    if fields is SHARES:
        fat, protein, carbohydrate = (value / whole for value in values)
        return of_make_up(fat=fat, protein=protein, carbohydrate=carbohydrate)
    formula = Formula(*values)
    formula = of_masses(formula) if item["composition"] == "elements_by_mass" else formula
    made = products(formula)
    return formula if made.methane > 0 and made.carbon_dioxide >= 0 else None


def _made_of(item: Mapping[str, Any]) -> tuple[str, ...]:
    """The fields that the chosen composition is entered in."""
    return ELEMENTS if item["composition"].startswith("elements") else SHARES


def derive(fields: Mapping[str, Declaration], item: dict[str, Any], *, parts: tuple[str, ...], draft: Draft) -> None:
    """Work out the fields of a herd or feed that its choices want worked out, as soon as all they rest on is there.

    fields: declarations by name. item: field -> value. What the file itself gives is never replaced: that it is given
    besides is the fault of a check.
    """

    def ready(*names: str) -> bool:
        return all(dotted((*parts, name)) not in draft.doubtful and _fits(fields[name], item.get(name)) for name in names)

    if item.get("potential_from") == "lab_and_table" and ready(POTENTIAL, *LAB):
        _weigh(fields[POTENTIAL], item, path=dotted((*parts, POTENTIAL)), draft=draft)
    by_make_up = item.get("methane_share_from") == "composition" and ready("composition")
    if by_make_up and ready(*_made_of(item)):
        _take_share(fields[SHARE], item, path=dotted((*parts, SHARE)), draft=draft)


def _fits(field: Declaration, value: Any) -> bool:
    """Whether a value is one that its field accepts; the scenario's classes refuse all others, but only later."""
    if field.kind == "choice":
        return value in field.options
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return False
    return field.low is None or field.high is None or field.low <= value <= field.high


def _weigh(field: Declaration, item: dict[str, Any], *, path: str, draft: Draft) -> None:
    table = draft.assumptions[path]
    mean, sd, tests, between = (item[name] for name in LAB)
    if table.origin != "reference" or table.low is None or table.high is None or not (mean > 0 and sd > 0 and tests > 0):
        return
    row = of_range(middle=item[POTENTIAL], low=table.low, high=table.high)
    lab = of_tests(mean=mean, sd=sd, tests=tests, between_share=between)
    both = weighed(row, lab)
    source = f"{_words(row)} from {table.source}, {_words(lab)} from {tests} laboratory tests: {METHOD}"
    _put(field, both.mean, item=item, path=path, draft=draft, source=source, low=both.low(), high=both.high())


def _words(spread: Spread) -> str:
    return f"{spread.mean:.0f} +- {spread.sd:.0f}"


def _take_share(field: Declaration, item: dict[str, Any], *, path: str, draft: Draft) -> None:
    formula, known = formula_of(item), draft.assumptions.get(path)
    if formula is None or path in draft.doubtful or (known is not None and known.origin == "scenario"):
        return
    _put(field, methane_share(formula), item=item, path=path, draft=draft, source=f"stoichiometry: {BUSWELL}")


def _put(
    field: Declaration, value: float, *, item: dict[str, Any], path: str, draft: Draft, source: str,
    low: float | None = None, high: float | None = None,
) -> None:
    item[field.name] = value
    draft.assumptions[path] = Assumption(
        path=path, value=value, declaration=field, origin="computed", source=source, known="computed", low=low, high=high)
