"""What is built: site, digester, pasteuriser, engines, and where heat and power go."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Lookup, Section, choice, number, profile, text


def _by_size(column: str) -> Lookup:
    return Lookup(table="engines", column=column, key="rated_kw", interpolate=True)


class Site(Section):
    """Where the plant stands."""

    climate: str = text(default="", label="Climate",
        help="A row of `appraisal reference climates`, or give temperatures.")
    air_temperature_degc: list[float] = profile(
        "degC", -50, 50, lookup=Lookup(table="climates", column="t_{month}_degC", key="climate"),
        label="Mean air temperature",
        help="Twelve monthly means.")
    feed_temperature_degc: list[float] = profile(
        "degC", 0, 90, default=12.0, basis=PRACTICE, label="Temperature of the feed",
        help="Manure fresh from the barn is warmer than manure from an outdoor pit.")


class Digester(Section):
    """The heated tank."""

    kind: Literal["stirred_tank", "plug_flow"] = choice(
        "stirred_tank", "plug_flow", label="Kind of digester",
        help="One fully mixed tank, or a channel the manure moves through.")
    gas_method: Literal["model", "measured"] = choice(
        "model", "measured", default="model", label="Where the gas figure comes from",
        help="model: from feeds and retention; measured: from a working plant, and the model only shares it among the feeds.")
    active_volume_m3: float = number(
        "m3", 5, 200000, label="Active volume", help="Liquid in use: about 88 % of the gross tank (from memory).")
    retention: Literal["from_volume", "declared"] = choice(
        "from_volume", "declared", default="from_volume", label="Retention time comes from",
        help="from_volume: active volume over daily flow, every month; declared: the figure below, held against the volume.")
    declared_retention_days: float = number(
        "day", 1, 400, default=30.0, label="Declared retention time", help="Used only when retention is `declared`.")
    temperature_degc: float = number("degC", 20, 60, default=39.0, basis=PRACTICE, label="Digester temperature",
        help="35 to 42 degC is usual; hotter gives gas faster and is less forgiving.")
    test_share_of_ultimate: float = number(
        "share", 0.7, 1, lookup=Lookup(table="kinetics", column="mid", key="=share_test_standard"),
        label="Share of the ultimate potential that an ordinary test holds",
        help="Used for potentials of kind ordinary_test.")
    ramp_months: float = number(
        "month", 0, 24, default=6.0, basis=PRACTICE, label="Months until full gas",
        help="Gas rises evenly from the first feeding; feed, fees and labour start at once.")
    availability: float = number(
        "share", 0.3, 1, default=0.97, basis=PRACTICE, label="Share of the time the digester works as designed",
        help="Upsets, repairs, clean-outs.")
    leak_share: float = number(
        "share", 0, 0.3, lookup=Lookup(table="project_losses", column="mid", key="=leak_farm_typical", scale=0.01),
        label="Methane that leaks", help="Of methane made.")
    heat_loss_w_per_k: float = number(
        "W/K", 0, 20000, label="Heat loss of the tank", help="Walls, roof and floor: area x U, added up.")
    nitrogen_loss_share: float = number(
        "share", 0, 0.3, default=0.02, basis=PRACTICE, label="Nitrogen lost as ammonia",
        help="From digester and store.")
    measured_gas_nm3_per_day: float = number(
        "Nm3/day", 0, 1e6, default=0.0, label="Measured gas",
        help="Dry biogas; used only when the method is `measured`.")
    measured_methane_share: float = number(
        "share", 0.3, 0.8, default=0.6, basis=PRACTICE, label="Methane in the measured gas", help="Of dry gas.")


class Pasteuriser(Section):
    """Heating of regulated food waste, where the authority asks for it."""

    treats: Literal["nothing", "regulated_feeds", "everything"] = choice(
        "nothing", "regulated_feeds", "everything", default="nothing", label="What is pasteurised",
        help="In the EU 70 degC for one hour at 12 mm for most food waste of animal origin; ask the authority.")
    temperature_degc: float = number("degC", 55, 95, default=70.0, basis="read: EU 142/2011 Annex V",
        source="Commission Regulation (EU) No 142/2011, Annex V", label="Temperature",
        help="What the rule of the place asks for.")
    heat_recovery_share: float = number(
        "share", 0, 0.9, default=0.5, basis=PRACTICE, label="Heat recovered",
        help="Of the heat above digester temperature.")
    power_kwh_per_t: float = number(
        "kWh/t", 0, 50, lookup=Lookup(table="own_use", column="mid", key="=pasteuriser_electricity"), label="Power",
        help="Pumps and stirrers, per tonne pasteurised.")


class Engine(Section):
    """One engine and its generator."""

    rated_kw: float = number("kW", 5, 20000, label="Rated power", help="Electric, at the generator.")
    running: Literal["modulated", "full_load"] = choice(
        "modulated", "full_load", default="modulated", label="How it follows the gas",
        help="modulated: turned down as far as its minimum load; full_load: full power, with stops.")
    efficiency_full: float = number(
        "share", 0.15, 0.5, lookup=_by_size("efficiency_full"), label="Electric efficiency at full load",
        help="On the lower heating value; a figure on the higher one is multiplied by 1.11.")
    efficiency_half: float = number(
        "share", 0.1, 0.5, lookup=_by_size("efficiency_50"), label="Electric efficiency at half load",
        help="From the maker's sheet; between half and full load a straight line is drawn.")
    heat_efficiency_full: float = number(
        "share", 0, 0.7, lookup=_by_size("heat_efficiency_full"), label="Usable heat at full load",
        help="Of gas energy.")
    heat_efficiency_half: float = number(
        "share", 0, 0.7, lookup=_by_size("heat_50"), label="Usable heat at half load", help="Of gas energy.")
    minimum_load: float = number("share", 0.2, 1, lookup=_by_size("min_load"), label="Minimum load",
        help="Below it the engine stops and waits for gas.")
    availability: float = number(
        "share", 0.3, 1, lookup=_by_size("availability"), label="Availability",
        help="After planned and unplanned stops.")
    slip_share: float = number(
        "share", 0, 0.1, lookup=_by_size("methane_slip_share_mid"), label="Methane slip",
        help="Of the engine's fuel, unburned in the exhaust.")
    auxiliaries_share: float = number(
        "share", 0, 0.2, lookup=Lookup(table="own_use", column="mid", key="=engine_auxiliaries"),
        label="Power for the engine's own pumps and fans", help="Of gross power.")
    maintenance: Literal["routine", "full_service"] = choice(
        "routine", "full_service", default="routine", label="Maintenance",
        help="routine: overhauls are paid apart; full_service: overhauls are inside the price per kWh. Never both.")
    maintenance_per_kwh: float = number(
        "money/kWh", 0, 0.2, label="Maintenance price", help="Per gross kWh, for the kind of maintenance chosen.")
    top_end_interval_hours: float = number(
        "hour", 1000, 60000, lookup=_by_size("top_end_interval_h_mid"), label="Run hours between top-end overhauls",
        help="Cylinder heads and valves; from the maker's plan.")
    top_end_cost: float = number("money", 0, 1e7, default=0.0, label="Cost of a top-end overhaul",
        help="Price date's money.")
    major_interval_hours: float = number(
        "hour", 2000, 120000, lookup=_by_size("major_interval_h_mid"), label="Run hours between major overhauls",
        help="Full rebuild or exchange; it includes a top end.")
    major_cost: float = number("money", 0, 1e7, default=0.0, label="Cost of a major overhaul",
        help="Price date's money.")


class Heat(Section):
    """Where the engine's heat goes after the digester, in this order: house, barn, sold."""

    house_kwh: list[float] = profile(
        "kWh/month", 0, 1e6, default=0.0, label="Heat the house needs", help="Useful heat, not fuel.")
    barn_kwh: list[float] = profile(
        "kWh/month", 0, 1e6, default=0.0, label="Heat the barn needs",
        help="Useful heat: parlour water, calves, workshop.")
    sold_kwh: list[float] = profile(
        "kWh/month", 0, 1e7, default=0.0, label="Heat a neighbour would buy",
        help="What the buyer takes in each month when there is enough.")
    sold_price_per_kwh: float = number("money/kWh", 0, 1, default=0.0, label="Price of sold heat",
        help="Price of month 0 at the meter of the buyer.")
    backup_fuel_price_per_kwh: float = number(
        "money/kWh", 0, 1, default=0.08, basis=PRACTICE, label="Price of backup heat",
        help="Bought in months when the engine cannot keep the digester warm.")
    escalation: float = number("share/year", -0.2, 0.3, default=0.02, basis=PRACTICE,
        label="Yearly rise of fuel prices",
        help="0.02 is 2 % a year; it moves fuel saved, heat sold and backup heat alike.")
