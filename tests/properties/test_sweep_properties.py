"""A sweep that prepays loans: stepped by hand over random plants, and what it may and may not move."""

from __future__ import annotations

import numpy as np
import numpy.testing as npt
import pytest

from appraisal.errors import ScenarioError
from appraisal.lines.evaluate import year_sum
from appraisal.measures.money_view import money_view
from appraisal.scenario.load import loads
from tests.money_cases import CASES, appraised, batch, changed_demo, drawn, lines, merged

Row = dict[str, np.ndarray]
NAME, MONTHS = "swept", 12


def one_draw(values: Row, draw: int) -> Row:
    """Every line and input of one draw, one value or one row."""
    return {name: array[draw % array.shape[0]] for name, array in values.items()}


class Debt:
    """One loan in plain sums."""

    def __init__(self, v: Row, name: str) -> None:
        """v: lines of one draw; name: of the loan."""
        self.v, self.of = v, f"loan.{name}."
        self.owed = self.waiting = 0.0

    def at(self, line: str, month: int) -> float:
        """A line of the loan in one month."""
        row = self.v[self.of + line]
        return float(row[month] if row.size > 1 else row[0])

    def step(self, month: int) -> tuple[float, float]:
        """Interest and principal of one month, payments as scheduled."""
        interest = self.owed * self.at("rate_now", month) / MONTHS
        self.waiting += interest
        scheduled = self.at("sum", month) * (self.at("interest_share", month) + self.at("principal_share", month))
        principal, left = 0.0, self.at("payments_left", month)
        if self.at("pays", month):
            paid = self.waiting if self.at("interest_paid_part", month) else 0.0
            if left:
                principal = self.owed if left == 1 else min(max(scheduled - paid, 0.0), self.owed)
            self.owed += self.waiting - paid
            self.waiting = 0.0
        self.owed += self.at("drawn", month) - principal
        return interest, principal


class Hand:
    """Sweeps, taxes and debts of one draw, a plain year after the other."""

    def __init__(self, v: Row, names: list[str]) -> None:
        """v: lines of one draw; names: of the loans."""
        self.v, self.debts = v, [Debt(v, name) for name in names]
        payments = [np.array([debt.at("sum", m) * (debt.at("interest_share", m) + debt.at("principal_share", m))
                              for m in range(v["net_cash"].size)]) for debt in self.debts]  # fmt: skip
        self.scheduled = year_sum(sum(payments)[None, :])[0]
        self.pool = self.tax_before = self.reserve = self.account = 0.0

    def stated(self, name: str) -> float:
        """An input with one value."""
        return float(self.v[name][0])

    def next(self, name: str, year: int) -> float:
        """A yearly line one year on, 0 after the last."""
        return float(self.v[name][year + 1]) if year + 1 < self.scheduled.size else 0.0

    def served(self, year: int) -> tuple[float, float]:
        """Interest, and debt service as scheduled."""
        interest = service = 0.0
        for month in range(year * MONTHS, year * MONTHS + MONTHS):
            for debt in self.debts:
                before, waiting = debt.owed, debt.waiting
                cost, principal = debt.step(month)
                interest += cost
                service += principal + (waiting + cost if debt.at("interest_paid_part", month) else 0.0)
                assert before >= -1e-9
        return interest, service

    def taxed(self, year: int, interest: float) -> float:
        """Tax of the year; losses are carried forward."""
        fees = _of_year(self.v, "fees_paid", year) + _of_year(self.v, "bridge_interest_paid", year)
        profit = float(self.v["profit_without_loans"][year]) - interest + fees
        used = min(self.pool, max(profit, 0.0) * self.stated("tax.loss_use_at_most_share"))
        self.pool += max(-profit, 0.0) - used
        return (max(profit, 0.0) - used) * self.stated("tax.rate")

    def reserved(self, year: int, left: float, owed: float) -> float:
        """What the reserve for debt service leaves of the cash, or adds to it."""
        ahead = min(self.scheduled[year + 1], owed) if year + 1 < self.scheduled.size else 0.0
        runs = max(self.v["full_year"][year], self.next("full_year", year))
        target = runs * ahead * self.stated("funding.debt_reserve_months") / MONTHS
        out_of = min(self.reserve, max(-left, 0.0))
        free = max(self.reserve - out_of - target, 0.0)
        into = min(max(target - (self.reserve - out_of), 0.0), max(left, 0.0))
        self.reserve += into - out_of - free
        return left + out_of + free - into

    def swept(self, year: int, left: float, owed: float, *, cover: float) -> float:
        """The sweep: nothing while locked up, and the least balance is filled first. cover: infinite without debt service."""
        tested = max(self.v["full_year"][year], float(_of_year(self.v, "closed", year) > 0))
        there = owed > 1e-9 * self.stated("building_cost")
        locked = tested and cover < self.stated("funding.lock_up_cover") and there
        take = max(left, 0.0) * tested * (not locked)
        taken = min(self.account, max(-left, 0.0))
        kept = min(take, max(self.stated("funding.sweep_keeps_amount") - self.account + taken, 0.0))
        self.account += kept - taken
        return min((take - kept) * self.stated("funding.sweep_share"), owed)

    def year(self, year: int) -> dict[str, float]:
        """Swept, owed afterwards, and tax of one year."""
        interest, service = self.served(year)
        tax = self.taxed(year, interest)
        cash = _of_year(self.v, "cash_before_tax", year) - self.tax_before
        self.tax_before = tax
        owed = sum(debt.owed + debt.waiting for debt in self.debts)
        left = self.reserved(year, cash - service, owed)
        swept = self.swept(year, left, owed, cover=cash / service if service > 0 else np.inf)
        for debt in self.debts:
            debt.owed -= debt.owed * swept / owed if owed else 0.0
        return {"swept": swept, "owed": sum(debt.owed for debt in self.debts), "tax": tax}


def by_hand(v: Row, names: list[str]) -> dict[str, list[float]]:
    """Sweeps, taxes and debts of one draw by year."""
    hand = Hand(v, names)
    years = [hand.year(year) for year in range(hand.scheduled.size)]
    return {name: [year[name] for year in years] for name in ("swept", "owed", "tax")}


def _of_year(v: Row, name: str, year: int) -> float:
    row = v[name]
    return float(row[year * MONTHS : (year + 1) * MONTHS].sum()) if row.size > 1 else 0.0


def test_sweeps_taxes_and_debts_are_those_of_a_loop_by_hand() -> None:
    v, names = batch(NAME), list(appraised(NAME).loaded.scenario.loan)
    swept_at_all = 0
    for draw in range(0, 250, 5):
        row = one_draw(v, draw)
        found, size = by_hand(row, names), float(row["building_cost"][0])
        npt.assert_allclose(found["swept"], row["swept"], atol=1e-8 * size)
        npt.assert_allclose(found["swept"], -year_sum(row["loans_prepaid"][None, :])[0], atol=1e-8 * size)
        npt.assert_allclose(found["owed"], row["loans_owed"][MONTHS - 1 :: MONTHS], atol=1e-8 * size)
        npt.assert_allclose(found["tax"], -row["tax_due"], atol=1e-8 * size)
        swept_at_all += sum(found["swept"]) > 0
    assert 10 < swept_at_all < 50  # some plants have nothing to sweep


def test_a_sweep_leaves_the_project_alone_and_ends_the_debt_sooner() -> None:
    moved = drawn(NAME, draws=250)
    v, without = batch(NAME), lines(NAME, {**moved, "funding.sweep_share": np.array([[0.0]])})
    assert np.array_equal(v["project_cash"], without["project_cash"])
    assert (v["loans_owed"] <= without["loans_owed"] + 1e-6).all()
    npt.assert_allclose(without["loans_owed"], without["loans_owed_as_scheduled"], atol=1e-6)
    assert (without["loans_prepaid"] == 0).all()
    some = v["loans_prepaid"].sum(axis=1) < -1
    assert (v["interest_paid"].sum(axis=1) >= without["interest_paid"].sum(axis=1))[some].all() and some.any()
    npt.assert_allclose(v["loans_owed_as_scheduled"], without["loans_owed_as_scheduled"])


def test_nothing_is_swept_while_locked_or_below_the_least_balance() -> None:
    v = batch(NAME)
    assert (v["swept"][v["locked"] > 0] == 0).all() and (v["locked"] > 0).any()
    assert (v["sweep_balance"] <= v["funding.sweep_keeps_amount"] * (1 + 1e-12)).all()
    short = (v["sweep_balance"] < v["funding.sweep_keeps_amount"] * (1 - 1e-12)) & (v["swept"] > 0)
    assert not short.any()
    swept, cash = v["swept"], v["sweep_cash"] * v["funding.sweep_share"]
    assert (swept <= cash * (1 + 1e-12)).all()


def test_all_of_the_cash_swept_pays_the_loans_off_to_exactly_nothing() -> None:
    given = {**drawn(NAME, draws=250), "funding.sweep_share": np.array([[1.0]]), "funding.lock_up_cover": np.array([[1.0]])}
    v = lines(NAME, given)
    gone = v["swept_part"] == 1
    assert gone.any()
    for loan in appraised(NAME).loaded.scenario.loan:
        closing = v[f"loan.{loan}.closing"][:, MONTHS - 1 :: MONTHS]
        assert (closing[np.broadcast_to(gone, closing.shape)] == 0).all()


def test_cover_counts_scheduled_payments_and_the_order_of_payments_the_sweep() -> None:
    v = batch(NAME)
    bank = money_view(v, year=3).bank
    due = -year_sum(v["interest_paid"] + v["principal_paid"])
    cash = year_sum(v["cash_available_for_debt_service"])
    there = np.isfinite(bank.covers["as_assumed"].value)
    npt.assert_allclose(bank.covers["as_assumed"].value[there], (cash / np.where(due > 0, due, 1))[there])
    npt.assert_allclose(bank.tests.sweep, v["swept"])
    owed = v["loans_owed"][:, MONTHS - 1 :: MONTHS]
    counts = np.arange(owed.shape[1]) >= (bank.first_year - 1)[:, None]
    npt.assert_allclose(np.where(counts, bank.tests.balance, 0), np.where(counts, owed, 0), atol=1e-5)


def test_a_sweep_that_prepays_needs_its_share() -> None:
    with pytest.raises(ScenarioError, match=r"funding\.sweep_share.*needed"):
        loads(changed_demo(merged(CASES[NAME], {"funding": {"sweep_share": None}})), file="swept")
