"""The tank and the place it stands in: site, digester, pasteuriser."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Lookup, Section, choice, number, profile, text


class Site(Section):
    """Where the plant stands: air, ground and the warmth of what is fed."""

    climate: str = text(default="", label="Climate",
        help="A row of `appraisal reference climates`, or give temperatures.")
    air_temperature_degc: list[float] = profile(
        "degC", -50, 50, lookup=Lookup(table="climates", column="t_{month}_degC", key="climate"),
        label="Mean air temperature",
        help="Twelve monthly means.")
    soil_temperature_degc: list[float] = profile(
        "degC", -20, 40, default=10.0, basis=PRACTICE,
        lookup=Lookup(table="climates", column="soil_{month}_degC", key="climate"), label="Soil beside a buried wall",
        help="Twelve monthly means 1 to 2 m down. Used only when digester.heat_loss_method is `from_walls`.")
    ground_temperature_degc: list[float] = profile(
        "degC", -20, 40, default=10.0, basis=PRACTICE,
        lookup=Lookup(table="climates", column="soil_mean_degC", key="climate"), label="Ground under the floor",
        help="Hardly moves with the season, so the yearly mean of the soil. Used only when digester.heat_loss_method is "
        "`from_walls`.")
    elevation_m: float = number(
        "m", -430, 5000, default=0.0, lookup=Lookup(table="climates", column="elevation_m", key="climate"),
        label="Height above the sea", help="Thin air: gas takes more room, and engines lose power.")
    coldest_day_degc: float = number(
        "degC", -60, 30, default=-20.0, basis="judged: colder than in four of five rows of table climates",
        lookup=Lookup(table="climates", column="design_cold_degC", key="climate"), label="Mean of the coldest day",
        help="The digester is checked on it; it moves no money.")
    rain_mm_per_year: float = number(
        "mm/year", 0, 12000, default=1000.0, basis="judged: a wet farm",
        lookup=Lookup(table="climates", column="rain_mm_per_year", key="climate"), label="Rain in a year",
        help="Used only for open yards that drain to the manure.")
    feed_temperature: Literal["given", "as_air"] = choice(
        "given", "as_air", default="given", label="How warm the feed arrives",
        help="given: as below; as_air: as warm as the air of the month, but not below the floor below.")
    feed_temperature_degc: list[float] = profile(
        "degC", 0, 90, default=12.0, basis=PRACTICE, label="Temperature of the feed",
        help="Manure fresh from the barn is warmer than manure from an outdoor pit.")
    feed_temperature_floor_degc: float = number(
        "degC", 0, 40, default=4.0, basis="from memory: water is heaviest at 4 degC, so a pit under ice stays near it",
        label="Coldest that feed gets", help="Used only when the feed is as warm as the air.")
    frozen_share: list[float] = profile(
        "share", 0, 1, default=0.0, label="Part of the feed that arrives frozen",
        help="Its ice is thawed in the plant: some 90 kWh a tonne of water, as much as warming it by 80 K.")
    wash_water: Literal["as_feed", "given"] = choice(
        "as_feed", "given", default="as_feed", label="How warm wash, flush and rain water arrives",
        help="as_feed: as warm as the feed; given: as below.")
    wash_water_temperature_degc: list[float] = profile(
        "degC", 0, 90, default=10.0, basis=PRACTICE, label="Temperature of wash, flush and rain water",
        help="Water from a well is about as warm as the yearly mean of the soil.")


class Digester(Section):
    """The tank: its kind, its volume, its warmth, and how fast it turns feed into gas."""

    kind: Literal["stirred_tank", "tanks_in_series", "plug_flow", "covered_lagoon"] = choice(
        "stirred_tank", "tanks_in_series", "plug_flow", "covered_lagoon", label="Kind of digester",
        help="One fully mixed tank; a fully mixed tank with a second one behind it whose gas is caught too; a channel the "
        "manure moves through; a covered pond without heating.")
    gas_method: Literal["model", "measured"] = choice(
        "model", "measured", default="model", label="Where the gas figure comes from",
        help="model: from feeds and retention; measured: from a working plant, and the model only shares it among the feeds.")
    kinetics: Literal["first_order", "chen_hashimoto"] = choice(
        "first_order", "chen_hashimoto", default="first_order", label="Method for the share of the potential that is won",
        help="first_order: a rate constant for each feed; chen_hashimoto: growth of the microbes on thin manure alone in one "
        "stirred tank. The two give different gas and are never mixed.")
    kinetics_manure: Literal["cattle", "swine"] = choice(
        "cattle", "swine", default="cattle", label="Manure of the growth method",
        help="Whose kinetic term stands when kinetics is `chen_hashimoto`.")
    volume_from: Literal["given", "sized"] = choice(
        "given", "sized", default="given", label="Where the volume comes from",
        help="given: the volume below; sized: the wanted retention time x the mean flow of the first full year.")
    active_volume_m3: float = number(
        "m3", 0, 200000, default=0.0, label="Active volume",
        help="Liquid in use: about 88 % of the gross tank (from memory). Of two tanks in series the first.")
    wanted_retention_days: float = number(
        "day", 2, 400, default=30.0, basis=PRACTICE, label="Wanted retention time",
        help="Used only when the volume is `sized`; of two tanks in series that of the first.")
    retention: Literal["from_volume", "declared"] = choice(
        "from_volume", "declared", default="from_volume", label="Retention time comes from",
        help="from_volume: active volume over daily flow, every month; declared: the figure below, held against the volume.")
    declared_retention_days: float = number(
        "day", 1, 400, default=30.0, label="Declared retention time", help="Used only when retention is `declared`.")
    temperature_degc: float = number("degC", 20, 60, default=39.0, basis=PRACTICE, label="Digester temperature",
        help="35 to 42 degC is usual; hotter gives gas faster and is less forgiving. A covered lagoon follows the weather.")
    second_volume_m3: float = number(
        "m3", 0, 200000, default=0.0, label="Active volume of the second tank",
        help="Used only for tanks in series; its gas is caught. A store without a gas-tight cover does not count.")
    second_temperature_degc: float = number(
        "degC", 20, 60, default=35.0, basis=PRACTICE, label="Temperature of the second tank",
        help="Used only for tanks in series; often kept warm by what flows in, and a little cooler than the first.")
    grit_share_per_year: float = number(
        "share/year", 0, 0.2, default=0.0, label="Volume lost to grit in a year",
        help="Of the clean tank, until it is cleaned out: 0.01 to 0.03 is usual (from memory). Sand bedding that is entered with "
        "a herd settles besides.")
    ph_low: float = number("1", 5, 10, lookup=Lookup(table="digester_limits", column="comfortable_low", key="=ph"),
        label="Lowest pH to reckon with", help="pH cannot be known before building: free ammonia is shown between the two.")
    ph_high: float = number("1", 5, 10, lookup=Lookup(table="digester_limits", column="comfortable_high", key="=ph"),
        label="Highest pH to reckon with", help="The higher the pH, the more of the nitrogen is poisonous ammonia.")
    test_share_of_ultimate: float = number(
        "share", 0.7, 1, lookup=Lookup(table="kinetics", column="mid", key="=share_test_standard"),
        label="Share of the ultimate potential that an ordinary test holds",
        help="Used for potentials of kind ordinary_test.")
    ramp_months: float = number(
        "month", 0, 24, default=6.0, basis=PRACTICE, label="Months until full gas",
        help="Gas rises evenly from the first feeding; feed, fees and labour start at once.")
    availability: float = number(
        "share", 0.3, 1, default=0.97, basis=PRACTICE, label="Share of the time the digester works as designed",
        help="Small upsets and repairs, and clean-outs unless they are entered as such; a soured tank is entered apart.")
    gas_cut_share: float = number(
        "share", 0, 0.9, default=0.0, label="Gas cut, in every month",
        help="0: as entered. Past a stop-and-ask limit everything is worked out a second time with judging.gas_cut_share here.")
    leak_share: float = number(
        "share", 0, 0.3, lookup=Lookup(table="project_losses", column="mid", key="=leak_farm_typical", scale=0.01),
        label="Methane that leaks", help="Of methane made.")
    heat_loss_method: Literal["given", "from_walls"] = choice(
        "given", "from_walls", default="given", label="Where the heat loss of the tank comes from",
        help="given: the figure below, against outside air; from_walls: areas and builds in [shell], against air and soil.")
    heat_loss_w_per_k: float = number(
        "W/K", 0, 20000, default=0.0, label="Heat loss of the tank",
        help="Walls, roof and floor: area x U, added up; of tanks in series both together.")
    digestate_heat_recovery_share: float = number(
        "share", 0, 0.7, default=0.0, label="Feed warming won back from the digestate",
        help="By an exchanger between what leaves and what enters; about half is common, 0 is no exchanger.")
    heat_of_digestion_kwh_per_nm3: float = number(
        "kWh/Nm3", 0, 0.55, default=0.0, source="table kinetics, heat_per_ch4 (0.54 for glucose, a seventh of it lost again)",
        basis="judged: left out", label="Heat set free by digestion",
        help="Per Nm3 of methane. 0 leaves it out, which is the safe side; other feeds than sugar give less.")
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
