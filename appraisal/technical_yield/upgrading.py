"""Gas sold instead of burned: what the upgrading machine takes, wins, loses and needs."""

import numpy as np

from appraisal.lines.define import line


@line(when={"upgrading_takes": "nothing"})
def methane_to_upgrading__nothing(methane_to_use):
    """Methane sent to upgrading [Nm3/month]

    None.
    """
    return 0 * methane_to_use


@line(when={"upgrading_takes": "share_of_gas"})
def methane_to_upgrading__share_of_gas(methane_to_use, upgrading_share_of_gas, upgrading_methane_capacity):
    """Methane sent to upgrading [Nm3/month]

    Its share of the gas, as far as the machine reaches.
    """
    return np.minimum(methane_to_use * upgrading_share_of_gas, upgrading_methane_capacity)


@line(when={"upgrading_takes": "share_of_gas"})
def biogas_per_methane(biogas_made, methane_made):
    """Biogas for a volume of methane [Nm3/Nm3]

    Dry; 0 when no gas is made.
    """
    return np.where(methane_made > 0, biogas_made / np.where(methane_made > 0, methane_made, 1), 0)


@line(when={"upgrading_takes": "share_of_gas"})
def upgrading_methane_capacity(
    upgrading_capacity_nm3_per_hour, upgrading_availability, hours, feeding, biogas_per_methane
):
    """Methane that upgrading can take [Nm3/month]

    Its capacity in every available hour, at the methane share of the month's gas.
    """
    gas = upgrading_capacity_nm3_per_hour * upgrading_availability * hours * feeding
    return np.where(biogas_per_methane > 0, gas / np.where(biogas_per_methane > 0, biogas_per_methane, 1), 0)


@line()
def methane_for_engines(methane_to_use, methane_to_upgrading):
    """Methane left for the engines [Nm3/month]

    What is not sent to upgrading.
    """
    return methane_to_use - methane_to_upgrading


@line(when={"upgrading_takes": "share_of_gas"})
def upgrading_gas(methane_to_upgrading, biogas_per_methane):
    """Biogas taken by upgrading [Nm3/month]

    Dry, before the carbon dioxide is taken out.
    """
    return methane_to_upgrading * biogas_per_methane


@line(when={"upgrading_takes": "share_of_gas"})
def upgrading_load(upgrading_gas, upgrading_capacity_nm3_per_hour, hours):
    """Load of upgrading [share]

    Biogas taken over capacity in every hour of the month; most machines hold down to half (table upgrading).
    """
    most = upgrading_capacity_nm3_per_hour * hours
    return np.where(most > 0, upgrading_gas / np.where(most > 0, most, 1), 0)


@line(when={"upgrading_takes": "nothing"})
def methane_sold__nothing(methane_to_upgrading):
    """Methane sold to the gas grid [Nm3/month]

    None.
    """
    return 0 * methane_to_upgrading


@line(when={"upgrading_takes": "share_of_gas"})
def methane_sold__share_of_gas(methane_to_upgrading, upgrading_recovery_share):
    """Methane sold to the gas grid [Nm3/month]

    What upgrading wins.
    """
    return methane_to_upgrading * upgrading_recovery_share


@line()
def gas_sold(methane_sold, methane_hhv_kwh_per_nm3):
    """Gas sold [kWh/month]

    On the higher heating value, as gas is billed.
    """
    return methane_sold * methane_hhv_kwh_per_nm3


@line(when={"upgrading_takes": "nothing"})
def upgrading_slip__nothing(methane_to_upgrading):
    """Methane lost by upgrading [Nm3/month]

    None.
    """
    return 0 * methane_to_upgrading


@line(when={"upgrading_takes": "share_of_gas"})
def upgrading_slip__share_of_gas(methane_to_upgrading, upgrading_slip_share, upgrading_recovery_share):
    """Methane lost by upgrading [Nm3/month]

    To the air; never more than what does not reach the grid. The rest is burnt in the waste gas.
    """
    return methane_to_upgrading * np.minimum(upgrading_slip_share, 1 - upgrading_recovery_share)


@line(when={"upgrading_takes": "nothing"})
def upgrading_power__nothing(methane_to_upgrading):
    """Power for upgrading [kWh/month]

    None.
    """
    return 0 * methane_to_upgrading


@line(when={"upgrading_takes": "share_of_gas"})
def upgrading_power__share_of_gas(upgrading_gas, upgrading_power_kwh_per_nm3):
    """Power for upgrading [kWh/month]

    Biogas taken x power per volume.
    """
    return upgrading_gas * upgrading_power_kwh_per_nm3


@line(when={"upgrading_takes": "nothing"})
def upgrading_heat__nothing(methane_to_upgrading):
    """Heat for upgrading [kWh/month]

    None.
    """
    return 0 * methane_to_upgrading


@line(when={"upgrading_takes": "share_of_gas"})
def upgrading_heat__share_of_gas(upgrading_gas, upgrading_heat_kwh_per_nm3):
    """Heat for upgrading [kWh/month]

    Biogas taken x heat per volume; hotter than engine heat, so it is bought.
    """
    return upgrading_gas * upgrading_heat_kwh_per_nm3
