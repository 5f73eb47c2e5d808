"""The invented farm of the starter files, and examples of what may stand beside the values."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal, NamedTuple

DisplayUnits = Literal["metric", "us"]
Written = float | int | str


class Example(NamedTuple):
    """An invented value as a farmer with metric or with US units would write it."""

    metric: Written
    us: Written


# Invented: 200 cows and one whey feed. Everything not listed here is left to defaults and reference tables.
EXAMPLES: Mapping[str, Example | Written] = {
    "project.name": "Example farm: an invented plant to overwrite",
    "project.first_month": "2027-04",
    "project.years": 21,
    "farm_now.power_kwh": "9000 kWh/month",
    "farm_now.power_bill": 1350,
    "farm_now.fertilizer_n_kg": Example("4000 kg/year", "8800 lb/year"),
    "farm_now.fertilizer_bill": 6500,
    "fertilizer.n_price_per_kg": 1.5,
    "site.climate": Example("ie_cork", "us_new_york_syracuse"),
    "herd.cows.like": "dairy_manure_fresh",
    "herd.cows.animal": "dairy_lactating",
    "herd.cows.head": 200,
    "herd.cows.collected_share": "90 %",
    "herd.cows.wash_water_l_per_head_day": Example("20 L/head/day", "5 US_gal/head/day"),
    "feed.whey.like": "sweet_whey",
    "feed.whey.tonnes_per_year": Example("3000 t/year", "3300 short_ton/year"),
    "feed.whey.supply_by": "contract",
    "feed.whey.contract_years": 10,
    "feed.whey.share_after_contract": "50 %",
    "feed.whey.gate_fee_per_t": 4,
    "digester.kind": "stirred_tank",
    "digester.active_volume_m3": Example("900 m3", "240000 US_gal"),
    "digester.heat_loss_w_per_k": 450,
    "pasteuriser.treats": "nothing",
    "engine.main.rated_kw": 75,
    "engine.main.maintenance_per_kwh": 0.02,
    "engine.main.top_end_cost": 6000,
    "engine.main.major_cost": 28000,
    "power.contract_price_per_kwh": 0.14,
    "power.market_price_per_kwh": 0.07,
    "power.farm_use_matched_share": "60 %",
    "power.bought_price_per_kwh": 0.15,
    "other_income.certificates.label": "Certificates of origin",
    "other_income.certificates.per_kwh_gross": 0.002,
    "other_income.certificates.years": 10,
    "crop.grass.like": "grass_silage",
    "crop.grass.area_ha": Example("80 ha", "200 acre"),
    "carbon_claim.guarantee.label": "Guarantee of origin, counted by the buyer of the power",
    "carbon_claim.guarantee.kind": "renewable_certificate",
    "carbon_claim.guarantee.of": "power",
    "carbon_claim.guarantee.by": "others",
    "labour.hired_wage_per_hour": 24,
    "labour.family_hours_per_week": 8,
    "task.unloading.label": "Unloading and weighing of outside feed",
    "task.unloading.hours_per_year": 60,
    "running_cost.insurance.label": "Insurance",
    "running_cost.insurance.per_year": 5000,
    "capital.plant.label": "Digester, engine and grid connection",
    "capital.plant.amount": 620000,
    "grant.public.label": "Public grant",
    "grant.public.share_of_eligible": "25 %",
    "loan.bank.label": "Bank loan",
    "loan.bank.amount": 380000,
    "loan.bank.rate": "5.5 %/year",
    "loan.bank.years": 12,
    "partner.we_alone.label": "Our farm",
    "partner.we_alone.plant_share": 1,
    "tax.rate": "20 %",
    "tax.rate_year": 2026,
    "judging.discount_rate": "6 %/year",
    "milestone.permit.label": "Building permit granted",
    "milestone.permit.month": 2,
    "milestone.permit.done_when": "Letter of the authority",
    "concern.capital_dearer.chance": "medium",
    "concern.capital_dearer.what_helps": "Quotes for the main parts before the order; contingency in the budget",
}
RANGED = "feed.whey.tonnes_per_year"
ASIDES: Mapping[str, Mapping[str, Example | Written]] = {
    "range": {
        "shape": "triangular", "low": Example("1500 t/year", "1650 short_ton/year"),
        "high": Example("3600 t/year", "4000 short_ton/year"), "reason": "Invented: the dairy may change its lines.",
    },
    "source": {"origin": "Invented for this example", "known": "invented"},
}
NAMED_ASIDES = (
    ("Ranges that move together. One such table for each pair, under a name of its own.",
     ("[correlation.waste_market]", 'first = "feed.whey.gate_fee_per_t"', 'second = "feed.whey.tonnes_per_year"',
      "rank = 0.5 # Spearman's rank correlation, -0.99 to 0.99", 'reason = "Where waste is scarce both fall."')),
    ("Bad cases of your own. times multiplies, plus adds, to replaces; a star means every item.",
     ("[stress.hard_years]", 'label = "Dear money, dear building"', 'reason = ""',
      'times = { "capital.*.amount" = 1.15 }', 'plus = { "loan.*.rate" = "1 %/year" }',
      'to = { "feed.whey.share_after_contract" = 0 }')),
    ("Prices that wander from year to year and come back to the plan's own path. One table for each movement; what is named "
     "in one table moves together, by the strength behind it.",
     ("[wander.energy]", "half_life_years = 3", "sd_long_run = 0.25 # of the logarithm", 'reason = "Ten years of prices."',
      'moves = { "power.market_price_share_by_year" = 1, "power.bought_price_share_by_year" = 0.6 }')),
)
ASIDE_MEANING = {
    "range": "How far a value may lie from what is written. One such table for each value, its path in quotes.",
    "source": "Where a value comes from. One such table for each value, its path in quotes.",
}
