"""The tool against one invented plan worked out by hand (plan_by_hand.py): every amount to the cent, every measure to 1e-9."""

from __future__ import annotations

from functools import cache

import numpy as np
import numpy_financial as npf
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.scenario.load import loads
from tests import plan_by_hand as hand
from tests.money_cases import changed_demo
from tests.plan_by_hand import BUILD, EQUAL, ITEMS, LEVEL, MONTHS, RATES, YEARS

CENT = 0.01


@cache
def plan() -> Appraisal:
    return appraise(loads(changed_demo(hand.changes())))


def line(name: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """A line by month, or by year."""
    array = plan().values[name]
    return np.asarray(np.broadcast_to(array, (1, MONTHS))[0] if array.shape[1] == 1 else array[0])


def running() -> list[float]:
    """Income and savings less running costs, as the tool has them; the day's business is not what is tried here."""
    return list(line("cash_income") + line("evidenced_savings") + line("modelled_savings") + line("running_costs"))


def same(mine: object, theirs: object) -> None:
    np.testing.assert_allclose(mine, theirs, rtol=1e-9, atol=CENT / 100)


def test_capital_sales_tax_grant_and_bridge() -> None:
    same(line("investment"), -np.array(hand.capital()))
    same(line("sales_tax_moves"), hand.sales_tax())
    got, owed = hand.grant()
    same(line("grants"), got)
    assert sum(1 for x in got if x) == 5  # four claims and the last payment
    same(line("bridge_owed"), owed)
    assert max(owed) > 10_000 and owed[-1] == 0
    same(line("bridge_interest_paid")[1:], -np.array(owed[:-1]) * hand.BRIDGE["rate"] / 12)


def test_loans_with_a_reset_rate_and_equal_principal() -> None:
    interest, principal, closing = hand.level_loan()
    same(line("loan.bank.interest"), -np.array(interest))
    same(line("loan.bank.principal"), -np.array(principal))
    assert closing[LEVEL["years"] * 12 - 1] == pytest.approx(0, abs=1e-6)
    assert -line("loan.bank.principal").sum() == pytest.approx(LEVEL["sum"])
    interest, principal, _, _ = hand.equal_loan()
    same(line("loan.second.interest"), -np.array(interest))
    same(line("loan.second.principal"), -np.array(principal))
    assert -line("loan.second.principal").sum() == pytest.approx(EQUAL["sum"])


def test_sources_are_uses() -> None:
    paid = sum(hand.level_loan()[0][:BUILD]) + sum(hand.equal_loan()[0][:BUILD])
    bridge = sum(hand.grant()[1][: BUILD - 1]) * hand.BRIDGE["rate"] / 12
    uses = sum(hand.capital()) + LEVEL["sum"] * LEVEL["fee"] + paid + bridge
    same(plan().values["uses_of_funds"][0, 0], uses)
    same(plan().values["own_money_needed"][0, 0], uses - sum(hand.grant()[0]) - LEVEL["sum"] - EQUAL["sum"])


def taxable() -> tuple[list[float], float]:
    written, basis, credit = hand.tax_depreciation()
    inflation = float(plan().values["project.inflation"][0, 0])
    end = (hand.END_VALUE - hand.REMOVAL) * (1 + inflation) ** (YEARS - 1)
    costs = [a + b for a, b in zip(hand.level_loan()[0], hand.equal_loan()[3], strict=True)]
    bridge = [0.0, *(x * hand.BRIDGE["rate"] / 12 for x in hand.grant()[1][:-1])]
    profit = [
        gained + overhauls - off - interest - carried
        for gained, overhauls, off, interest, carried in zip(
            hand.by_year(running()), hand.by_year(list(line("overhauls_paid"))), written, hand.by_year(costs),
            hand.by_year(bridge), strict=True)
    ]  # fmt: skip
    profit[0] -= LEVEL["sum"] * LEVEL["fee"]
    profit[-1] += end - (basis - sum(written))
    return profit, credit


def test_tax_with_three_kinds_of_depreciation_credit_and_capped_losses() -> None:
    same(hand.by_year(list(line("depreciation"))), -np.array(hand.tax_depreciation()[0]))
    profit, credit = taxable()
    due, used = hand.tax(profit, credit)
    same(plan().values["taxable_profit"][0], profit)
    same(plan().values["tax_credit_used"][0], used)
    same(hand.by_year(list(line("taxes"))), -np.array(due))
    assert min(profit) < 0 < max(due) and any(old > 0 for old in plan().values["loss_used"][0])


def owner() -> list[float]:
    """Everything that comes in and goes out."""
    due, _ = hand.tax(*taxable())
    got, owed = hand.grant()
    level, equal = hand.level_loan(), hand.equal_loan()
    spent = sum(hand.capital())
    inflation = float(plan().values["project.inflation"][0, 0])
    flows = []
    for month in range(MONTHS):
        drawn = hand.capital()[month] / spent * (LEVEL["sum"] + EQUAL["sum"])
        service = sum(part[month] for loan in (level, equal) for part in loan[:2])
        before = owed[month - 1] if month else 0.0
        bridge = owed[month] - before - before * hand.BRIDGE["rate"] / 12
        flow = running()[month] + float(line("overhauls_paid")[month]) - hand.capital()[month] + hand.sales_tax()[month]
        flow += got[month] + drawn - service + bridge
        flow -= LEVEL["sum"] * LEVEL["fee"] if month == 0 else 0.0
        flow -= due[month // 12] if month % 12 == 11 else 0.0
        flows.append(flow)
    flows[-1] += (hand.END_VALUE - hand.REMOVAL) * (1 + inflation) ** (YEARS - 1)
    return flows


def test_the_owners_cash_worth_return_and_year_by_year_value() -> None:
    flows = owner()
    same(line("net_cash"), flows)
    view = next(each for each in plan().money.views if (each.whose, each.tax, each.money) == ("owner", "after tax", "nominal"))
    value = hand.worth(flows, RATES["discount"])
    assert float(view.npv[0]) == pytest.approx(value, rel=1e-9)
    assert float(view.equivalent_annual_value[0]) == pytest.approx(-npf.pmt(RATES["discount"], YEARS, value), rel=1e-9)
    assert float(view.irr.value[0]) == pytest.approx((1 + npf.irr(flows)) ** 12 - 1, rel=1e-7)
    monthly = [(1 + RATES[name]) ** (1 / 12) - 1 for name in ("finance", "reinvest")]
    assert float(view.mirr.value[0]) == pytest.approx((1 + npf.mirr(flows, *monthly)) ** 12 - 1, rel=1e-9)
    real = next(each for each in plan().money.views if (each.whose, each.tax, each.money) == ("owner", "after tax", "real"))
    inflation = float(plan().values["project.inflation"][0, 0])
    deflated = [flow / (1 + inflation) ** (month / 12) for month, flow in enumerate(flows)]
    assert float(real.npv[0]) == pytest.approx(hand.worth(deflated, (1 + RATES["discount"]) / (1 + inflation) - 1), rel=1e-9)
    assert float(real.irr.value[0]) == pytest.approx((1 + npf.irr(deflated)) ** 12 - 1, rel=1e-7)


def test_cost_of_a_kilowatt_hour_and_quotients() -> None:
    rate = RATES["discount"]
    inflation = float(plan().values["project.inflation"][0, 0])
    end = [0.0] * (MONTHS - 1) + [(hand.END_VALUE - hand.REMOVAL) * (1 + inflation) ** (YEARS - 1)]
    run = hand.worth(list(-line("running_costs")), rate)
    overhauls = hand.worth(list(-line("overhauls_paid")), rate)
    invested = hand.worth(hand.capital(), rate) - hand.worth(end, rate)
    gained = hand.worth(list(line("cash_income") + line("evidenced_savings") + line("modelled_savings")), rate)
    granted = hand.worth(hand.grant()[0], rate)
    power = hand.worth(list(line("power_sales") + line("power_bill_saved")), rate)
    sold, farm = (hand.worth(list(line(name)), rate) for name in ("power_sold", "power_to_farm"))
    costs, quotients = plan().money.unit_costs, plan().money.ratios
    spent = run + overhauls + invested
    for measure, value in (
        (costs.gross_sold, spent / sold),
        (costs.gross_used, spent / (sold + farm)),
        (costs.net_sold, (spent - gained + power) / sold),
        (costs.net_used, (spent - gained + power) / (sold + farm)),
        (quotients.all_costs_below, (gained + granted) / spent),
        (quotients.capital_below, (gained + granted - run - overhauls) / invested),
        (quotients.savings.sir, (gained - run) / (invested + overhauls - granted)),
    ):
        assert float(measure.value[0]) == pytest.approx(value, rel=1e-9)
    sir = float(quotients.savings.sir.value[0])
    assert float(quotients.savings.airr[0]) == pytest.approx((1 + rate) * sir ** (1 / YEARS) - 1, rel=1e-9)
    year = slice(12 * (plan().plant.year - 1), 12 * plan().plant.year)
    energy = sum(line(name)[year].sum() for name in ("power_sales", "heat_sales", "evidenced_savings", "modelled_savings"))
    assert float(quotients.regulatory_payback_years.value[0]) == pytest.approx(sum(hand.capital()) / energy, rel=1e-9)


def test_cover_by_year_and_over_the_life_of_loans_and_plant() -> None:
    due, _ = hand.tax(*taxable())
    cash = list(line("cash_income") + line("evidenced_savings") + line("running_costs") + line("overhauls_paid"))
    for year in range(YEARS):
        cash[12 * year + 11] -= due[year]
    level, equal = hand.level_loan(), hand.equal_loan()
    service = [sum(part[month] for loan in (level, equal) for part in loan[:2]) for month in range(MONTHS)]
    covers = [a / b if b > 1 else None for a, b in zip(hand.by_year(cash), hand.by_year(service), strict=True)]
    bank = plan().money.bank
    for found, value in zip(bank.covers["as_assumed"].value[0], covers, strict=True):
        assert found == pytest.approx(value, rel=1e-9) if value is not None else np.isnan(found)
    full = [value for value in covers[BUILD // 12 :] if value is not None]
    assert float(bank.least["as_assumed"].value[0]) == pytest.approx(min(full), rel=1e-9)
    assert float(bank.least["as_assumed"].average[0]) == pytest.approx(sum(full) / len(full), rel=1e-9)
    twelve = [(sum(cash[m : m + 12]), sum(service[m : m + 12])) for m in range(BUILD, MONTHS - 11)]
    rolling = [have / due_then for have, due_then in twelve if due_then > 1]
    assert float(bank.rolling[0]) == pytest.approx(min(rolling), rel=1e-9)
    owed = [level[2][m] + equal[2][m] for m in range(MONTHS)]
    cost = [level[0][m] + equal[3][m] for m in range(MONTHS)]
    waiting = np.cumsum(equal[3]) - np.cumsum(equal[0])
    factor, within, ahead, rate = 1.0, 0.0, 0.0, 0.0
    for month in range(BUILD, MONTHS):
        before = owed[month - 1] + float(waiting[month - 1])
        rate = cost[month] / before if before > 1e-3 else rate
        factor /= 1 + rate
        ahead += cash[month] * factor
        within += cash[month] * factor if before > 1e-3 else 0.0
    debt = owed[BUILD - 1] + float(waiting[BUILD - 1])
    assert float(bank.llcr.value[0]) == pytest.approx(within / debt, rel=1e-9)
    assert float(bank.plcr.value[0]) == pytest.approx(ahead / debt, rel=1e-9)


def test_the_plan_is_worth_trying() -> None:
    """It has losses, profits, a shortfall and a surplus, and no item of the demo is left in it unseen."""
    assert set(plan().structure.items["capital"]) == set(ITEMS)
    assert line("net_cash").min() < 0 < line("net_cash").max()
    assert line("overhauls_paid").min() < 0
