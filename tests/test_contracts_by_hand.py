"""Power contracts worked out by hand, year by year, from the energy of the plant and the farm's bills."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.scenario.load import loads
from tests.money_cases import BASE, changed_demo
from tests.plan_by_hand import worth
from tests.properties.gas_choices import UPGRADING

TERM = 5  # years, so that the market follows within the plan
PRICE, PREMIUM, MARKET, RISE, BOUGHT_RISE, INDEXED, INDEX = 0.145, 0.09, 0.06, 0.02, 0.03, 0.4, 0.025
RECEIVED = 0.9  # of the market price
OUTAGES = (6.0, 4.0, 3.0)  # months a year in which the engine fails and the peak is set anew


@cache
def plan(contract: str) -> Appraisal:
    power = {
        "contract": contract, "contract_price_per_kwh": PRICE, "contract_premium_per_kwh": PREMIUM,
        "contract_years": TERM, "contract_escalation": INDEX, "contract_indexed_share": INDEXED,
        "market_price_per_kwh": MARKET, "market_escalation": RISE, "market_received_share": RECEIVED,
        "bought_escalation": BOUGHT_RISE, "farm_use_matched_share": 0.3,
        "demand_charge": "falls", "peak_replaced_kw": 80, "demand_price_per_kw_month": 9,
        "outage_months_per_year_by_year": list(OUTAGES), "peak_counts_months": 2,
    }  # fmt: skip
    changes = {"power": power, "project": {"years": 9, "build_months": 12}, "loan": {"bank": {"years": 8}}}
    return appraise(loads(changed_demo(changes)))


def line(contract: str, name: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return np.asarray(plan(contract).values[name][0])


def price(contract: str, month: int) -> float:
    """What a kilowatt-hour fed to the grid brings in a month."""
    year = month // 12
    market = MARKET * (1 + RISE) ** year
    agreed = 1 - INDEXED + INDEXED * (1 + INDEX) ** year
    if month >= 12 + 12 * TERM:
        return market * RECEIVED
    return {
        "fixed_price": PRICE * agreed,
        "net_metering": PRICE * agreed,
        "premium": market * RECEIVED + PREMIUM * agreed,
        "difference": market * RECEIVED + PRICE * agreed - market,
        "difference_upward": market * RECEIVED + max(PRICE * agreed - market, 0),
    }[contract]


@pytest.mark.parametrize("contract", ["fixed_price", "premium", "difference", "difference_upward"])
def test_power_sold_under_a_contract_and_after_its_term(contract: str) -> None:
    sold, paid = line(contract, "power_sold"), line(contract, "power_sales")
    for month in range(12, sold.size):
        assert paid[month] == pytest.approx(sold[month] * price(contract, month), rel=1e-9)
    assert sold[12:].min() > 0


def test_net_metering_settles_over_the_year_and_sells_the_rest() -> None:
    """Fed in against what the farm still buys, at the mean energy price of its bills; the rest at the contract's price."""
    name = "net_metering"
    farm = plan(name).loaded.scenario.farm_now
    kwh, bill = np.array(farm.power_kwh), np.array(farm.power_bill) * farm.power_bill_energy_share
    calendar = (np.arange(108) + int(plan(name).loaded.scenario.project.first_month[-2:]) - 1) % 12
    sold, own, metered = line(name, "power_sold"), line(name, "power_to_farm"), line(name, "power_bill_metered")
    for year in range(1, 9):
        months = range(12 * year, 12 * year + 12)
        inside = [m for m in months if m < 12 + 12 * TERM]
        fed = sum(sold[m] for m in inside)
        share = min(1.0, sum(kwh[calendar[m]] - own[m] for m in months) / fed) if fed else 0.0
        for month in months:
            counts = sold[month] * share if month in inside else 0.0
            assert metered[month] == pytest.approx(counts * bill.sum() / kwh.sum() * (1 + BOUGHT_RISE) ** year, rel=1e-9)
            rest = (sold[month] - counts) * price(name, month)
            assert line(name, "power_sales")[month] == pytest.approx(rest, rel=1e-9, abs=1e-6)
    assert metered.sum() > 10_000


def test_own_use_saves_energy_only_and_one_outage_sets_the_peak_anew() -> None:
    name = "fixed_price"
    farm = plan(name).loaded.scenario.farm_now
    calendar = (np.arange(108) + int(plan(name).loaded.scenario.project.first_month[-2:]) - 1) % 12
    for month in range(12, 108):
        year, bill = month // 12, farm.power_bill[calendar[month]]
        rise = (1 + BOUGHT_RISE) ** year
        share = line(name, "power_to_farm")[month] / farm.power_kwh[calendar[month]]
        assert 0 < share <= 0.3
        assert line(name, "power_bill_saved")[month] == pytest.approx(share * bill * farm.power_bill_energy_share * rise)
        kept_low = max(1 - OUTAGES[min(year, 2)] * 2 / 12, 0)  # by project year, the last figure goes on
        saved = min(80 * 9 * kept_low, bill * (1 - farm.power_bill_energy_share)) * rise
        assert line(name, "demand_charge_saved")[month] == pytest.approx(saved)


@pytest.mark.parametrize("contract", ["net_metering", "fixed_price"])
def test_net_cost_of_a_kilowatt_hour_takes_off_nothing_that_power_earns(contract: str) -> None:
    """Sold, bought no more, set against the bill, and the demand charge: all of it is what the kilowatt-hour earns."""
    v, rate = plan(contract).values, 0.07
    spent = -(v["investment"] + v["running_costs"] + v["overhauls_paid"] + v["disposals"])[0]
    others = [name for name, node in plan(contract).plan.nodes.items()
              if node.line.role in ("cash_income", "evidenced_saving", "modelled_saving") and not name.startswith(
                  ("power_", "demand_"))]  # fmt: skip
    by_products = sum(np.broadcast_to(v[name], (1, 108))[0] for name in others)
    net = worth(list(spent - by_products), rate) / worth(list(v["power_sold"][0]), rate)
    assert float(plan(contract).money.unit_costs.net_sold.value[0]) == pytest.approx(net, rel=1e-9)


def test_gas_sold_counts_among_the_energy_of_a_programmes_payback() -> None:
    """Eligible cost over power, heat and gas sold and all savings of the first full year."""
    case = appraise(loads(demos()[BASE].read_text(encoding="utf-8") + UPGRADING))
    year = slice(12 * (case.plant.year - 1), 12 * case.plant.year)
    parts = ("power_sales", "heat_sales", "gas_sales", "evidenced_savings", "modelled_savings")
    energy = sum(float(np.broadcast_to(case.values[name], (1, case.timeline.months))[0, year].sum()) for name in parts)
    cost = float(case.values["eligible_cost"].sum())
    assert case.values["gas_sales"][0, year].sum() > 10_000
    assert float(case.money.ratios.regulatory_payback_years.value[0]) == pytest.approx(cost / energy, rel=1e-9)
