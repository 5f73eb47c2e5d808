"""The yardsticks, and what others say of the plant."""

from __future__ import annotations

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Section, number, text


class Judging(Section):
    """The yardsticks the result is held against."""

    discount_rate: float = number(
        "share/year", 0, 0.4, label="Yearly return asked of the money (discount rate)",
        help="Nominal: what the money could earn elsewhere at like risk.")
    finance_rate: float = number(
        "share/year", 0, 0.4, default=0.06, basis=PRACTICE, label="Finance rate of the modified return",
        help="At this rate the money put in is counted.")
    reinvest_rate: float = number(
        "share/year", 0, 0.4, default=0.03, basis=PRACTICE, label="Reinvestment rate of the modified return",
        help="At this rate the money that comes back is counted.")
    least_cover: float = number(
        "times", 1, 3, default=1.25, basis=PRACTICE, label="Least cover of debt service",
        help="Cash for debt service over debt service.")
    least_chance_share: float = number(
        "share", 0, 1, default=0.8, basis=PRACTICE, label="Least chance of not losing money",
        help="House rule: in so many of all futures the plant must be worth nothing or more in today's money.")
    longest_payback_years: float = number(
        "year", 0, 60, default=10.0, basis=PRACTICE, label="Longest time until the money is back",
        help="House rule: years from the first spending until all money put in has come back.")
    least_month_cash_amount: float = number(
        "money", -1e9, 1e9, default=0.0, basis=PRACTICE, label="Least cash in the worst month",
        help="House rule: what the worst month must leave once the plant runs in full; below zero, what it may cost at most. "
        "0: it may cost what the plant itself has earned since its first full year began; the family need not pay in again.")
    own_money_amount: float = number(
        "money", 0, 1e9, default=0.0, label="Own money the family can put in at most",
        help="How far the account may fall below zero; futures in which it falls further are counted. 0: none at all.")
    home_kwh_per_year: float = number(
        "kWh/year", 500, 50000, default=10500.0, source="US EIA, mean US home of about 10,500 kWh a year",
        basis="from memory",
        label="Power of one home", help="For `homes supplied`; European homes use about 3,500.")
    gas_cut_share: float = number(
        "share", 0, 0.9, default=0.2, basis=PRACTICE, label="Gas cut past a stop-and-ask limit",
        help="When an operating limit says stop and ask, value and cover are shown a second time with so much less gas.")
    gas_cut_reason: str = text(
        default="common practice, no source: a tank in trouble loses a fifth of its gas or more", label="Why this gas cut",
        help="Printed beside it. A range on the figure above says how sure you are.")


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
