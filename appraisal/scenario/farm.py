"""What the farm is now: a year of what it buys."""

from __future__ import annotations

from appraisal.scenario.quantity import Section, number, profile

PRACTICE = "common practice, no source"


class FarmNow(Section):
    """The farm as it is: a year of what it buys, with the bills. A saving never exceeds the bill it replaces."""

    power_kwh: list[float] = profile(
        "kWh/month", 0, 1e7, default=0.0, label="Power bought now",
        help="From twelve monthly bills; one number if every month is alike.")
    power_bill: list[float] = profile(
        "money/month", 0, 1e7, default=0.0, label="Power bill now", help="The whole bill with its fixed charges.")
    power_bill_energy_share: float = number(
        "share", 0, 1, default=0.75, basis=PRACTICE,
        label="Part of the power bill that falls when fewer kWh are bought",
        help="Fixed and demand charges stay; read it off the bill.")
    heating_fuel_kwh: list[float] = profile(
        "kWh/month", 0, 1e7, default=0.0, label="Heating fuel bought now",
        help="Energy in the fuel on its lower heating value: 1 L heating oil is about 10 kWh, 1 US gal propane about 25 kWh.")
    heating_fuel_bill: list[float] = profile(
        "money/month", 0, 1e7, default=0.0, label="Heating fuel bill now", help="What that fuel cost.")
    boiler_efficiency: float = number(
        "share", 0.3, 1.0, default=0.85, basis=PRACTICE, label="Efficiency of the boiler now",
        help="Heat out over fuel in, on the lower heating value.")
    fertilizer_n_kg: float = number(
        "kg/year", 0, 1e6, default=0.0, label="Nitrogen bought as fertilizer", help="As N.")
    fertilizer_p_kg: float = number(
        "kg/year", 0, 1e6, default=0.0, label="Phosphorus bought as fertilizer",
        help="As the element P: kg P2O5 divided by 2.2914.")
    fertilizer_k_kg: float = number(
        "kg/year", 0, 1e6, default=0.0, label="Potassium bought as fertilizer",
        help="As the element K: kg K2O divided by 1.2046.")
    fertilizer_bill: float = number(
        "money/year", 0, 1e7, default=0.0, label="Fertilizer bill now", help="No fertilizer saving goes over this.")
    bedding_t: float = number("t/year", 0, 1e5, default=0.0, label="Bedding bought now",
        help="Straw, sand or sawdust.")
    bedding_bill: float = number(
        "money/year", 0, 1e7, default=0.0, label="Bedding bill now", help="No bedding saving goes over this.")
    hauling_bill: float = number(
        "money/year", 0, 1e7, default=0.0, label="Bill for hauling and spreading manure now",
        help="Contractor and own machines; shown beside the plant's hauling.")
