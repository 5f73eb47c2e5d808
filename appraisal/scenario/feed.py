"""An outside feed: leftovers or a crop, with its contract, its deliveries and its fees."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.emissions import WasteToday
from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Event, choice, number, profile
from appraisal.scenario.substrate import Substrate, of_row


class Feed(Substrate, WasteToday):
    """Leftovers or a crop brought to the digester from outside the herd."""

    tonnes_per_year: float = number("t/year", 0, 1e6, label="Amount", help="Fresh tonnes a year as delivered.")
    monthly_weight: list[float] = profile(
        "share", 0, 12, default=1.0, label="Season",
        help="Twelve weights around 1: 2 in a month brings twice the mean month.")
    supply_by: Literal["own", "contract"] = choice(
        "own", "contract", label="Who decides on this feed",
        help="own: the farm does; contract: somebody else may stop it. The share of gas under contract is a headline figure.")
    starts_after_months: float = number(
        "month", 0, 720, default=0.0, label="Months from the first feeding until this feed begins",
        help="0: it comes from the first day of feeding on.")
    contract_years: float = number(
        "year", 0, 60, default=60.0, label="Years this feed is sure",
        help="Counted from the first month of this feed; then the contract ends.",
        event=Event("the contract for {item} ends early", after=("project.build_months", "starts_after_months")))
    renewal_chance: float = number(
        "share", 0, 1, default=1.0, label="Chance that the contract is renewed",
        help="Your own judgement, shown beside what the figures count on after the contract; it moves no figure by itself.")
    share_after_contract: float = number(
        "share", 0, 1, default=1.0, label="Share that still comes after the contract",
        help="0: lost; 1: renewed in full.")
    replaced: Literal["at_once", "after_a_gap"] = choice(
        "at_once", "after_a_gap", default="at_once", label="When the feed after the contract begins",
        help="after_a_gap: nothing comes for the months below, then the share above.")
    gap_months: float = number(
        "month", 0, 120, default=6.0, basis=PRACTICE, label="Months without this feed after the contract",
        help="Until another supplier is found and permitted. Used with after_a_gap only.")
    gate_fee_per_t: float = number(
        "money/t", -500, 1000, default=0.0, label="Tipping fee",
        help="Positive: the plant is paid to take it; negative: the plant buys it.")
    gate_fee_after_per_t: float = number(
        "money/t", -500, 1000, default=0.0, label="Tipping fee after the contract", help="At the price date's money.")
    gate_fee_escalation: float = number(
        "share/year", -0.2, 0.3, default=0.0, label="Yearly rise of the tipping fee", help="0.02 is 2 % a year.")
    truckload_t: float = number(
        "t", 0, 60, default=0.0, label="Load of a lorry", help="0: deliveries of any size. Counts for the peak day only.")
    delivery_days_per_week: float = number(
        "day/week", 1, 7, default=7.0, label="Days a week with deliveries",
        help="5: nothing comes at weekends. Counts for the peak day only.")
    buffer_m3: float = number(
        "m3", 0, 1e5, default=0.0, label="Buffer tank or bunker for this feed",
        help="What holds a delivery back and lets it in over the days after. Counts for the peak day only.")
    bulk_t_per_m3: float = number(
        "t/m3", 0.05, 2, default=1.0, basis=PRACTICE, lookup=of_row("bulk_t_m3"), label="Weight of a cubic metre as delivered",
        help="For the room it takes in the buffer.")
    reject_share: float = number(
        "share", 0, 0.6, default=0.0, label="Packaging and other rejects", help="Sorted out before the tank.")
    reject_cost_per_t: float = number(
        "money/t", 0, 1000, default=0.0, label="Disposal of rejects", help="Per tonne of rejects.")
    regulated: Literal["no", "yes"] = choice(
        "no", "yes", default="no", label="Must be pasteurised",
        help="Food waste of animal origin usually must; the authority decides.")
