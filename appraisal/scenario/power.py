"""Who buys the power, at which price and for how long, and other income with a rule of its own."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Event, Section, choice, number, path, text

Contract = Literal["fixed_price", "premium", "difference", "difference_upward", "net_metering"]


class Power(Section):
    """Who buys the power, and what the plant itself uses."""

    plant_use_method: Literal["per_tonne", "by_consumer"] = choice(
        "per_tonne", "by_consumer", default="per_tonne", label="Where the plant's own use comes from",
        help="per_tonne: the figure below; by_consumer: stirrers, pumps, feeders, blower and the rest, from [own_use].")
    plant_use_kwh_per_t: float = number(
        "kWh/t", 0, 100, default=8.0, basis=PRACTICE, label="Power for stirring, pumps and feeding",
        help="Per tonne fed, engine auxiliaries apart; measured plants use 7 to 11 % of gross power in all.")
    contract: Contract = choice(
        "fixed_price", "premium", "difference", "difference_upward", "net_metering", default="fixed_price",
        label="Kind of power contract",
        help="fixed_price: the price below; premium: the market price and a premium on top; difference: the market price and "
        "what lacks to the price below, paid back when the market pays more; difference_upward: the same without paying back; "
        "net_metering: set against the farm's own power bill over the year, the surplus at the price below. Net billing is a "
        "fixed_price with the share used in the same hour below.")
    contract_signed: Literal["yes", "no"] = choice(
        "yes", "no", default="yes", label="Power contract is signed",
        help="A lender's case counts income on signed contracts only.")
    contract_price_per_kwh: float = number("money/kWh", 0, 1, label="Price for power fed to the grid",
        help="In month 0.")
    contract_premium_per_kwh: float = number(
        "money/kWh", 0, 1, default=0.0, label="Premium over the market price", help="For a contract of the kind `premium`.")
    contract_escalation: float = number(
        "share/year", -0.2, 0.3, default=0.0, label="Yearly rise of the contract price", help="Often none.")
    contract_indexed_share: float = number(
        "share", 0, 1, default=1.0, label="Part of the contract price that rises",
        help="0.3: three tenths of the price follow the index, the rest stays as signed.")
    contract_years: float = number(
        "year", 0, 60, default=20.0, basis=PRACTICE, label="Years of the power contract",
        help="From the first month of feeding.", event=Event("the power contract or price programme ends early"))
    market_price_per_kwh: float = number("money/kWh", 0, 1, label="Price after the contract",
        help="In month 0's money; also the market price that a premium or a difference is counted from.")
    market_escalation: float = number(
        "share/year", -0.2, 0.3, default=0.0, label="Yearly rise of the market price",
        help="0.02 is 2 % a year; zero is the cautious figure.")
    market_price_share_by_year: list[float] = path(
        "share", 0, 10, default=1.0, label="Market price by project year, over the price above",
        help="A path of its own: 1, 1, 0.5 halves the market price from project year 3 on. The yearly rise comes on top.")
    market_received_share: float = number(
        "share", 0, 1.5, default=1.0, label="What the plant gets of the market price",
        help="Below 1 after a seller's fee or in cheap hours; above 1 when it runs in dear ones.")
    farm_use_matched_share: float = number(
        "share", 0, 1, default=0.0, label="Share of the farm's power use met in the same hour",
        help="0: all power is sold; 0.7: the engine covers 70 % of what the farm buys now, at the price of that energy.")
    bought_price_per_kwh: float = number(
        "money/kWh", 0, 1, label="Price of power bought for the plant", help="Used while the engine stands.")
    bought_escalation: float = number(
        "share/year", -0.2, 0.3, default=0.02, basis=PRACTICE, label="Yearly rise of bought power",
        help="0.02 is 2 % a year; it moves the bill saved too.")
    bought_price_share_by_year: list[float] = path(
        "share", 0, 10, default=1.0, label="Price of bought power by project year, over the price above",
        help="A path of its own; the yearly rise comes on top, and the bill saved moves with it.")
    demand_charge: Literal["stays", "falls"] = choice(
        "stays", "falls", default="stays", label="Demand charge of the farm",
        help="stays: what is paid for the peak is paid as before; falls: in months without an outage, by the figures below.")
    peak_replaced_kw: float = number(
        "kW", 0, 1e5, default=0.0, label="Peak the engine takes off the grid", help="Measured over the billing interval.")
    demand_price_per_kw_month: float = number(
        "money/kW/month", 0, 200, default=0.0, label="Demand charge", help="Per kW of the month's peak.")
    outage_months_per_year_by_year: list[float] = path(
        "month/year", 0, 12, default=12.0, label="Billing months a year with an outage at the peak",
        help="One short stop of the engine sets the month's peak as if there were none; 12 saves nothing.")
    peak_counts_months: float = number(
        "month", 1, 12, default=1.0, label="Months for which a peak counts",
        help="1: each month stands alone; 12: one peak sets the charge of a whole year.")


class OtherIncome(Section):
    """Income by a rule of its own: capacity payment, certificates, operating grant, or a bill that falls."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    counted_as: Literal["cash", "evidenced_saving", "modelled_saving", "benefit_to_others"] = choice(
        "cash", "evidenced_saving", "modelled_saving", "benefit_to_others", default="cash", label="What it counts as",
        help="cash: somebody pays it; evidenced_saving: a bill of the farm falls; modelled_saving: worth something, but no bill "
        "proves it; benefit_to_others: in no total, only a public funder counts it.")
    signed: Literal["yes", "no"] = choice(
        "yes", "no", default="no", label="It is signed", help="A lender's case counts signed income only.")
    per_year: float = number("money/year", 0, 1e8, default=0.0, label="Fixed part",
        help="From the first month of feeding.")
    per_kw_year: float = number("money/kW/year", 0, 1000, default=0.0, label="Part per rated kW",
        help="Capacity or flexibility payments; rated power of all engines.")
    per_kwh_gross: float = number("money/kWh", 0, 1, default=0.0, label="Part per gross kWh",
        help="Certificates are often counted on what is made.")
    per_kwh_sold: float = number("money/kWh", 0, 1, default=0.0, label="Part per kWh fed to the grid",
        help="On top of the price of the power contract.")
    per_t_fed: float = number("money/t", 0, 1000, default=0.0, label="Part per tonne fed",
        help="For every tonne that enters the digester, water included.")
    per_t_digestate: float = number("money/t", 0, 1000, default=0.0, label="Part per tonne of digestate",
        help="Fertilizer value by the tonne; do not count the same nutrients under fertilizer again.")
    years: float = number("year", 0, 60, default=60.0, label="Years it is paid", help="From the first month of feeding.",
        event=Event("the income {item} ends early"))
    escalation: float = number("share/year", -0.2, 0.3, default=0.0, label="Yearly rise", help="0.02 is 2 % a year.")
