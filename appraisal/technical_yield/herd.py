"""Manure of the herds, month by month: animals, manure by three methods, and what is lost while it waits."""

import numpy as np

from appraisal.lines.define import line

HERD = {"substrate_origin": "herd"}


@line(per="substrate", when=HERD)
def substrate_supply__herd(feeding, manure_intake):
    """Share of the feed that still comes [share]

    Manure comes as long as the plant is fed; during a clean-out it goes past the digester.
    """
    return feeding * manure_intake


@line(per="substrate", when={**HERD, "substrate_keeping": "stays"})
def substrate_heads__stays(substrate_head, substrate_head_share_by_year):
    """Animals [head]

    Mean number x the herd's path over the project years.
    """
    return substrate_head * substrate_head_share_by_year


@line(per="substrate", when={**HERD, "substrate_keeping": "may_be_sold"})
def substrate_sold(
    month_number, project_build_months, substrate_sold_after_years, months_per_year, rounding_tolerance
):
    """The herd is sold [1]

    1 in every month from the sale on, so many years after the first feeding, with the plant and without it.
    """
    kept = project_build_months + substrate_sold_after_years * months_per_year
    return np.where(month_number >= kept - rounding_tolerance, 1, 0)


@line(per="substrate", when={**HERD, "substrate_keeping": "may_be_sold"})
def substrate_heads__may_be_sold(
    substrate_head, substrate_head_share_by_year, substrate_sold, substrate_left_after_sale_share
):
    """Animals [head]

    Mean number x the herd's path over the project years; after the sale the share that is left.
    """
    left = np.where(substrate_sold > 0, substrate_left_after_sale_share, 1)
    return substrate_head * substrate_head_share_by_year * left


@line(per="substrate", when=HERD)
def substrate_barn_days(substrate_housed_share, substrate_collected_share, days):
    """Days whose manure is caught [day/month]

    Days x share of the time in the barn x share of the barn's manure that is collected.
    """
    return days * substrate_housed_share * substrate_collected_share


@line(per="substrate", when={**HERD, "substrate_manure_method": "per_animal"})
def substrate_manure_made__per_animal(
    substrate_heads, substrate_manure_t_per_head_year, substrate_barn_days, days_per_year
):
    """Manure that is caught, with or without the plant [t/month]

    Animals x manure of one in a year, by the days whose manure is caught.
    """
    return substrate_heads * substrate_manure_t_per_head_year / days_per_year * substrate_barn_days


@line(per="substrate", when={**HERD, "substrate_manure_method": "by_milk"})
def substrate_manure_made__by_milk(
    substrate_heads,
    substrate_milk_kg_per_head_day,
    manure_per_milk,
    manure_without_milk_kg_per_head_day,
    kg_per_t,
    substrate_barn_days,
):
    """Manure that is caught, with or without the plant [t/month]

    (0.647 x milk + 43.2) kg a cow and day. Valid for herd means of 15 to 50 kg milk a day. At 40 kg it gives 69 kg, the
    table of the same standard 68.
    Source: ASABE D384.2 (2005), lactating Holsteins, after Nennich et al. 2005, J Dairy Sci 88:3721, from memory.
    """
    a_day = substrate_milk_kg_per_head_day * manure_per_milk + manure_without_milk_kg_per_head_day
    return substrate_heads * a_day / kg_per_t * substrate_barn_days


@line(per="substrate", when={**HERD, "substrate_manure_method": "measured"})
def substrate_manure_made__measured(
    substrate_measured_tonnes_per_year,
    substrate_head_share_by_year,
    substrate_barn_days,
    life_sum_substrate_barn_days,
    life_sum_days,
    days_per_year,
):
    """Manure that is caught, with or without the plant [t/month]

    The measured year, spread over the months as the barn days are, and following the herd's path; 0 when no month has any.
    """
    whole = np.where(life_sum_substrate_barn_days > 0, life_sum_substrate_barn_days, 1)
    season = substrate_barn_days * life_sum_days / whole / days_per_year
    return substrate_measured_tonnes_per_year * substrate_head_share_by_year * season


@line(per="substrate", when={**HERD, "substrate_manure_method": "per_animal|measured"})
def substrate_dry_manure_made__per_animal(substrate_manure_made, substrate_ts_share):
    """Dry matter of the manure that is caught [t/month]

    Manure x dry matter share, of a measured one that of its analysis.
    """
    return substrate_manure_made * substrate_ts_share


@line(per="substrate", when={**HERD, "substrate_manure_method": "by_milk"})
def substrate_dry_manure_made__by_milk(
    substrate_heads,
    substrate_milk_kg_per_head_day,
    dry_matter_per_milk,
    dry_matter_without_milk_kg_per_head_day,
    kg_per_t,
    substrate_barn_days,
):
    """Dry matter of the manure that is caught [t/month]

    (0.0874 x milk + 5.6) kg a cow and day. Valid for herd means of 15 to 50 kg milk a day. At 40 kg it gives 9.1 kg, the
    table of the same standard 8.9.
    Source: ASABE D384.2 (2005), lactating Holsteins, after Nennich et al. 2005, J Dairy Sci 88:3721, from memory.
    """
    a_day = substrate_milk_kg_per_head_day * dry_matter_per_milk + dry_matter_without_milk_kg_per_head_day
    return substrate_heads * a_day / kg_per_t * substrate_barn_days


@line(per="substrate", when=HERD)
def substrate_fresh_solids_made(substrate_dry_manure_made, substrate_vs_share_of_ts):
    """Volatile solids of the manure that is caught, fresh [t/month]

    As they leave the animals, with or without the plant.
    """
    return substrate_dry_manure_made * substrate_vs_share_of_ts


@line(per="substrate", when=HERD)
def substrate_manure(substrate_manure_made, substrate_supply):
    """Manure for the digester [t/month]

    Without bedding, sand and water, as it leaves the animals.
    """
    return substrate_manure_made * substrate_supply


@line(per="substrate", when=HERD)
def substrate_manure_dry_matter(substrate_dry_manure_made, substrate_supply):
    """Dry matter of the manure [t/month]

    Before the pit.
    """
    return substrate_dry_manure_made * substrate_supply


@line(per="substrate", when=HERD)
def substrate_fresh_solids(substrate_fresh_solids_made, substrate_supply):
    """Volatile solids of the manure, fresh [t/month]

    Before the pit.
    """
    return substrate_fresh_solids_made * substrate_supply


@line(per="substrate", when=HERD)
def substrate_aged_solids(substrate_fresh_solids, substrate_ageing_loss_share_per_day, substrate_pit_days):
    """Volatile solids of the manure, at the digester [t/month]

    Fresh x (1 - share lost in a day) ^ days in the pit: a first-order loss at a constant temperature.
    Source: first-order decay, textbook matter; the share is an input.
    """
    return substrate_fresh_solids * (1 - substrate_ageing_loss_share_per_day) ** substrate_pit_days


@line(per="substrate", when=HERD)
def substrate_lost_solids(substrate_fresh_solids, substrate_aged_solids):
    """Volatile solids lost in the pit [t/month]

    What rotted before the digester; it left as gas.
    """
    return substrate_fresh_solids - substrate_aged_solids
