"""The unit of every measure in the JSON object, and from which side it is counted."""

from __future__ import annotations

from collections.abc import Mapping

from appraisal.measures.headline import VIEW
from appraisal.measures.views import TIMING

MONEY, YEARLY, PER_KWH = "money", "money/year", "money/kWh"
BEFORE = f"project, before tax, nominal, {TIMING}"
COST = f"project, before tax and grants, nominal, {TIMING}"
SIDE = "as the view says"
COVER = "the plan's loans, after tax, nominal, by project year, full operating years"
BUILDING = "the plan's loans and grants, nominal, while building"
OWNER = f"owner, after tax, nominal, {TIMING}"
ACCOUNT = "owner, after tax, nominal, end of the month, from nothing at the start"
FARM = "whole farm, after tax, nominal, in the year named"
Notes = Mapping[str, tuple[str, str]]

HEADLINE: Notes = {
    "npv": (MONEY, VIEW),
    "irr": ("1/year", VIEW),
    "mirr": ("1/year", VIEW),
    "payback_years": ("year", VIEW),
    "discounted_payback_years": ("year", VIEW),
    "levelised_cost_per_kwh": (PER_KWH, f"{COST}; over power sold and used on the farm"),
    "benefit_cost_ratio": ("1", f"{VIEW}; grants are benefits, tax is a cost"),
    "dscr_min": ("1", COVER),
    "dscr_average": ("1", COVER),
}
VIEWS: Notes = {
    "discount_rate": ("1/year", SIDE),
    "npv": (MONEY, SIDE),
    "npv_year_end": (MONEY, "as the view says, but the flows of each project year after the first at its end"),
    "equivalent_annual_value": (YEARLY, "as the view says; equal amounts at the ends of the years"),
    **dict.fromkeys(("irr", "mirr"), ("1/year", SIDE)),
    **dict.fromkeys(("payback_years", "discounted_payback_years"), ("year", SIDE)),
}
UNIT_COSTS: Notes = {
    "gross_sold": (PER_KWH, f"{COST}; all costs over power sold"),
    "gross_used": (PER_KWH, f"{COST}; all costs over power sold and used on the farm"),
    "net_sold": (PER_KWH, f"{COST}; less all income and savings but those of power, over power sold"),
    "net_used": (PER_KWH, f"{COST}; less all income and savings but those of power, over power sold and used on the farm"),
}
RATIOS: Notes = {
    "benefit_cost_all_costs_below": ("1", f"{BEFORE}; grants are benefits, every cost in the divisor"),
    "benefit_cost_capital_below": ("1", f"{BEFORE}; grants are benefits, running costs and overhauls taken off them"),
    "savings_to_investment": ("1", f"{BEFORE}; overhauls and end value with the capital, grants taken off it"),
    "net_savings": (MONEY, f"{BEFORE}; as savings to investment"),
    "adjusted_rate_of_return": ("1/year", f"{BEFORE}; as savings to investment"),
    "regulatory_payback_years": (
        "year", "project, before tax, grants and running costs, nominal; eligible cost over the first full year's energy and "
        "by-products without credits (own definition)"),
}  # fmt: skip
BANK: Notes = {
    "cover": ("1", "as assumed, with the family's hours paid, on signed contracts only; after tax, nominal, by project year"),
    "least": ("1", f"{COVER}; the least, its year and the plain mean"),
    "least_with_overhaul_reserve": ("1", f"{COVER}; as if overhauls were saved for three years ahead"),
    "part_year": ("1", "after tax, nominal, years with debt that are no full operating years"),
    "least_over_twelve_months": ("1", "after tax, nominal, any twelve months in a row of full operation"),
    "llcr": ("1", "after tax, nominal, at the loans' rates from the first full operating year on, over the years of the loans"),
    "plcr": ("1", "after tax, nominal, at the loans' rates from the first full operating year on, over all years"),
    "signed_share_of_income": ("share", "cash income by project year, nominal"),
    "tests": (YEARLY, "what a lender's order would do with the cash of each project year, after tax, nominal; cover [1], balance "
                      "[money] at the year's end"),
}  # fmt: skip
STOP: Notes = {
    "owed_at_year_end": (MONEY, "owner, before tax, nominal, at the end of each project year"),
    "losing_to_year": ("year", "project, before tax and loans, nominal; second of the first two losing years in a row"),
    **dict.fromkeys(("npv_running_on", "npv_stopping"), (MONEY, VIEW)),
    **dict.fromkeys(("owner_running_on", "owner_stopping"), (MONEY, OWNER)),
}
WHOLE_FARM: Notes = {
    **dict.fromkeys(("capacity", "margin"), (YEARLY, FARM)),
    **dict.fromkeys(("term_debt_coverage", "debt_to_assets", "current_ratio"), ("1", FARM)),
}
FAMILY: Notes = {
    "lowest_balance": (MONEY, ACCOUNT),
    "worst_month_of_full_operation": (MONEY, "owner, after tax, nominal, one month; what is put by is left out"),
    "worst_month_of_running": (MONEY, "project, before tax and loans, nominal, one month"),
    "hours": ("hour/year", "by project year"),
    "family_hours_at_hired_wage": (YEARLY, "before tax, nominal, by project year; in no total"),
}
FUNDING: Notes = {"uses": (MONEY, BUILDING), "sources": (MONEY, BUILDING)}
SERIES: Notes = {
    "yearly": (YEARLY, "nominal, by project year, inflow positive; dscr [1]"),
    "counted_by": (YEARLY, "before tax, nominal, by project year"),
    "statements": (YEARLY, "nominal, by project year; balances [money] at the year's end"),
}
SECTIONS: Mapping[str, Notes] = {
    "measures": HEADLINE,
    "views": VIEWS,
    "unit_costs": UNIT_COSTS,
    "ratios": RATIOS,
    "bank": BANK,
    "stop": STOP,
    "whole_farm": WHOLE_FARM,
    "family": FAMILY,
    "funding": FUNDING,
}


def measure_units(currency: str) -> dict[str, dict[str, str]]:
    """Unit and side of every measure, by its path in the JSON object; `cautious` follows `measures`.

    currency: name of the scenario's money, which stands in the units.
    """
    named = {f"{section}.{name}": note for section, notes in SECTIONS.items() for name, note in notes.items()}
    return {
        path: {"unit": unit.replace(MONEY, currency), "counted": side.replace("[money]", f"[{currency}]")}
        for path, (unit, side) in {**named, **SERIES}.items()
    }
