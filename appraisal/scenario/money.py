"""Prices, costs, capital, funding and tax."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Section, choice, count, number, text


class Power(Section):
    """Who buys the power, and what the plant itself uses."""

    plant_use_kwh_per_t: float = number(
        "kWh/t", 0, 100, default=8.0, basis=PRACTICE, label="Power for stirring, pumps and feeding",
        help="Per tonne fed, engine auxiliaries apart; measured plants use 7 to 11 % of gross power in all.")
    contract_price_per_kwh: float = number("money/kWh", 0, 1, label="Price for power fed to the grid",
        help="In month 0.")
    contract_escalation: float = number(
        "share/year", -0.2, 0.3, default=0.0, label="Yearly rise of the contract price", help="Often none.")
    contract_years: float = number(
        "year", 0, 60, default=20.0, basis=PRACTICE, label="Years of the power contract",
        help="From the first month of feeding.")
    market_price_per_kwh: float = number("money/kWh", 0, 1, label="Price after the contract",
        help="In month 0's money.")
    market_escalation: float = number(
        "share/year", -0.2, 0.3, default=0.0, label="Yearly rise of the market price",
        help="0.02 is 2 % a year; zero is the cautious figure.")
    farm_use_matched_share: float = number(
        "share", 0, 1, default=0.0, label="Share of the farm's power use met in the same hour",
        help="0: all power is sold; 0.7: the engine covers 70 % of what the farm buys now, at the price of that energy.")
    bought_price_per_kwh: float = number(
        "money/kWh", 0, 1, label="Price of power bought for the plant", help="Used while the engine stands.")
    bought_escalation: float = number(
        "share/year", -0.2, 0.3, default=0.02, basis=PRACTICE, label="Yearly rise of bought power",
        help="0.02 is 2 % a year; it moves the bill saved too.")


class Fertilizer(Section):
    """What the digestate is worth beyond the manure the farm already spread."""

    manure_n_available_share: float = number(
        "share", 0, 1, default=0.40, basis=PRACTICE, label="Nitrogen of raw manure that crops get",
        help="In the first year, with the spreading of today.")
    digestate_n_available_share: float = number(
        "share", 0, 1, default=0.50, basis=PRACTICE, label="Nitrogen of digestate that crops get",
        help="With the spreading planned for the digestate.")
    imported_share_usable: float = number(
        "share", 0, 1, default=0.5, basis=PRACTICE, label="Imported nutrients the land can use",
        help="Food leftovers bring nutrients that must find land; where land is short they are a cost.")
    n_price_per_kg: float = number("money/kg", 0, 10, default=0.0, label="Price of nitrogen", help="Per kg N.")
    p_price_per_kg: float = number(
        "money/kg", 0, 20, default=0.0, label="Price of phosphorus",
        help="Per kg of element P: 2.2914 x the price of P2O5.")
    k_price_per_kg: float = number(
        "money/kg", 0, 10, default=0.0, label="Price of potassium",
        help="Per kg of element K: 1.2046 x the price of K2O.")
    escalation: float = number("share/year", -0.2, 0.3, default=0.02, basis=PRACTICE, label="Yearly rise",
        help="0.02 is 2 % a year.")
    extra_spreading_cost_per_t: float = number(
        "money/t", 0, 100, default=0.0, label="Hauling and spreading of the extra tonnes",
        help="For every tonne of digestate above the manure spread today.")


class Credits(Section):
    """Avoided methane sold as carbon credits; zero unless a price is given."""

    price_per_t_co2e: float = number("money/t CO2e", 0, 1000, default=0.0, label="Price of a credit",
        help="In month 0.")
    escalation: float = number("share/year", -0.3, 0.3, default=0.0, label="Yearly rise of the price",
        help="0.02 is 2 % a year; credit prices have fallen by two thirds before.")
    baseline_methane_share: float = number(
        "share", 0, 0.9, default=0.0, label="Methane conversion of today's manure store",
        help="IPCC methane conversion factor of the store the digester replaces; zero gives no credit.")
    gwp_methane: float = number(
        "t CO2e/t", 20, 90, default=28.0, source="IPCC AR5 WG1 (2013) Table 8.7, 100 years, biogenic methane",
        basis="read", label="Warming of methane against CO2",
        help="The programme names the set: AR4 25, AR5 28, AR6 27.")
    crediting_years: float = number("year", 0, 60, default=10.0, basis=PRACTICE, label="Crediting period",
        help="From the first month of feeding; often ten years.")
    share_kept: float = number(
        "share", 0, 1, default=1.0, label="Share of the credits the plant keeps",
        help="After buyer, buffer and discount.")
    cost_per_year: float = number(
        "money/year", 0, 1e6, default=0.0, label="Registry and verification", help="Paid in every crediting year.")


class Labour(Section):
    """Hours of work; the family's hours are shown even if nobody pays them."""

    hired_hours_per_week: float = number("hour/week", 0, 1000, default=0.0, label="Hired hours",
        help="Paid hours of all hired people at the plant.")
    family_hours_per_week: float = number("hour/week", 0, 200, default=0.0, label="Family hours",
        help="Unpaid, but shown.")
    hired_wage_per_hour: float = number("money/hour", 0, 200, label="Hired wage", help="With employer's costs.")
    escalation: float = number("share/year", -0.2, 0.3, default=0.025, basis=PRACTICE, label="Yearly rise of wages",
        help="0.025 is 2.5 % a year.")


class RunningCost(Section):
    """One more yearly cost: insurance, laboratory, upkeep, land, administration, full-service fees."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    per_year: float = number("money/year", 0, 1e8, default=0.0, label="Fixed part",
        help="From the first month of feeding.")
    per_t_fed: float = number("money/t", 0, 1000, default=0.0, label="Part per tonne fed",
        help="For every tonne that enters the digester, water included.")
    per_kwh: float = number("money/kWh", 0, 1, default=0.0, label="Part per gross kWh",
        help="For every gross kWh of all engines.")
    escalation: float = number("share/year", -0.2, 0.3, default=0.02, basis=PRACTICE, label="Yearly rise",
        help="0.02 is 2 % a year.")


class Capital(Section):
    """One item that must be paid for before or while it is built."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    amount: float = number("money", 0, 1e9, label="Cost", help="Price date's money, without contingency.")
    contingency_share: float = number(
        "share", 0, 1, default=0.1, source="screening table of capital costs, row contingency_quotes",
        basis=PRACTICE, label="Contingency", help="10 % on quotes, 30 % on a first idea.")
    first_month: int = count("month", 0, 480, default=0, label="Month of the first payment",
        help="0 is the first month.")
    months: int = count("month", 1, 120, default=12, label="Months of payment", help="Paid evenly.")
    escalation: float = number("share/year", -0.2, 0.3, default=0.0, label="Yearly rise until it is paid",
        help="Only for what is bought later; a fixed quote rises by nothing.")
    eligible_share: float = number("share", 0, 1, default=1.0, label="Share a grant may count",
        help="The programme decides.")
    depreciation_years: float = number("year", 1, 60, default=15.0, basis=PRACTICE, label="Years of depreciation",
                                       help="Straight line from the start of operation; ask your accountant.")


class Grant(Section):
    """Public or other money that need not be paid back."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    share_of_eligible: float = number("share", 0, 1, label="Share of eligible cost",
        help="Of the eligible part of all capital paid.")
    at_most: float = number("money", 0, 1e9, default=1e9, label="Largest amount",
        help="The ceiling the programme states.")
    arrives_in_month: int = count(
        "month", 0, 480, default=18, label="Month of payment", help="Grants often come after completion.")


class Loan(Section):
    """A bank loan with level payments, after an optional time of interest only."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    amount: float = number("money", 0, 1e9, label="Amount", help="Drawn as the capital is paid.")
    rate: float = number("share/year", 0, 0.4, label="Interest rate", help="Nominal, charged monthly.")
    interest_only_months: int = count(
        "month", 0, 120, default=12, label="Months of interest only", help="From month 0.")
    years: int = count("year", 1, 40, label="Term",
        help="From month 0 to the last payment, interest-only time included.")
    fee_share: float = number("share", 0, 0.1, default=0.0, label="Fee", help="Of the amount, paid in month 0.")


class Tax(Section):
    """Income tax, simple. Rates are dated inputs: ask your accountant."""

    rate: float = number("share", 0, 0.7, label="Rate on profit", help="All income taxes together.")
    rate_year: int = count("year", 1990, 2100, label="Year the rate is valid for", help="Shown beside the tax.")
    losses: Literal["carried_forward", "used_at_once", "lost"] = choice(
        "carried_forward", "used_at_once", "lost", default="carried_forward", label="What happens to a loss",
        help="used_at_once needs other farm income large enough to take it.")
    depreciation_reduced_by_grants: Literal["yes", "no"] = choice(
        "yes", "no", default="yes", label="Grants lower the depreciation base", help="Usual; the law decides.")


class Judging(Section):
    """The yardsticks the result is held against."""

    discount_rate: float = number(
        "share/year", 0, 0.4, label="Discount rate",
        help="Nominal: what the money could earn elsewhere at like risk.")
    finance_rate: float = number(
        "share/year", 0, 0.4, default=0.06, basis=PRACTICE, label="Finance rate of the modified return",
        help="At this rate the money put in is counted.")
    reinvest_rate: float = number(
        "share/year", 0, 0.4, default=0.03, basis=PRACTICE, label="Reinvestment rate of the modified return",
        help="At this rate the money that comes back is counted.")
    least_cover: float = number(
        "share", 1, 3, default=1.25, basis=PRACTICE, label="Least cover of debt service",
        help="Cash for debt service over debt service.")
    home_kwh_per_year: float = number(
        "kWh/year", 500, 50000, default=10500.0, source="US EIA, mean US home of about 10,500 kWh a year",
        basis="from memory",
        label="Power of one home", help="For `homes supplied`; European homes use about 3,500.")


class Claims(Section):
    """What somebody else says of the plant: held against the model, never used in it."""

    power_sold_kwh_per_month: float = number("kWh/month", 0, 1e9, default=0.0,
        label="Said: power to the grid a month", help="As the seller or a neighbour tells it.")
    power_sold_kwh_per_year: float = number("kWh/year", 0, 1e10, default=0.0,
        label="Said: power to the grid a year", help="As the seller or a neighbour tells it.")
    homes: float = number("head", 0, 1e7, default=0.0, label="Said: homes supplied", help="A count of homes.")
    heat_kw: float = number("kW", 0, 1e6, default=0.0, label="Said: heat", help="A rate: energy needs its time.")
    retention_days: float = number("day", 0, 400, default=0.0, label="Said: retention time",
        help="As the seller or a neighbour tells it.")
