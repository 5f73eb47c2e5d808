"""What adds up to what, and how nearly; overhauls counted by hand."""

from __future__ import annotations

import numpy as np
import numpy.testing as npt

CLOSE = 1e-9  # of the row's largest value
TOTALS = {
    "cash_income": "cash_income",
    "evidenced_saving": "evidenced_savings",
    "modelled_saving": "modelled_savings",
    "running_cost": "running_costs",
    "overhaul": "overhauls_paid",
    "capital": "investment",
    "grant": "grants",
    "loan_draw": "loans_drawn",
    "loan_fee": "fees_paid",
    "interest": "interest_paid",
    "principal": "principal_paid",
    "sweep": "loans_prepaid",
    "tax": "taxes",
    "tax_credit": "tax_credits_paid_out",
    "disposal": "disposals",
    "sales_tax": "sales_tax_moves",
    "working_capital": "working_capital_moves",
    "bridge": "bridge_moves",
    "bridge_interest": "bridge_interest_paid",
    "debt_reserve": "debt_reserve_moves",
    "overhaul_reserve": "overhaul_reserve_moves",
    "lock_up": "lock_up_moves",
}


def equal(left: np.ndarray, right: np.ndarray) -> None:
    """Equal to 1e-9 of the largest value of each row."""
    scale = np.maximum(np.abs(right).max(axis=1, keepdims=True), 1e-300)
    npt.assert_array_less(np.abs(left - right) / scale, CLOSE)


def overhauls_by_hand(hours: np.ndarray, *, top_end: float, major: float) -> tuple[list[int], list[int]]:
    """Months of top-end and major overhauls, counted hour by hour as a mechanic would: a major restarts the top-end clock."""
    run, next_major, next_top_end = 0.0, major, top_end
    top_ends, majors = [], []
    for month, worked in enumerate(hours):
        run += worked
        if run >= next_major * (1 - 1e-9):
            majors.append(month)
            next_top_end, next_major = next_major + top_end, next_major + major
        elif run >= next_top_end * (1 - 1e-9):
            top_ends.append(month)
            next_top_end += top_end
    return top_ends, majors
