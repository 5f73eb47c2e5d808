"""Does the sum add up? Each check is a difference that must be nothing, with the month or year in which it is largest."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from appraisal.errors import Finding
from appraisal.lines.evaluate import MONTHS, year_sum
from appraisal.measures.arrays import FloatArray
from appraisal.measures.bank_view import lenders_order
from appraisal.measures.discounting import npv
from appraisal.measures.returns import irr

Values = Mapping[str, FloatArray]
LIMIT = 1e-6  # of the largest amount the check is about; the arithmetic itself is good to about 1e-12
Difference = tuple[FloatArray, FloatArray]


@dataclass(frozen=True)
class Checked:
    """One check of one case: what must hold, the largest difference [unit], what it may be, and where it lies.

    period: month or year of the largest difference, counted from 0, None for a figure of the whole project.
    """

    name: str
    what: str
    difference: float
    limit: float
    unit: str
    period: int | None

    @property
    def passed(self) -> bool:
        """Whether the difference is within its limit."""
        return self.difference <= self.limit


def checks(values: Values) -> tuple[Checked, ...]:
    """Every check of the first draw.

    values: lines and inputs by full name.
    """
    return tuple(_checked(name, what, unit, of(values)) for name, what, unit, of in CHECKS)


def failures(made: tuple[Checked, ...], unit: str) -> Iterator[Finding]:
    """A finding for every check that fails; unit: the currency."""
    for each in made:
        if not each.passed:
            yield Finding(
                f"checks.{each.name}",
                f"The sum does not add up: {each.what} is missed by {each.difference:,.2f} {each.unit}.",
                "stop and ask",
                each.difference,
                each.limit,
                unit if each.unit == "money" else each.unit,
                "arithmetic",
            )


def _checked(name: str, what: str, unit: str, pair: Difference) -> Checked:
    gap, size = (np.atleast_1d(array[:1].ravel()) for array in pair)
    worst = int(np.abs(gap).argmax())
    limit = LIMIT * max(float(np.abs(size).max()), 1e-9)
    return Checked(name, what, float(np.abs(gap[worst])), limit, unit, worst if gap.size > 1 else None)


def _balance(v: Values) -> Difference:
    return v["assets"] - v["debts"] - v["equity"], v["assets"]


def _debt_at_end(v: Values) -> Difference:
    owed = v["loans_owed"] + v["bridge_owed_in_books"]
    return owed[:, -1:], np.maximum(owed, v["building_cost"])


def _debt_not_negative(v: Values) -> Difference:
    return np.minimum(v["loans_owed"], 0.0), np.maximum(v["loans_owed"], v["building_cost"])


def _uses_and_sources(v: Values) -> Difference:
    return v["uses_less_sources"], v["uses_of_funds"]


def _depreciation(v: Values) -> Difference:
    taken = -(v["depreciation"] + v["basis_left_at_end"]).sum(axis=1, keepdims=True)
    return taken - v["depreciation_basis"], np.maximum(v["depreciation_basis"], 1.0)


def _books(v: Values) -> Difference:
    off = -(v["written_off"] + v["written_off_at_end"]).sum(axis=1, keepdims=True)
    return off - v["building_cost"], np.maximum(v["building_cost"], 1.0)


def _grants(v: Values) -> Difference:
    earned, received = (v[name].sum(axis=1, keepdims=True) for name in ("grants_earned", "grants"))
    return earned - received, np.maximum(received, 1.0)


def _profit_to_cash(v: Values) -> Difference:
    """Every step from profit to cash (bridge table), against the cash itself."""
    steps = sum(sign * v[name] for _, names in BRIDGE for name, sign in names)
    return np.asarray(steps - v["net_cash"]), np.abs(v["net_cash"])


def _tax(v: Values) -> Difference:
    paid, due = v["taxes"].sum(axis=1, keepdims=True), v["tax_due"].sum(axis=1, keepdims=True)
    return paid - due, np.maximum(np.abs(due), 1.0)


def _years(v: Values) -> Difference:
    months, years = v["net_cash"].sum(axis=1, keepdims=True), year_sum(v["net_cash"]).sum(axis=1, keepdims=True)
    return months - years, np.abs(v["net_cash"]).sum(axis=1, keepdims=True)


def _time_only(v: Values) -> Difference:
    """Sales tax, working capital, reserves and bridge move money in time and leave nothing."""
    names = (
        "sales_tax_moves",
        "working_capital_moves",
        "debt_reserve_moves",
        "overhaul_reserve_moves",
        "lock_up_moves",
        "bridge_moves",
    )
    left = np.concatenate(
        [np.broadcast_to(v[n].sum(axis=1, keepdims=True), (v[n].shape[0], 1))[:1] for n in names], axis=1
    )
    return left, np.abs(v["investment"]).sum(axis=1, keepdims=True) + np.abs(v["net_cash"]).max()


def _power(v: Values) -> Difference:
    return v["power_sold"] + v["power_to_farm"] + v["power_own_use"] - v["power_gross"], v["power_gross"]


def _power_money(v: Values) -> Difference:
    return v["power_paid_for"] * v["power_price"] - v["power_sales"], v["power_sales"]


def _gas(v: Values) -> Difference:
    apart = v["methane_to_upgrading"] + v["methane_to_boiler"]
    used = v["methane_burned"] + apart + v["methane_flared"] + v["methane_leaked"]
    return v["methane_made"] - used, np.maximum(v["methane_made"], 1e-9)


def _mass(v: Values) -> Difference:
    out = v["digestate_mass"] + v["dry_gas_mass"] + v["vapour_mass"]
    return v["tonnes_fed"] - out, v["tonnes_fed"]


def _fees(v: Values) -> Difference:
    """Tonnes of every feed times its fee, against what is earned and paid for feeds."""
    feeds = [
        name.removesuffix(".fee_per_t") for name in v if name.startswith("substrate.") and name.endswith(".fee_per_t")
    ]
    due = sum((v[f"{feed}.delivered"] * v[f"{feed}.fee_per_t"] for feed in feeds), np.zeros((1, 1)))
    booked = sum((v[f"{feed}.tipping_fee"] + v[f"{feed}.bought"] for feed in feeds), np.zeros((1, 1)))
    return np.asarray(due - booked), np.maximum(np.abs(due), 1.0)


def _flags(v: Values) -> Difference:
    """The first full year is one year or none: its flag is on in twelve months at most, and in no other year."""
    on = v["in_first_full_year"].sum(axis=1, keepdims=True)
    return np.minimum(np.abs(on - MONTHS), np.abs(on)), np.full_like(on, float(MONTHS))


def _worth(v: Values) -> Difference:
    """Net present value of the first draw, ours and that of the library numpy-financial."""
    from numpy_financial import npv as library_npv

    cash, rate = v["project_cash"][:1], v["judging.discount_rate"][:1]
    theirs = library_npv(float((1.0 + rate[0, 0]) ** (1.0 / MONTHS) - 1.0), cash[0])
    return (npv(cash, rate) - theirs)[:, None], np.abs(cash).sum(axis=1, keepdims=True)


def _rate_of_return(v: Values) -> Difference:
    """Worth at our rate of return by numpy-financial: nothing, where there is one rate."""
    from numpy_financial import npv as library_npv

    cash = v["project_cash"][:1]
    found = irr(cash, MONTHS)
    if found.words[0] != "one":
        return np.zeros((1, 1)), np.abs(cash).sum(axis=1, keepdims=True)
    monthly = float((1.0 + found.value[0]) ** (1.0 / MONTHS) - 1.0)
    return np.array([[library_npv(monthly, cash[0])]]), np.array([[library_npv(monthly, np.abs(cash[0]))]])


def _order_of_payments(v: Values) -> Difference:
    """What a lender's order of payments does with the cash of a year, against that cash, from full operation on."""
    tests, first = lenders_order(v)
    spent = tests.interest + tests.principal + tests.reserved + tests.sweep + tests.distributed + tests.trapped + tests.short
    cash = year_sum(v["cash_available_for_debt_service"])
    counted = np.arange(cash.shape[1]) >= first[:, None]
    return np.where(counted, cash, 0.0) - spent, np.maximum(np.abs(cash), 1.0)


def _debt_reserve(v: Values) -> Difference:
    """Debt reserve and the shortfall that is shown, against its target; nothing where none is kept."""
    if "debt_reserve_target" not in v:
        return np.zeros((1, 1)), np.ones((1, 1))
    target = v["debt_reserve_target"]
    return v["debt_reserve"] + v["debt_reserve_short"] - target, np.maximum(target, 1.0)


# From profit to cash: what each step is called, and the lines it adds or takes off.
BRIDGE: tuple[tuple[str, tuple[tuple[str, int], ...]], ...] = (
    ("Profit after tax", (("profit_after_tax", 1),)),
    ("Depreciation, which is no cash", (("written_off", -1), ("written_off_at_end", -1))),
    ("Grants earned, which are no cash", (("grants_earned", -1),)),
    ("Interest of other months", (("interest_paid", 1), ("interest_cost", -1))),
    ("Tax of other years", (("taxes", 1), ("tax_cost", -1))),
    ("Bills and sales tax of other months", (("working_capital_moves", 1), ("sales_tax_moves", 1))),
    ("Capital paid", (("investment", 1),)),
    ("Grants received", (("grants", 1),)),
    ("Loans drawn less paid back", (("loans_drawn", 1), ("principal_paid", 1), ("loans_prepaid", 1), ("bridge_moves", 1))),
    ("Reserves", (("debt_reserve_moves", 1), ("overhaul_reserve_moves", 1), ("lock_up_moves", 1))),
)
CHECKS: tuple[tuple[str, str, str, Callable[[Values], Difference]], ...] = (
    ("balance", "in every month assets equal debts and the family's part", "money", _balance),
    ("debt_at_end", "no debt is left at the end", "money", _debt_at_end),
    ("debt_not_negative", "no loan is overpaid", "money", _debt_not_negative),
    ("uses_and_sources", "sources equal uses", "money", _uses_and_sources),
    ("depreciation", "depreciation for tax adds to its basis", "money", _depreciation),
    ("books", "depreciation in the books adds to the capital", "money", _books),
    ("grants", "grants earned add to grants received", "money", _grants),
    ("profit_to_cash", "the steps from profit to cash give the cash", "money", _profit_to_cash),
    ("tax", "tax paid equals tax due", "money", _tax),
    ("time_only", "what only moves in time adds to nothing", "money", _time_only),
    ("years", "months add to years", "money", _years),
    ("power", "power sold, used and taken to the farm is the power made", "kWh", _power),
    ("gas", "methane made is burned, upgraded, flared or leaked", "Nm3", _gas),
    ("mass", "tonnes fed are digestate, gas and vapour", "t", _mass),
    ("fees", "fees are tonnes taken in times the fee", "money", _fees),
    ("flags", "the first full year is flagged once", "month", _flags),
    ("worth", "net present value is that of numpy-financial", "money", _worth),
    ("rate_of_return", "at the rate of return numpy-financial finds the plant worth nothing", "money", _rate_of_return),
    (
        "order_of_payments",
        "what a lender's order of payments hands out is the cash of the year",
        "money",
        _order_of_payments,
    ),
    ("debt_reserve", "the debt reserve and the shortfall shown make its target", "money", _debt_reserve),
    ("power_money", "power sales are power paid for times its price", "money", _power_money),
)
