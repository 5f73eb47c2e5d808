"""Where the engine's heat goes."""

from __future__ import annotations

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Section, number, profile


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
