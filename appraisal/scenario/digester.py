"""The tank and the place it stands in: site, digester, pasteuriser."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Lookup, Section, choice, number, profile, text


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
