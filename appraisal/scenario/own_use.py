"""What each machine of the plant draws, used when `power.plant_use_method` is `by_consumer`."""

from __future__ import annotations

from appraisal.scenario.quantity import Lookup, Section, number, text


def _row(id: str) -> Lookup:
    return Lookup(table="own_use", column="mid", key=f"={id}")


class OwnUse(Section):
    """Power of the plant by consumer. Used only when `power.plant_use_method` is `by_consumer`."""

    stirring_like: str = text(default="stir_manure_food", label="Kind of stirring",
        help="A row `stir_...` in W/m3 of `appraisal reference own_use`: thin slurry, manure and food, fibrous, plug flow.")
    stirring_w_per_m3: float = number(
        "W/m3", 0, 100, lookup=Lookup(table="own_use", column="mid", key="stirring_like"), label="Stirring",
        help="Mean draw over the year per m3 of liquid, not the installed power.")
    reception_pit_kwh_per_t: float = number("kWh/t", 0, 50, lookup=_row("stir_reception_pit"),
        label="Stirring of the reception pit", help="Per tonne of pumped or macerated feed.")
    feed_pump_kwh_per_t: float = number("kWh/t", 0, 50, lookup=_row("feed_pump"), label="Feed pump",
        help="Per tonne of everything pumped in, wash water too; 1 t is taken as 1 m3.")
    solid_feeder_kwh_per_t: float = number("kWh/t", 0, 100, lookup=_row("solid_feeder"), label="Solid feeder",
        help="Per tonne of feeds that are handled as `solid_feeder`.")
    macerator_kwh_per_t: float = number("kWh/t", 0, 100, lookup=_row("macerator"), label="Macerator",
        help="Per tonne of feeds that are handled as `macerated`.")
    macerator_12mm_kwh_per_t: float = number("kWh/t", 0, 100, lookup=_row("macerator_food_12mm"),
        label="Macerator for food waste", help="Per tonne of feeds that are handled as `macerated_12mm`.")
    depackaging_kwh_per_t: float = number("kWh/t", 0, 100, lookup=_row("depackaging"), label="Depackaging",
        help="Per tonne of feeds that are handled as `depackaged`.")
    grinder_kwh_per_t: float = number("kWh/t", 0, 100, lookup=_row("hammer_mill"), label="Fine grinding",
        help="Per tonne of feeds that are handled as `finely_ground`.")
    digestate_pump_kwh_per_t: float = number("kWh/t", 0, 50, lookup=_row("digestate_pump"), label="Digestate pump",
        help="Per tonne of digestate, tank to tank and to the store.")
    separator_kwh_per_t: float = number("kWh/t", 0, 50, lookup=_row("separator_screw"), label="Separator",
        help="Per tonne of digestate that goes through it; a decanter centrifuge draws 2 to 5.")
    separated_share: float = number("share", 0, 1, default=0.0, label="Digestate that is separated",
        help="Only for its power here.")
    gas_blower_kwh_per_nm3: float = number("kWh/Nm3", 0, 1, lookup=_row("gas_blower_cooler"), label="Gas blower and cooler",
        help="Per Nm3 of biogas; upgrading has its own.")
    roof_fan_kw: float = number("kW", 0, 100, lookup=_row("roof_support_fan"), label="Support air of gas roofs",
        help="All roofs together; it runs all year.")
    control_kw: float = number("kW", 0, 200, lookup=_row("control_lighting"), label="Control, lighting, compressed air",
        help="Mean draw, all year.")
    flare_kw: float = number("kW", 0, 50, lookup=_row("flare"), label="Flare on standby", help="Mean draw, all year.")
    heat_pumps_share: float = number("share", 0, 0.1, lookup=_row("heat_pumps"), label="Pumps of the heating circuit",
        help="Of gross power.")
    transformer_share: float = number("share", 0, 0.1, default=0.0, label="Transformer and cable",
        help="Of gross power, lost before the meter that is paid for: 0.008 to 0.025 where that stands behind the transformer "
        "(table own_use), 0 where it stands at the generator.")
