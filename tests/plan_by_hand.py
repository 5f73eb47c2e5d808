"""One invented plan, its money worked out once more as an accountant would, month by month, with nothing of the package.

What the plant yields (energy, tonnes) and what running it costs are taken from the tool; contracts, grants, loans, tax and
measures are worked out here in plain Python and with numpy-financial.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy_financial as npf

YEARS, BUILD = 16, 12
MONTHS = 12 * YEARS
ITEMS: Mapping[str, Mapping[str, float]] = {  # cost, contingency, first month and months of payment
    "digester": {"amount": 900_000, "more": 0.10, "first": 0, "months": 12, "vat": 0.135},
    "engine_set": {"amount": 600_000, "more": 0.05, "first": 6, "months": 6, "vat": 0.135},
    "grid": {"amount": 100_000, "more": 0.20, "first": 9, "months": 3, "vat": 0.0},
}
VAT_BACK, VAT_AFTER = 0.9, 3
GRANT = {"share": 0.3, "first": 4, "every": 3, "kept": 0.1, "last": 17}
BRIDGE = {"share": 0.8, "rate": 0.08}
LEVEL = {"sum": 700_000, "rate": 0.06, "fixed": 5, "after": 0.08, "years": 12, "only": 12, "fee": 0.01}
EQUAL = {"sum": 180_000, "rate": 0.05, "years": 10, "only": 12, "every": 3}
TAX = {"rate": 0.24, "cap": 0.8, "credit": 0.1, "lowers": 0.5}
RATES = {"discount": 0.07, "finance": 0.06, "reinvest": 0.03}
MACRS_7 = (0.1429, 0.2449, 0.1749, 0.1249, 0.0893, 0.0892, 0.0893, 0.0446)
DECLINING = {"rate": 0.2, "years": 10}  # half-year rule, change to straight line
STRAIGHT_YEARS = 15
END_VALUE, REMOVAL = 50_000, 30_000  # of the digester, in today's money


def changes() -> dict[str, object]:
    """The same plan as changes in the dairy demo."""
    methods: Mapping[str, Mapping[str, object]] = {
        "digester": {"depreciation_method": "declining_balance", "depreciation_rate": DECLINING["rate"],
                     "depreciation_years": DECLINING["years"], "depreciation_switches": "yes",
                     "end_value": END_VALUE, "removal_cost": REMOVAL},
        "engine_set": {"depreciation_method": "table", "depreciation_share_by_year": list(MACRS_7),
                       "depreciation_years": 10},
        "grid": {"depreciation_years": STRAIGHT_YEARS},
    }  # fmt: skip
    capital = {
        name: {"amount": item["amount"], "contingency_share": item["more"], "first_month": int(item["first"]),
               "months": int(item["months"]), "sales_tax_rate": item["vat"], **methods[name]}
        for name, item in ITEMS.items()
    }  # fmt: skip
    return {
        "project": {"years": YEARS, "build_months": BUILD},
        "capital": {**capital, "reception": None, "engineering": None},
        "grant": {"state_energy": {
            "share_of_eligible": GRANT["share"], "at_most": 1e9, "paid": "by_claims", "first_claim_month": GRANT["first"],
            "claim_every_months": GRANT["every"], "retention_share": GRANT["kept"], "arrives_in_month": GRANT["last"]}},
        "loan": {
            "bank": {"amount": LEVEL["sum"], "rate": LEVEL["rate"], "rate_fixed_years": LEVEL["fixed"],
                     "rate_after": LEVEL["after"], "years": LEVEL["years"], "interest_only_months": LEVEL["only"],
                     "fee_share": LEVEL["fee"]},
            "second": {"amount": EQUAL["sum"], "rate": EQUAL["rate"], "years": EQUAL["years"],
                       "repayment": "equal_principal", "interest_only_months": EQUAL["only"],
                       "payment_every_months": EQUAL["every"]}},
        "funding": {"bridge": "until_grants", "bridge_share": BRIDGE["share"], "bridge_rate": BRIDGE["rate"]},
        "tax": {"rate": TAX["rate"], "losses": "carried_forward", "loss_use_at_most_share": TAX["cap"],
                "investment_credit": "against_tax", "investment_credit_rate": TAX["credit"],
                "credit_after_grants": "yes", "credit_lowers_basis_share": TAX["lowers"],
                "sales_tax": "counted", "sales_tax_recoverable_share": VAT_BACK, "sales_tax_refund_months": VAT_AFTER},
        "power": {"farm_use_matched_share": 0.3},  # so that power sold and power used are two things
        "judging": {f"{name}_rate": rate for name, rate in RATES.items()},
    }  # fmt: skip


Series = list[float]


def paid_for(name: str, month: int) -> float:
    """Payment for an item, with the sales tax that nobody gives back."""
    item = ITEMS[name]
    inside = item["first"] <= month < item["first"] + item["months"]
    return item["amount"] * (1 + item["more"]) * (1 + item["vat"] * (1 - VAT_BACK)) / item["months"] * inside


def cost_of(name: str) -> float:
    return sum(paid_for(name, month) for month in range(MONTHS))


def capital() -> Series:
    return [sum(paid_for(name, month) for name in ITEMS) for month in range(MONTHS)]


def sales_tax() -> Series:
    """Out with every payment, back three months later."""
    moves = [0.0] * MONTHS
    for item in ITEMS.values():
        part = item["amount"] * (1 + item["more"]) * item["vat"] * VAT_BACK / item["months"]
        for month in range(int(item["first"]), int(item["first"] + item["months"])):
            moves[month] -= part
            moves[month + VAT_AFTER] += part
    return moves


def grant() -> tuple[Series, Series]:
    """Received, and its bridge loan owed at the end of the month."""
    spent, whole = capital(), GRANT["share"] * sum(capital())
    got, owed, so_far = [0.0] * MONTHS, [0.0] * MONTHS, 0.0
    for month in range(MONTHS):
        if month == GRANT["last"]:
            got[month] = whole - so_far
        elif month < GRANT["last"] and month >= GRANT["first"] and (month - GRANT["first"]) % GRANT["every"] == 0:
            got[month] = GRANT["share"] * sum(spent[:month]) * (1 - GRANT["kept"]) - so_far
        so_far += got[month]
        if whole - so_far > 1e-6:
            owed[month] = BRIDGE["share"] * max(whole * sum(spent[: month + 1]) / sum(spent) - so_far, 0)
    return got, owed


def level_loan() -> tuple[Series, Series, Series]:
    """Interest, principal, owed: level monthly payments, the rate set anew after some years."""
    return _monthly_loan([x / sum(capital()) * LEVEL["sum"] for x in capital()])


def _monthly_loan(drawn: Sequence[float]) -> tuple[Series, Series, Series]:
    owed, interest, principal, closing = 0.0, [0.0] * MONTHS, [0.0] * MONTHS, [0.0] * MONTHS
    last = LEVEL["years"] * 12
    for month in range(MONTHS):
        rate = (LEVEL["rate"] if month < LEVEL["fixed"] * 12 else LEVEL["after"]) / 12
        if month < last:
            interest[month] = owed * rate
            if month >= LEVEL["only"]:
                principal[month] = -npf.pmt(rate, last - month, owed) - interest[month]
        owed += drawn[month] - principal[month]
        closing[month] = owed
    return interest, principal, closing


def equal_loan() -> tuple[Series, Series, Series, Series]:
    """Interest paid, principal, owed without and interest that runs up: the same principal every quarter."""
    drawn = [x / sum(capital()) * EQUAL["sum"] for x in capital()]
    owed, waiting, last = 0.0, 0.0, EQUAL["years"] * 12
    interest, principal, closing, cost = ([0.0] * MONTHS for _ in range(4))
    payments = (last - EQUAL["only"]) / EQUAL["every"]
    for month in range(MONTHS):
        cost[month] = owed * EQUAL["rate"] / 12 if month < last else 0.0
        waiting += cost[month]
        if (month + 1) % EQUAL["every"] == 0 and month < last:
            interest[month], waiting = waiting, 0.0
            principal[month] = EQUAL["sum"] / payments if month >= EQUAL["only"] else 0.0
        owed += drawn[month] - principal[month]
        closing[month] = owed
    return interest, principal, closing, cost


def by_year(series: Sequence[float]) -> Series:
    return [sum(series[12 * year : 12 * year + 12]) for year in range(YEARS)]


def tax_depreciation() -> tuple[Series, float, float]:
    """By year, the whole basis, and the investment credit: cost less grants, less half the credit."""
    not_granted = 1 - GRANT["share"]
    credit = sum(cost_of(name) for name in ITEMS) * not_granted * TAX["credit"]
    basis = {name: cost_of(name) * not_granted * (1 - TAX["credit"] * TAX["lowers"]) for name in ITEMS}
    written, start = [0.0] * YEARS, BUILD // 12
    left, years_left = basis["digester"], DECLINING["years"]
    for year in range(start, YEARS):
        part = 0.5 if year == start else 1.0  # the first year counts half
        this = min(left, left * max(DECLINING["rate"], 1 / years_left if years_left > 0 else 1) * part)
        written[year] += this
        left, years_left = left - this, years_left - part
    for year, share in enumerate(MACRS_7):
        written[start + year] += basis["engine_set"] * share
    for year in range(start, min(start + STRAIGHT_YEARS, YEARS)):
        written[year] += basis["grid"] / STRAIGHT_YEARS
    return written, sum(basis.values()), credit


def tax(profit: Sequence[float], credit: float) -> tuple[Series, Series]:
    """Tax due by year, and the credit used: losses carried forward, at most a share of a profit covered by them."""
    pool, credit_left, due, used = 0.0, 0.0, [], []
    for year, gained in enumerate(profit):
        old = min(pool, max(gained, 0) * TAX["cap"])
        pool += max(-gained, 0) - old
        before = (max(gained, 0) - old) * TAX["rate"]
        credit_left += credit if year == BUILD // 12 else 0.0
        used.append(min(credit_left, before))
        credit_left -= used[-1]
        due.append(before - used[-1])
    return due, used


def worth(flows: Sequence[float], rate: float) -> float:
    """Months dated, month 0 today."""
    return float(npf.npv((1 + rate) ** (1 / 12) - 1, list(flows)))
