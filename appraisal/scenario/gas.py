"""What happens to the gas between tank, engine and grid: store and flare, boiler, cleaning, upgrading, power limit."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Event, Lookup, Section, choice, number, path, text


class Gas(Section):
    """The gas store and the flare."""

    storage_m3: float = number("m3", 0, 200000, default=0.0, label="Gas store",
        help="Roof or bag, as it stands, wet; 0: not stated.")
    storage_temperature_degc: float = number(
        "degC", -30, 60, default=25.0, basis=PRACTICE, label="Temperature of the stored gas",
        help="Warm gas fills more room: the same gas takes a tenth more at 38 than at 15 degC, vapour included.")
    storage_pressure_kpa: float = number(
        "kPa", 0, 100, default=0.5, source="table kinetics, wet_to_dry_38", basis="common practice, no source",
        label="Pressure in the gas store", help="Above the outside air; 0.5 kPa are 5 mbar.")
    flare_nm3_per_hour: float = number("Nm3/hour", 0, 50000, default=0.0, label="Reach of the flare",
        help="Dry biogas it can burn; 0: not stated.")
    peak_over_mean: float = number(
        "share", 1, 5, default=1.25, basis=PRACTICE, label="Peak gas over the mean of the month",
        help="Gas rises in the hours after feeding and when the tank is stirred.")


class Boiler(Section):
    """A boiler for gas that the engines cannot take."""

    fuel: Literal["none", "biogas"] = choice(
        "none", "biogas", default="none", label="Boiler on biogas",
        help="biogas: what the engines leave warms the digester before any fuel is bought; only the rest is flared.")
    rated_kw: float = number("kW", 0, 50000, default=0.0, label="Rated heat", help="Heat out, at full fire.")
    efficiency: float = number(
        "share", 0.4, 1, default=0.88, basis=PRACTICE, label="Efficiency of the boiler",
        help="Heat out over gas energy on the lower heating value.")
    slip_share: float = number(
        "share", 0, 0.1, lookup=Lookup(table="project_losses", column="mid", key="=boiler", scale=0.01),
        label="Methane slip of the boiler", help="Of the boiler's fuel, unburned in the exhaust.")


class Grid(Section):
    """How much power the grid takes."""

    export: Literal["unlimited", "limited"] = choice(
        "unlimited", "limited", default="unlimited", label="Power the grid takes",
        help="limited: never more than the figure below.")
    export_limit_kw: float = number("kW", 0, 1e6, default=0.0, label="Export limit",
        help="From the connection offer. Held against the mean power fed in while an engine runs.")
    over_limit: Literal["throttled", "flared"] = choice(
        "throttled", "flared", default="throttled", label="Gas that the limit leaves unburned",
        help="The engines are turned down to the limit. throttled: the gas saved goes to the boiler first, then to the "
        "flare; flared: all of it is flared.")


class Cleaning(Section):
    """Hydrogen sulphide: what the feed brings, and what takes it out: iron in the tank, then air, then carbon."""

    sulphide_share: float = number(
        "share", 0.02, 0.8, default=0.25,
        basis="judged: dairy manure then gives some 2,600 ppm; practice is 2,000 to 4,000 (table digester_limits, from memory)",
        label="Sulphur of the feed that leaves as hydrogen sulphide",
        help="The rest stays in the digestate, bound to metals or dissolved. Measure it: plants differ by a factor of five.")
    iron: Literal["no", "yes"] = choice("no", "yes", default="no", label="Iron salts or hydroxide in the feed",
        help="Binds sulphide in the tank.")
    iron_removal_share: float = number(
        "share", 0, 0.98, default=0.7, basis="from memory", label="Taken out by iron",
        help="Of the hydrogen sulphide that would leave without it; more iron takes out more.")
    iron_kg_per_kg: float = number(
        "kg/kg", 1, 10, default=2.3, source="table running_costs, iron_chloride (1.7 to 3 kg)",
        basis="from memory; judged, no source: the middle", label="Iron per hydrogen sulphide taken out",
        help="Kilograms of iron as the element; 1.6 would do in theory.")
    iron_price_per_kg: float = number("money/kg", 0, 100, default=0.0, label="Price of iron",
        help="Per kg of iron in the product: price of the product over its iron content.")
    air: Literal["no", "yes"] = choice("no", "yes", default="no", label="Air dosed into the gas space",
        help="Bacteria make sulphur of hydrogen sulphide and a little oxygen. Local safety codes set the limit.")
    air_share: float = number(
        "share", 0, 0.2, default=0.03, source="table digester_limits, air_dosing (1 to 6 %)", basis="from memory",
        label="Air dosed", help="Of the biogas volume; the blower must not be able to pass the limit.")
    air_removal_share: float = number(
        "share", 0, 0.995, default=0.85, source="table digester_limits, air_dosing (a trial took 99 %)",
        basis="judged, no source: farm plants do worse than the trial", label="Taken out by air",
        help="Of what iron leaves, as far as the oxygen goes.")
    carbon: Literal["no", "yes"] = choice("no", "yes", default="no", label="Activated carbon before the engine",
        help="Takes out nearly all of what is left, and is used up.")
    carbon_removal_share: float = number(
        "share", 0, 1, default=0.95, basis="from memory", label="Taken out by carbon", help="Of what iron and air leave.")
    carbon_holds_kg_per_kg: float = number(
        "kg/kg", 0.01, 1, lookup=Lookup(table="running_costs", column="mid", key="=carbon_capacity", scale=0.001),
        label="Hydrogen sulphide held by carbon", help="Per kg of carbon when it is changed.")
    carbon_price_per_kg: float = number("money/kg", 0, 100, default=0.0, label="Price of carbon",
        help="Per kg, with changing and disposal.")
    upkeep_per_year: float = number("money/year", 0, 1e7, default=0.0, label="Upkeep of gas cleaning",
        help="Blower, probes, dosing pump, cooler: whatever is not priced per kg.")


class Upgrading(Section):
    """Gas sold instead of burned: a machine takes carbon dioxide out, and the methane goes to the gas grid."""

    takes: Literal["nothing", "share_of_gas"] = choice(
        "nothing", "share_of_gas", default="nothing", label="What is upgraded",
        help="share_of_gas: the share below, as far as the machine reaches; the engines get the rest.")
    like: str = text(default="membrane_250", label="Technology and size",
        help="A row of `appraisal reference upgrading`; it fills what is left out below.")
    share_of_gas: float = number("share", 0, 1, default=1.0, label="Share of the gas sent to upgrading",
        help="Of the methane after leaks. Keep back what the boiler needs.")
    capacity_nm3_per_hour: float = number("Nm3/hour", 0, 50000, default=0.0, label="Capacity of upgrading",
        help="Dry biogas it can take.")
    availability: float = number("share", 0.3, 1, default=0.96, basis=PRACTICE, label="Availability of upgrading",
        help="After planned and unplanned stops; the Danish data sheet of 2020 has 0.989 for a large amine scrubber.")
    recovery_share: float = number(
        "share", 0.5, 1, lookup=Lookup(table="upgrading", column="methane_recovery_share_mid", key="like"),
        label="Methane that reaches the gas grid", help="Of the methane sent to upgrading.")
    slip_share: float = number(
        "share", 0, 0.2, lookup=Lookup(table="upgrading", column="methane_slip_share_mid", key="like"),
        label="Methane lost by upgrading",
        help="To the air, of the methane sent; what neither reaches the grid nor is lost is burnt in the waste gas.")
    power_kwh_per_nm3: float = number(
        "kWh/Nm3", 0, 2, lookup=Lookup(table="upgrading", column="electricity_kWh_per_Nm3_raw_mid", key="like"),
        label="Power for upgrading", help="Per Nm3 of biogas taken; add the compression to the pressure of the grid.")
    heat_kwh_per_nm3: float = number(
        "kWh/Nm3", 0, 2, lookup=Lookup(table="upgrading", column="heat_kWh_per_Nm3_raw_mid", key="like"),
        label="Heat for upgrading",
        help="Per Nm3 of biogas taken, hotter than an engine gives: it is bought at the price of backup heat.")
    upkeep_per_year: float = number("money/year", 0, 1e8, default=0.0, label="Upkeep of upgrading",
        help="Power and heat apart: 4 to 9 % of what it cost (table upgrading); injection fees and propane too.")
    upkeep_per_nm3: float = number("money/Nm3", 0, 10, default=0.0, label="Upkeep of upgrading by volume",
        help="Per Nm3 of biogas taken.")
    contract_price_per_kwh: float = number("money/kWh", 0, 1, default=0.0, label="Price of gas sold",
        help="In month 0, per kWh on the higher heating value, as gas is billed.")
    contract_escalation: float = number("share/year", -0.2, 0.3, default=0.0,
        label="Yearly rise of the gas contract's price", help="0.02 is 2 % a year.")
    contract_years: float = number("year", 0, 60, default=10.0, basis=PRACTICE, label="Years of the gas contract",
        help="From the first month of feeding.", event=Event("the gas contract ends early"))
    market_price_per_kwh: float = number("money/kWh", 0, 1, default=0.0, label="Price of gas after the contract",
        help="In month 0's money, per kWh on the higher heating value.")
    market_escalation: float = number("share/year", -0.2, 0.3, default=0.0,
        label="Yearly rise of the market price of gas", help="0.02 is 2 % a year; zero is the cautious figure.")
    market_price_share_by_year: list[float] = path("share", 0, 10, default=1.0,
        label="Market price of gas by project year, over the price above",
        help="A path of its own: 1, 1, 0.5 halves it from project year 3 on. The yearly rise comes on top.")
