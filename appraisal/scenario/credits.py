"""Carbon credits: the plant's main programme, and every other claim on the same tonnes."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.emissions import PRACTICE
from appraisal.scenario.quantity import Event, Section, choice, count, number, path, text


class Credits(Section):
    """Avoided methane sold as carbon credits; zero unless a price is given."""

    price_per_t_co2e: float = number("money/t CO2e", 0, 1000, default=0.0, label="Price of a credit",
        help="In month 0.")
    escalation: float = number("share/year", -0.3, 0.3, default=0.0, label="Yearly rise of the price",
        help="0.02 is 2 % a year; credit prices have fallen by two thirds before.")
    price_share_by_year: list[float] = path(
        "share", 0, 10, default=1.0, label="Price by project year, over the price above",
        help="A path of its own: 1, 1, 0.5 halves the price from project year 3 on. The yearly rise comes on top.")
    baseline_methane_share: float = number(
        "share", 0, 0.9, default=0.0, label="Methane conversion of today's manure store",
        help="IPCC methane conversion factor of the store the digester replaces; zero gives no credit. Used when "
        "emissions.manure_method is stated_share.")
    gwp_methane: float = number(
        "t CO2e/t", 20, 90, default=28.0, source="IPCC AR5 WG1 (2013) Table 8.7, 100 years, biogenic methane",
        basis="read", label="Warming of methane against CO2",
        help="The programme names the set: AR4 25, AR5 28, AR6 27.")
    crediting_years: float = number("year", 0, 60, default=10.0, basis=PRACTICE, label="Crediting period",
        help="From the first month of feeding; often ten years.", event=Event("the credit programme ends early"))
    law_after_years: float = number(
        "year", 0, 60, default=60.0, label="Years until a law requires the capture",
        help="From month 0. What the law requires is no longer additional, and credits stop; 60 means no such law is in sight.",
        event=Event("a law requires the capture and ends the credits", after=()))
    counts_landfill: Literal["no", "yes"] = choice(
        "no", "yes", default="no", label="Landfill methane is credited too",
        help="Only for the evidenced share of each feed, and only where the programme's method covers it.")
    counts_power: Literal["no", "yes"] = choice(
        "no", "yes", default="no", label="Power that the grid need not make is credited too",
        help="Few methane programmes credit it; it then excludes a renewable certificate for the same kWh.")
    discount_share: float = number(
        "share", 0, 1, default=0.0, label="Discount of the programme",
        help="For uncertainty of model or meter: 0.06 in AMS-III.D, 0.25 in CDM tool 04 (table credit_programmes, from memory).")
    buffer_share: float = number(
        "share", 0, 1, default=0.0, label="Credits kept back in a buffer",
        help="Not sold, and not the farm's to claim either.")
    share_kept: float = number(
        "share", 0, 1, default=1.0, label="Share of the credits the plant keeps",
        help="Of the money, after the buyer's or developer's share.")
    registration_cost: float = number(
        "money", 0, 1e6, default=0.0, label="Listing and validation",
        help="Once, in the first month of feeding, in month 0's money.")
    verification_cost: float = number(
        "money", 0, 1e6, default=0.0, label="One verification", help="In month 0's money; it rises with inflation.")
    verification_every_years: float = number(
        "year", 0.5, 10, default=1.0, label="Years between verifications", help="From the first month of feeding.")
    issuance_fee_per_t: float = number(
        "money/t", 0, 20, default=0.0, label="Fee of the registry per credit",
        help="Per credit sold, for example 0.19 USD a tonne (read on a registry page).")
    cost_per_year: float = number(
        "money/year", 0, 1e6, default=0.0, label="Registry and verification", help="Paid in every crediting year.")
    paid: Literal["monthly", "next_year"] = choice(
        "monthly", "next_year", default="monthly", label="When credits turn into cash",
        help="monthly: with the reduction; next_year: those of a project year together, in the month below of the year after. "
        "Those of the last year are then not counted.")
    paid_in_month: int = count(
        "month", 1, 12, default=6, label="Month of the year after",
        help="Counted from the start of the project year; used only with next_year.")


class CarbonClaim(Section):
    """Another claim on what the plant avoids: sold by the plant, or counted by somebody else. One tonne is sold once."""

    label: str = text(default="", label="What it is", help="Shown in tables instead of the short name.")
    kind: Literal["compliance_offset", "voluntary_offset", "fuel_carbon_credit", "renewable_fuel_certificate",
                  "tariff_bonus", "renewable_certificate", "life_cycle_value"] = choice(
        "compliance_offset", "voluntary_offset", "fuel_carbon_credit", "renewable_fuel_certificate", "tariff_bonus",
        "renewable_certificate", "life_cycle_value", label="Kind of programme",
        help="A kind of `appraisal reference credit_programmes`, which says what excludes what.")
    of: Literal["manure_methane", "landfill_methane", "power", "fuel_and_gas", "fertilizer"] = choice(
        "manure_methane", "landfill_methane", "power", "fuel_and_gas", "fertilizer", label="What it counts",
        help="The reduction that is claimed.")
    by: Literal["plant", "others"] = choice(
        "plant", "others", default="plant", label="Who claims it",
        help="others: the dairy, the power buyer or the waste owner counts it, and the plant gets nothing for it.")
    claimed_share: float = number(
        "share", 0, 1, default=1.0, label="Share of that reduction that is claimed", help="1: all of it.")
    years: float = number("year", 0, 60, default=60.0, label="Years of the claim",
        help="From the first month of feeding.", event=Event("the claim {item} ends early"))
    price_per_t_co2e: float = number(
        "money/t CO2e", 0, 1000, default=0.0, label="Price per tonne", help="In month 0; for claims of the plant.")
    price_per_kwh: float = number(
        "money/kWh", 0, 1, default=0.0, label="Price per kWh sold",
        help="For certificates and bonuses that are paid by the kWh, in month 0; on the power the plant sells.")
    escalation: float = number("share/year", -0.3, 0.3, default=0.0, label="Yearly rise of the price",
        help="0.02 is 2 % a year.")
    cost_per_year: float = number(
        "money/year", 0, 1e6, default=0.0, label="Cost of the claim", help="Certification, registry, verification.")
    allowed_beside: str = text(
        default="", label="Claims it may stand beside on the same tonne",
        help="Names of other claims, or credits, with commas: only where the rules of both programmes say so.")
