"""The parts of a scenario in the words of a farm: which sections belong together, and what is shown of them at first."""

from __future__ import annotations

import inspect
from collections.abc import Mapping
from dataclasses import dataclass

from appraisal.scenario.model import SectionPlace, sections

GROUPS: Mapping[str, tuple[str, ...]] = {
    "Name and time": ("project",),
    "The farm today": ("farm_now", "whole_farm"),
    "Animals": ("herd",),
    "Feeds brought in": ("feed",),
    "Place and digester": (
        "site", "digester", "shell", "pasteuriser", "start_up", "upset", "recirculation", "clean_out"),
    "Gas, engine and heat": ("engine", "gas", "cleaning", "upgrading", "boiler", "heat", "own_use"),
    "Power sold": ("power", "grid", "other_income"),
    "Digestate and land": ("land", "crop", "fertilizer", "store", "separation"),
    "Climate and credits": ("emissions", "credits", "carbon_claim"),
    "Work and running costs": ("labour", "task", "running_cost"),
    "What is built, who pays": ("capital", "grant", "loan", "partner", "funding", "tax"),
    "What you ask of it": ("judging", "claims", "instead"),
    "For the papers": ("emergency", "applicant", "milestone", "concern"),
}  # fmt: skip
OTHERS = "Everything else"
TITLES: Mapping[str, str] = {
    "project": "The plan", "farm_now": "What the farm buys in a year", "whole_farm": "The accounts of the whole farm",
    "herd": "Animals", "feed": "Leftovers and crops brought to the digester", "site": "Where it stands",
    "digester": "The digester", "shell": "Walls, floor and roof of the tank", "pasteuriser": "Heating for hygiene",
    "start_up": "The first months", "upset": "If the tank turns sour", "recirculation": "Liquid that goes back",
    "clean_out": "Cleaning the tank out", "engine": "Engine sets", "gas": "Gas store and flare",
    "cleaning": "Taking sulphur out of the gas", "upgrading": "Selling gas in place of power", "boiler": "Boiler on gas",
    "heat": "Heat for house, barn and others", "own_use": "Power the plant itself uses", "power": "Power contract",
    "grid": "Grid connection", "other_income": "Other income", "land": "Land for spreading", "crop": "Crops on that land",
    "fertilizer": "What the fertilizer is worth", "store": "Store for digestate", "separation": "Separator",
    "emissions": "What is counted against the climate", "credits": "Carbon credits", "carbon_claim": "Other claims",
    "labour": "Work", "task": "Jobs", "running_cost": "Running costs", "capital": "What is built",
    "partner": "Partners in a shared plant", "grant": "Grants", "loan": "Loans", "funding": "Money in between", "tax": "Tax",
    "judging": "Your own limits", "claims": "What may be said", "instead": "What else could be done", "applicant": "Who applies",
    "emergency": "Whom to call in an emergency", "milestone": "Steps with a date", "concern": "What you worry about",
}  # fmt: skip
FIRST: Mapping[str, tuple[str, ...]] = {
    "project": ("name", "note", "first_month", "years", "build_months", "currency"),
    "farm_now": ("power_kwh", "power_bill", "heating_fuel_bill", "fertilizer_bill"),
    "herd": ("animal", "like", "head", "collected_share"),
    "feed": ("like", "tonnes_per_year", "supply_by", "contract_years", "share_after_contract", "gate_fee_per_t"),
    "site": ("climate",), "digester": ("kind", "active_volume_m3", "temperature_degc"), "pasteuriser": ("treats",),
    "engine": ("rated_kw", "availability", "maintenance", "maintenance_per_kwh"), "heat": ("house_kwh", "barn_kwh"),
    "power": ("contract_price_per_kwh", "contract_years", "market_price_per_kwh", "farm_use_matched_share",
              "bought_price_per_kwh"),
    "land": ("own_ha",), "credits": ("programme",), "labour": ("family_hours_per_week", "hired_hours_per_week"),
    "running_cost": ("label", "per_year"), "capital": ("label", "amount", "contingency_share"),
    "grant": ("label", "share_of_eligible", "amount"), "loan": ("label", "amount", "rate", "years"),
    "tax": ("rate", "rate_year", "losses"), "judging": ("discount_rate", "least_cover"),
}  # fmt: skip
TABLES: Mapping[str, Mapping[str, tuple[str, int]]] = {  # field -> its short head and its width [px]; all fits 1280 px
    "feed": {"like": ("like", 118), "tonnes_per_year": ("", 142), "supply_by": ("who decides", 112),
             "contract_years": ("sure,", 98), "share_after_contract": ("after it,", 92), "gate_fee_per_t": ("fee,", 166)},
    "capital": {"label": ("what it is", 236), "category": ("kind", 100), "amount": ("cost,", 112),
                "contingency_share": ("contingency,", 138), "estimate": ("estimate", 108)},
    "running_cost": {"label": ("what it is", 260), "per_year": ("fixed,", 170), "per_t_fed": ("fed,", 170)},
}  # fmt: skip
NAME_WIDTH = 86


@dataclass(frozen=True)
class Part:
    """One section under its plain title."""

    place: SectionPlace
    title: str


def groups() -> Mapping[str, tuple[Part, ...]]:
    """All sections by group, in the order they are asked; a section that no group names stands in the last one."""
    known = {place.name: Part(place, title_of(place)) for place in sections()}
    found = {title: tuple(known.pop(name) for name in names if name in known) for title, names in GROUPS.items()}
    return {**found, OTHERS: tuple(known.values())} if known else found


def title_of(place: SectionPlace) -> str:
    """The plain title of a section."""
    return TITLES.get(place.name) or (inspect.getdoc(place.section) or place.name).split(".")[0]
