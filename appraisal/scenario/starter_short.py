"""The starter file a family fills in at the kitchen table: what only they can know, in the order of the farm.

Values and words come from the full starter and the declarations; only the choice of fields stands here.
"""

from __future__ import annotations

import inspect
from collections.abc import Iterator, Mapping

from appraisal.scenario.draft import Draft
from appraisal.scenario.fill import fill
from appraisal.scenario.model import SectionPlace, declared, sections
from appraisal.scenario.quantity import Declaration
from appraisal.scenario.schema import when_left_out
from appraisal.scenario.starter import commented, examples, head, nested, numbers_and_units, title, toml
from appraisal.scenario.starter_examples import DisplayUnits, Written

# Section or item -> its fields in the order asked. What is no example of the full starter stands behind #.
ASKED: Mapping[str, tuple[str, ...]] = {
    "project": ("name", "currency", "display_units", "first_month", "build_months", "years"),
    "farm_now": (
        "power_kwh", "power_bill", "power_bill_energy_share", "heating_fuel_kwh", "heating_fuel_bill",
        "fertilizer_n_kg", "fertilizer_p_kg", "fertilizer_k_kg", "fertilizer_bill", "bedding_t", "bedding_bill",
    ),
    "site": ("climate",),
    "herd.cows": ("animal", "like", "head", "collected_share", "wash_water_l_per_head_day", "store_2006"),
    "feed.whey": (
        "like", "tonnes_per_year", "supply_by", "contract_years", "share_after_contract", "gate_fee_per_t",
        "haul_cost_per_t",
    ),
    "digester": ("kind", "active_volume_m3", "temperature_degc", "heat_loss_w_per_k"),
    "pasteuriser": ("treats",),
    "cleaning": ("air", "iron"),
    "engine.main": ("rated_kw", "maintenance_per_kwh", "top_end_cost", "major_cost"),
    "heat": ("house_kwh", "barn_kwh", "backup_fuel_price_per_kwh"),
    "power": (
        "contract_price_per_kwh", "contract_years", "market_price_per_kwh", "farm_use_matched_share",
        "bought_price_per_kwh",
    ),
    "fertilizer": ("n_price_per_kg", "p_price_per_kg", "k_price_per_kg"),
    "crop.grass": ("like", "area_ha"),
    "labour": ("family_hours_per_week", "hired_hours_per_week", "hired_wage_per_hour"),
    "running_cost.insurance": ("label", "per_year"),
    "capital.plant": ("label", "amount", "contingency_share"),
    "grant.public": ("label", "share_of_eligible"),
    "loan.bank": ("label", "amount", "rate", "years"),
    "tax": ("rate", "rate_year"),
    "judging": ("discount_rate", "least_cover", "own_money_amount"),
}
PREFACE = (
    "The short form: what only your farm can know. The farm in it is invented: overwrite the values with your own.",
    "All else stands at a published or usual figure; `appraisal check FILE --values` lists each with its source, and"
    " `appraisal new FILE --all` writes a file with every input there is. Any of them may be added here.",
)
AGAIN = "More than one: copy the lines under a name of your own, as [{table}.second]."


def starter_short(*, currency: str = "USD", display_units: DisplayUnits = "us") -> str:
    """The text of a scenario file with the few values a family must give; it loads as it stands.

    Parameters
    ----------
    currency : three capital letters, the money of all amounts.
    display_units : "metric" or "us", for the units in the examples and for what is shown.

    Raises
    ------
    ScenarioError
        The currency is not three capital letters.
    """
    known = examples(currency=currency, display_units=display_units)
    asked = {f"{table}.{name}" for table, names in ASKED.items() for name in names}
    given = {path: value for path, value in known.items() if path in asked}
    draft = fill(nested(given))
    places = {place.name: place for place in sections()}
    blocks = [head((*PREFACE, *numbers_and_units()))]
    blocks += ["\n".join(_block(places[table.partition(".")[0]], table, given, draft=draft)) for table in ASKED]
    return "\n".join(blocks)


def _block(place: SectionPlace, table: str, given: Mapping[str, Written], *, draft: Draft) -> Iterator[str]:
    yield from title(inspect.getdoc(place.section) or "")
    if place.named:
        yield from commented(AGAIN.format(table=place.name))
    yield f"[{table}]"
    for name in ASKED[table]:
        item = declared()[f"{place.name}.*.{name}" if place.named else f"{place.name}.{name}"]
        yield from _field(item, given.get(f"{table}.{name}"), table=table, draft=draft)
    yield ""


def _field(item: Declaration, given: Written | None, *, table: str, draft: Draft) -> Iterator[str]:
    """A given value with its meaning; else the value in use behind #, with where it comes from."""
    words = [f"{item.label}{f' ({item.allowed()})' if item.kind != 'text' else ''}.", item.help]
    if given is None:
        in_use = draft.assumptions.get(f"{table}.{item.name}")
        value = in_use.value if in_use is not None else "" if item.default is None else item.default
        yield from commented(" ".join(filter(None, [*words, when_left_out(item)])))
        yield f"# {item.name} = {toml(value)}"
    else:
        yield from commented(" ".join(filter(None, words)))
        yield f"{item.name} = {toml(given)}"
