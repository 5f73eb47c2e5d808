"""Where the engine's heat goes."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Section, choice, number, profile


class Heat(Section):
    """Where the engine's heat goes after the digester, in this order: house, barn, drying, sold."""

    house_kwh: list[float] = profile(
        "kWh/month", 0, 1e6, default=0.0, label="Heat the house needs", help="Useful heat, not fuel.")
    barn_kwh: list[float] = profile(
        "kWh/month", 0, 1e6, default=0.0, label="Heat the barn needs",
        help="Useful heat: parlour water, calves, workshop.")
    drying_kwh: list[float] = profile(
        "kWh/month", 0, 1e7, default=0.0, label="Heat a dryer can take",
        help="For grain, wood, hay or digestate, in the months in which there is something to dry.")
    drying_counts_as: Literal["paid", "fuel_saved", "worth"] = choice(
        "paid", "fuel_saved", "worth", default="worth", label="What dried heat brings",
        help="paid: a customer pays the figure below; fuel_saved: it replaces heating fuel of the farm's bill, like house "
        "and barn; worth: the figure below, which no bill proves.")
    drying_value_per_kwh: float = number(
        "money/kWh", 0, 1, default=0.0, label="Value of dried heat",
        help="Price of month 0 per kWh of heat into the dryer; not used when drying saves fuel of the farm's bill.")
    sold_kwh: list[float] = profile(
        "kWh/month", 0, 1e7, default=0.0, label="Heat a neighbour would buy",
        help="What the buyer takes in each month when there is enough.")
    sold_price_per_kwh: float = number("money/kWh", 0, 1, default=0.0, label="Price of sold heat",
        help="Price of month 0 at the meter of the buyer.")
    sold_signed: Literal["yes", "no"] = choice(
        "yes", "no", default="no", label="Heat contract is signed",
        help="A lender's case counts income on signed contracts only.")
    sold_signed_years: float = number(
        "year", 0, 60, default=10.0, basis=PRACTICE, label="Years of the heat contract",
        help="From the first month of feeding; heat is sold on at the same price. Used when the contract is signed.")
    main_losses: Literal["none", "share", "by_length"] = choice(
        "none", "share", "by_length", default="none", label="Losses of the heat main to the buyer",
        help="none: metered at the engine; share: of what is sent; by_length: W per metre, all month, while heat is sold.")
    main_loss_share: float = number(
        "share", 0, 0.6, default=0.15, basis="from memory: 10 to 20 % of a year's heat in small rural mains",
        label="Lost in the main", help="Of what is sent into it. Used only when losses are a `share`.")
    main_length_m: float = number(
        "m", 0, 20000, default=0.0, label="Length of the main",
        help="Of the trench, flow and return in it. Used only when losses are `by_length`.")
    main_loss_w_per_m: float = number(
        "W/m", 0, 200, default=25.0, source="table u_values, pipe_insulated: 1.1 W/(m2 K) x 0.36 m2/m x 65 K",
        basis="computed for one pipe DN 100; a pair of small pre-insulated pipes is near it (from memory)",
        label="Lost in a metre of the main", help="Per metre of trench. Used only when losses are `by_length`.")
    circulation_share: float = number(
        "share", 0, 0.1, default=0.0, label="Circulation in the heat main",
        help="kWh of pump power per kWh of heat sent to the buyer, bought like power for the plant: 0.01 to 0.02 with a long "
        "main (from memory). The heating circuit of the plant itself is in its own use.")
    backup_fuel: Literal["not_named", "heating_oil", "natural_gas", "propane", "wood", "electricity"] = choice(
        "not_named", "heating_oil", "natural_gas", "propane", "wood", "electricity", default="not_named",
        label="Fuel of backup heat", help="A named fuel needs its price and the efficiency of its boiler below.")
    backup_fuel_price_per_kwh: float = number(
        "money/kWh", 0, 1, default=0.08, basis=PRACTICE, label="Price of backup heat",
        help="Bought when the engine cannot keep the digester warm, and to warm the first filling. Per kWh of fuel on its "
        "lower heating value; of heat while the efficiency below is 1.")
    backup_boiler_efficiency: float = number(
        "share", 0.3, 1.1, default=1.0, label="Efficiency of the backup boiler",
        help="Heat out over fuel in: oil 0.87, gas 0.9, wood 0.75 (from memory); 1 means the price is per kWh of heat.")
    escalation: float = number("share/year", -0.2, 0.3, default=0.02, basis=PRACTICE,
        label="Yearly rise of fuel prices",
        help="0.02 is 2 % a year; it moves fuel saved, drying, heat sold and backup heat alike.")
