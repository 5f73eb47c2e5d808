"""What the plant itself draws, per tonne or by consumer; engine auxiliaries stand in `power`."""

from appraisal.lines.define import line
from appraisal.lines.trace import total

BY_CONSUMER = {"power_plant_use_method": "by_consumer"}


@line(when={"power_plant_use_method": "per_tonne"})
def process_power__per_tonne(
    tonnes_fed, power_plant_use_kwh_per_t, pasteurised, pasteuriser_power_kwh_per_t, upgrading_power
):
    """Power the process needs [kWh/month]

    Stirring, pumps and feeding per tonne, pasteurising per tonne pasteurised, and upgrading.
    """
    return tonnes_fed * power_plant_use_kwh_per_t + pasteurised * pasteuriser_power_kwh_per_t + upgrading_power


@line(when=BY_CONSUMER)
def stirring_power(clean_volume, second_volume, own_use_stirring_w_per_m3, w_per_kw, hours, feeding):
    """Stirring [kWh/month]

    Liquid volume of all tanks x mean draw x hours.
    """
    return (clean_volume + second_volume) * own_use_stirring_w_per_m3 / w_per_kw * hours * feeding


@line(per="substrate", when={"substrate_handling": "pumped", **BY_CONSUMER})
def substrate_feeding_power__pumped(substrate_tonnes, own_use_feed_pump_kwh_per_t, own_use_reception_pit_kwh_per_t):
    """Power to bring it in [kWh/month]

    Pit stirrer and pump.
    """
    return substrate_tonnes * (own_use_feed_pump_kwh_per_t + own_use_reception_pit_kwh_per_t)


@line(per="substrate", when={"substrate_handling": "solid_feeder", **BY_CONSUMER})
def substrate_feeding_power__solid_feeder(substrate_tonnes, own_use_solid_feeder_kwh_per_t):
    """Power to bring it in [kWh/month]

    Screw or moving floor with dosing.
    """
    return substrate_tonnes * own_use_solid_feeder_kwh_per_t


@line(per="substrate", when={"substrate_handling": "macerated", **BY_CONSUMER})
def substrate_feeding_power__macerated(
    substrate_tonnes, own_use_feed_pump_kwh_per_t, own_use_reception_pit_kwh_per_t, own_use_macerator_kwh_per_t
):
    """Power to bring it in [kWh/month]

    Pit stirrer, chopper and pump.
    """
    pumped = own_use_feed_pump_kwh_per_t + own_use_reception_pit_kwh_per_t
    return substrate_tonnes * (pumped + own_use_macerator_kwh_per_t)


@line(per="substrate", when={"substrate_handling": "macerated_12mm", **BY_CONSUMER})
def substrate_feeding_power__macerated_12mm(
    substrate_tonnes, own_use_feed_pump_kwh_per_t, own_use_reception_pit_kwh_per_t, own_use_macerator_12mm_kwh_per_t
):
    """Power to bring it in [kWh/month]

    Pit stirrer, macerator to 12 mm and pump.
    """
    pumped = own_use_feed_pump_kwh_per_t + own_use_reception_pit_kwh_per_t
    return substrate_tonnes * (pumped + own_use_macerator_12mm_kwh_per_t)


@line(per="substrate", when={"substrate_handling": "depackaged", **BY_CONSUMER})
def substrate_feeding_power__depackaged(
    substrate_delivered,
    substrate_tonnes,
    own_use_feed_pump_kwh_per_t,
    own_use_reception_pit_kwh_per_t,
    own_use_depackaging_kwh_per_t,
):
    """Power to bring it in [kWh/month]

    Depackaging of all that is delivered, pit stirrer and pump for what is fed.
    """
    pumped = own_use_feed_pump_kwh_per_t + own_use_reception_pit_kwh_per_t
    return substrate_delivered * own_use_depackaging_kwh_per_t + substrate_tonnes * pumped


@line(per="substrate", when={"substrate_handling": "finely_ground", **BY_CONSUMER})
def substrate_feeding_power__finely_ground(substrate_tonnes, own_use_solid_feeder_kwh_per_t, own_use_grinder_kwh_per_t):
    """Power to bring it in [kWh/month]

    Mill and solid feeder.
    """
    return substrate_tonnes * (own_use_solid_feeder_kwh_per_t + own_use_grinder_kwh_per_t)


@line(when=BY_CONSUMER)
def feeding_power(each_substrate_feeding_power, water_tonnes, own_use_feed_pump_kwh_per_t):
    """Feeding [kWh/month]

    All feeds, and the pump for wash water.
    """
    return total(each_substrate_feeding_power) + water_tonnes * own_use_feed_pump_kwh_per_t


@line(when=BY_CONSUMER)
def digestate_power(
    digestate_mass, own_use_digestate_pump_kwh_per_t, own_use_separated_share, own_use_separator_kwh_per_t
):
    """Digestate pump and separator [kWh/month]

    The pump for all of it, the separator for its share.
    """
    return digestate_mass * (own_use_digestate_pump_kwh_per_t + own_use_separated_share * own_use_separator_kwh_per_t)


@line(when=BY_CONSUMER)
def pasteuriser_power(pasteurised, pasteuriser_power_kwh_per_t):
    """Pasteuriser [kWh/month]

    Pumps and stirrers, per tonne pasteurised.
    """
    return pasteurised * pasteuriser_power_kwh_per_t


@line(when=BY_CONSUMER)
def gas_blower_power(biogas_made, own_use_gas_blower_kwh_per_nm3):
    """Gas blower and cooler [kWh/month]

    Per volume of biogas.
    """
    return biogas_made * own_use_gas_blower_kwh_per_nm3


@line(when=BY_CONSUMER)
def standing_power(own_use_roof_fan_kw, own_use_control_kw, own_use_flare_kw, hours, feeding):
    """Roof air, control, lighting, flare on standby [kWh/month]

    The same in every hour, also when the engine stands.
    """
    return (own_use_roof_fan_kw + own_use_control_kw + own_use_flare_kw) * hours * feeding


@line(when=BY_CONSUMER)
def circuit_power(power_possible, own_use_heat_pumps_share, own_use_transformer_share):
    """Heating pumps and transformer [kWh/month]

    Shares of gross power.
    """
    return power_possible * (own_use_heat_pumps_share + own_use_transformer_share)


@line(when=BY_CONSUMER)
def process_power__by_consumer(
    stirring_power,
    feeding_power,
    digestate_power,
    pasteuriser_power,
    gas_blower_power,
    standing_power,
    circuit_power,
    upgrading_power,
):
    """Power the process needs [kWh/month]

    Stirring, feeding, digestate, pasteuriser, blower, standing draw, heating pumps, transformer and upgrading.
    """
    machines = stirring_power + feeding_power + digestate_power + pasteuriser_power + gas_blower_power
    return machines + standing_power + circuit_power + upgrading_power
