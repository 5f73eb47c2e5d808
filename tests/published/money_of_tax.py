"""How the project's own lines answer the records on depreciation, tax and grants in the books.

The lines of the model are called as they stand, on their own sheet, with what the record gives; a record by years is put
into the last months of its years.
"""

from __future__ import annotations

from typing import Any

import numpy as np

from appraisal.cash_flow import (
    balance_sheet,
    dates,
    depreciation,
    income_statement,
    tax,
    tax_basis,
    tax_year,
)
from appraisal.measures.discounting import npv
from appraisal.scenario.reference import row
from tests.lines_alone import alone, by_year
from tests.published.money_figures import Values, flows


def depreciated(life: float, *, years: int, method: str = "declining_balance", **more: Any) -> dict[str, np.ndarray]:
    """The sheet of depreciation by tax year for an item used from month 0."""
    choices = {
        "capital_depreciation_method": method, "capital_depreciation_first_year": "half",
        "capital_depreciation_switches": "no", **{k: v for k, v in more.items() if isinstance(v, str)},
    }  # fmt: skip
    given = {
        "capital_depreciation_years": life, "capital_service_start": 0.0, "project_years": years,
        "tax_year_end_month": 12.0, "capital_depreciation_rate": 0.0, **{k: v for k, v in more.items() if not isinstance(v, str)},
    }  # fmt: skip
    return alone(depreciation, given=given, choices=choices, years=years, keep=("capital_share_written",))


def written(life: float, *, years: int, **more: Any) -> list[float]:
    """Part of the basis deducted in each tax year of use."""
    return [float(x) for x in depreciated(life, years=years, **more)["capital_year_share"][0]]


def macrs(life: int, factor: float) -> list[float]:
    """Declining balance at factor / life with the half-year rule and the change to straight line."""
    return written(life, years=life + 1, capital_depreciation_rate=factor / life, capital_depreciation_switches="yes")


def from_table(id: str, years: int) -> list[float]:
    """The same by a row of the reference table."""
    percent = [float(part) for part in row("depreciation", id)["year_percentages"].split(";")]
    shares = np.array([*percent, *[0.0] * (years - len(percent))]) / 100
    return written(0, years=years, method="table", capital_depreciation_share_by_year=shares)


def tables(i: Values) -> Values:
    factors = {name: float(method[:3]) / 100 for name, method in i["method"].items()}
    return {
        "percent": {name: [100 * x for x in from_table(f"macrs{name}", int(name) + 1)] for name in i["classes"]},
        "unrounded": {name: [100 * x for x in macrs(int(name), factors[name])] for name in i["classes"]},
    }


def seven_years(i: Values) -> Values:
    rate = 2 / i["life"]
    v = depreciated(i["life"], years=i["life"] + 1, capital_depreciation_rate=rate, capital_depreciation_switches="yes")
    level = v["capital_level_rate"][0]
    return {
        "depreciation": [i["cost"] * float(share) for share in v["capital_year_share"][0]],
        "switch_year": 1 + int(np.argmax(level > rate * (1 - 1e-12))),
    }


def part_year(i: Values) -> Values:
    """The rule rounds its rate to three decimals, which is the rate a user would then state."""
    rate = round(1 - (i["salvage"] / i["cost"]) ** (1 / i["life"]), 3)
    part = [i["months_first_year"] / 12, *[1.0] * (i["life"] - 1), 1 - i["months_first_year"] / 12]
    start = 12.0 - i["months_first_year"]
    shares = written(60, years=len(part), capital_depreciation_rate=rate, capital_service_start=start,
                     capital_depreciation_first_year="by_months")  # fmt: skip
    last = shares[-1] * part[-1]
    return {"rate_rounded_3dp": rate, "depreciation": [i["cost"] * x for x in (*shares[:-1], last)]}


def pool(i: Values) -> Values:
    """The old pool is past its first year; half of what is added counts in the year it is added."""
    first = written(60, years=2, capital_depreciation_rate=i["rate"])[0]
    whole = written(60, years=2, capital_depreciation_rate=i["rate"], capital_depreciation_first_year="whole")[0]
    claimed = i["opening_ucc"] * whole + i["additions"] * first
    return {"base": claimed / whole, "cca": claimed, "closing_ucc": i["opening_ucc"] + i["additions"] - claimed}


def shield(i: Values) -> Values:
    shares = written(60, years=120, capital_depreciation_rate=i["rate"])
    saved = flows([0.0, *(i["cost"] * i["tax"] * share for share in shares)])
    return {
        "pv_tax_shield": npv(saved, i["discount"], timing="end of year")[0],
        "first_three_cca": [i["cost"] * share for share in shares[:3]],
    }


def basis_of(cost: float, *, grants: float = 0.0, **more: Any) -> dict[str, np.ndarray]:
    """The sheet of the tax basis for one item paid in month 0."""
    spent, received = np.zeros(24), np.zeros(24)
    spent[0], received[0] = -cost, grants
    choices = {
        "tax_depreciation_reduced_by_grants": "yes", "tax_investment_credit": "none", "tax_credit_after_grants": "yes",
        **{k: v for k, v in more.items() if isinstance(v, str)},
    }  # fmt: skip
    given = {
        "investment": spent, "capital_spend": spent, "grants": received, "capital_credit_share": 1.0, "capital_amount": cost,
        "tax_investment_credit_rate": 0.0, "tax_credit_lowers_basis_share": 0.5,
        **{k: v for k, v in more.items() if not isinstance(v, str)},
    }  # fmt: skip
    return alone(tax_basis, given=given, choices=choices, years=2, keep=("capital_basis", "capital_credit"))


def credit_and_basis(i: Values) -> Values:
    v = basis_of(i["cost"], tax_investment_credit="against_tax", tax_investment_credit_rate=i["itc_rate"])
    basis = v["capital_basis"][0, 0]
    return {
        "itc": v["capital_credit"][0, 0],
        "depreciable_basis": basis,
        "depreciation": [basis * share for share in from_table("macrs5", 6)],
    }


def straight_line(basis: float, life: float, years: int) -> list[float]:
    """Yearly sums of straight-line depreciation, as positive amounts."""
    v = alone(
        depreciation,
        given={"capital_basis": basis, "capital_service_part": np.where(np.arange(years * 12) < life * 12, 1.0, 0.0),
               "capital_depreciation_years": life},
        choices={"capital_depreciation_method": "straight_line"}, years=years, keep=("capital_depreciation",),
    )  # fmt: skip
    return [-x for x in by_year(v["capital_depreciation"])]


def grant_netted(i: Values) -> Values:
    net = basis_of(i["cost_ex_vat"], grants=i["grant"])["capital_basis"][0, 0]
    gross = basis_of(i["cost_ex_vat"], grants=i["grant"], tax_depreciation_reduced_by_grants="no")["capital_basis"][
        0, 0
    ]
    life = 1 / i["rate"]
    allowances = straight_line(net, life, 10)
    saved = flows([0.0, *(i["tax_rate"] * each for each in allowances)])
    return {
        "qualifying_cost": net,
        "annual_allowance": allowances[0],
        "years": sum(each > 0 for each in allowances),
        "pv_tax_saving": npv(saved, i["discount"], timing="end of year")[0],
        "wrong_if_gross": straight_line(gross, life, 10)[0],
    }


def losses(i: Values) -> Values:
    names = ("operating_result", "overhauls_paid", "depreciation", "grants_taxed", "disposals", "basis_left_at_end",
             "interest_cost", "fees_paid", "bridge_interest_paid")  # fmt: skip
    given: Values = {name: np.zeros(36) for name in names} | {"tax_loss_use_at_most_share": i["cap"]}
    given |= {"tax_year_first_month": 0.0, "project_years": 3.0}
    given["operating_result"][11::12] = i["income"]
    choices = {"tax_losses": "carried_forward"}
    v = alone(dates, tax_year, tax, given=given, choices=choices, years=3, keep=("taxed", "loss_pool"))
    return {
        "nol_used": v["loss_used"][0].tolist(),
        "taxable_income": v["taxed"][0].tolist(),
        "nol_left": v["loss_pool"][0, -1],
    }


def grant_in_books(i: Values) -> Values:
    """The plant is paid and granted in month 0 and used from then on; figures at the end of the first year."""
    months = i["life"] * 12
    spent, received = np.zeros(months), np.zeros(months)
    spent[0], received[0] = -i["cost"], i["grant"]
    written_off = np.full(months, -i["cost"] / months)
    shown = {}
    for how in ("off_the_plant", "as_owed_income"):
        shown[how] = alone(
            income_statement, balance_sheet,
            given={"capital_written_off": written_off, "grants": received, "investment": spent, "building_cost": i["cost"],
                   "last_month": 0.0, "plant_goes": 0.0, "closed": 0.0, "written_off_at_end": np.zeros(months)},
            choices={"funding_grants_shown": how}, years=i["life"],
            keep=("grants_earned", "grants_off_assets", "plant_in_books", "written_off"),
        )  # fmt: skip
    net, gross = shown["off_the_plant"], shown["as_owed_income"]
    off = -by_year(gross["written_off"])[0], by_year(gross["grants_earned"])[0]
    return {
        "net_method": {
            "annual_depreciation": off[0] - off[1],
            "year1_carrying": (net["plant_in_books"] - net["grants_off_assets"])[0, 11],
        },
        "deferred_income_method": {
            "annual_depreciation": off[0],
            "annual_release": off[1],
            "year1_asset": (gross["plant_in_books"] - gross["grants_off_assets"])[0, 11],
            "year1_deferred_income": (gross["grants_not_earned"] - gross["grants_off_assets"])[0, 11],
        },
        "profit_effect_each_year": off[1] - off[0],
    }
