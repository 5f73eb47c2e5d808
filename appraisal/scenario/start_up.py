"""How the digester starts and what goes wrong with it: seed sludge, early years, clean-outs, a soured tank, return liquid."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Event, Section, choice, count, number, path


class Recirculation(Section):
    """Liquid digestate that is pumped back to the front of the digester."""

    amount: Literal["none", "share_of_feed", "per_day"] = choice(
        "none", "share_of_feed", "per_day", default="none", label="How much liquid comes back",
        help="none; share_of_feed: so many m3 for each m3 fed; per_day: so many m3 on every day of feeding.")
    returned_share: float = number(
        "share", 0, 5, default=0.0, label="Liquid returned for each m3 fed", help="0.5 is half a cubic metre for each one fed.")
    m3_per_day: float = number("m3/day", 0, 5000, default=0.0, label="Liquid returned a day", help="On every day of feeding.")
    solids_share: float = number(
        "share", 0, 1, default=1.0, label="Dry matter of the returned liquid, of that in the tank",
        help="1: straight from the tank; about 0.5 behind a screw press, whose solids go another way (from memory).")
    ammonium_share: float = number(
        "share", 0, 1, default=1.0, label="Ammonium of the returned liquid, of that in the tank",
        help="1: it is dissolved and comes back in full; less where it was stripped or lost in an open store.")
    undigested_share: float = number(
        "share", 0, 1, default=0.0, label="What the returned liquid can still give, of what the tank's outflow can",
        help="0 is the safe side: no gas is left in it, it only shortens the stay. 1: straight from the tank.")


class CleanOut(Section):
    """Emptying the tank of grit every so many years."""

    every_years: int = count(
        "year", 0, 60, default=0, label="Years between clean-outs",
        help="From the first feeding; 0 is never. Tanks are opened every 5 to 10 years.")
    off_weeks: float = number(
        "week", 0, 52, default=4.0, basis=PRACTICE, label="Weeks without feeding",
        help="The manure goes past the digester and outside feeds are refused.")
    ramp_months: float = number(
        "month", 0, 24, default=2.0, basis=PRACTICE, label="Months until full gas again",
        help="Evenly, after feeding starts again; its new filling is warmed with bought heat.")
    each_cost: float = number(
        "money", 0, 1e8, default=0.0, label="Cost of one clean-out",
        help="Emptying, hauling the grit, repairs inside, crane and gas-free work; in the money of month 0.")
    seed_t: float = number(
        "t", 0, 1e5, default=0.0, label="Seed sludge after a clean-out",
        help="At start_up.seed_cost_per_t; nothing where digestate was kept beside.")


class StartUp(Section):
    """The first filling and the early years."""

    seed_t: float = number(
        "t", 0, 1e5, default=0.0, label="Seed sludge for the first filling",
        help="A tenth of the tank or more makes the start safer (from memory).")
    seed_cost_per_t: float = number(
        "money/t", 0, 500, default=0.0, label="Cost of seed sludge", help="With its haul; in the money of month 0.")
    gas_share_by_year: list[float] = path(
        "share", 0, 1, default=1.0, label="Gas of each operating year, of a mature plant's",
        help="The first value is the first year of feeding. 0.85, 0.95, 1 is a poor start (from memory); it comes on top of "
        "the months until full gas and of the share of the time the digester works as designed.")


class Upset(Section):
    """A tank that turns sour once: months of little gas, new seed, feeds refused."""

    month: float = number(
        "month", 0, 720, default=0.0, label="Month in which the tank turns sour",
        help="Counted from the first feeding, which is month 1; 0 is never. A range of the shape hazard draws it.",
        event=Event("the tank turns sour", "once"))
    low_months: float = number(
        "month", 0, 36, default=3.0, basis=PRACTICE, label="Months of low gas", help="From that month on.")
    gas_left_share: float = number(
        "share", 0, 1, default=0.2, basis=PRACTICE, label="Gas that is left in those months", help="Of what it would be.")
    recovery_months: float = number(
        "month", 0, 36, default=2.0, basis=PRACTICE, label="Months from low gas back to full gas", help="Evenly.")
    feeds_refused_share: float = number(
        "share", 0, 1, default=1.0, basis=PRACTICE, label="Outside feeds refused in the months of low gas",
        help="Their fees are lost; manure is taken on.")
    seed_t: float = number("t", 0, 1e5, default=0.0, label="Seed sludge to start it again",
        help="At start_up.seed_cost_per_t.")
    other_cost: float = number(
        "money", 0, 1e8, default=0.0, label="Other cost of the soured tank",
        help="Advice, laboratory, lime, emptying; in the money of month 0. Heat that the engine then lacks is bought besides.")
