"""Outside feeds, month by month: the contract window, the season, rejects, dry matter and volatile solids."""

import numpy as np

from appraisal.lines.define import line

FEED = {"substrate_origin": "feed"}


@line(per="substrate", when=FEED)
def substrate_months_coming(months_fed, substrate_starts_after_months):
    """Months since the feed began [month]

    Counts the running month, so the first month of this feed is 1; 0 or less before it.
    """
    return months_fed - substrate_starts_after_months


@line(per="substrate", when=FEED)
def substrate_contract_over(substrate_months_coming, substrate_contract_years, months_per_year, rounding_tolerance):
    """Contract is over [1]

    1 once the sure years, counted from the first month of this feed, are behind.
    """
    return np.where(substrate_months_coming > substrate_contract_years * months_per_year + rounding_tolerance, 1, 0)


@line(per="substrate", when={**FEED, "substrate_replaced": "at_once"})
def substrate_supply__feed_at_once(
    feeding,
    outside_intake,
    substrate_months_coming,
    rounding_tolerance,
    substrate_contract_over,
    substrate_share_after_contract,
):
    """Share of the feed that still comes [share]

    Nothing before its start, all of it during the contract, what is expected to be renewed after it; less what is refused
    during a clean-out or while the tank is sour. A feed that ends runs through all physics.
    """
    begun = np.where(substrate_months_coming > rounding_tolerance, feeding * outside_intake, 0)
    return begun * np.where(substrate_contract_over > 0, substrate_share_after_contract, 1)


@line(per="substrate", when={**FEED, "substrate_replaced": "after_a_gap"})
def substrate_in_gap(
    substrate_months_coming, substrate_contract_years, months_per_year, rounding_tolerance, substrate_gap_months
):
    """Nobody brings this feed yet [1]

    1 in the months after the contract until another supplier brings it; only whole months pass without it.
    """
    since = substrate_months_coming - substrate_contract_years * months_per_year - rounding_tolerance
    return np.where(since > 0, np.where(since <= substrate_gap_months, 1, 0), 0)


@line(per="substrate", when={**FEED, "substrate_replaced": "after_a_gap"})
def substrate_supply__feed_after_a_gap(
    feeding,
    outside_intake,
    substrate_months_coming,
    rounding_tolerance,
    substrate_contract_over,
    substrate_share_after_contract,
    substrate_in_gap,
):
    """Share of the feed that still comes [share]

    Nothing before its start, all of it during the contract, nothing in the gap after it, then what is expected to be found
    again; less what is refused during a clean-out or while the tank is sour. A feed that ends runs through all physics.
    """
    begun = np.where(substrate_months_coming > rounding_tolerance, feeding * outside_intake, 0)
    later = substrate_share_after_contract * (1 - substrate_in_gap)
    return begun * np.where(substrate_contract_over > 0, later, 1)


@line(per="substrate", when=FEED)
def substrate_season(substrate_monthly_weight, days):
    """Season weight times days [day/month]

    Splits the yearly tonnes over the months.
    """
    return substrate_monthly_weight * days


@line(per="substrate", when=FEED)
def substrate_delivered__feed(
    substrate_tonnes_per_year,
    substrate_season,
    life_sum_substrate_season,
    life_sum_days,
    days_per_year,
    substrate_supply,
):
    """Delivered [t/month]

    Tonnes a year spread by season, so that twelve months add up to the year.
    """
    weight = substrate_season * life_sum_days / life_sum_substrate_season / days_per_year
    return substrate_tonnes_per_year * weight * substrate_supply


@line(per="substrate", when=FEED)
def substrate_tonnes__feed(substrate_delivered, substrate_reject_share):
    """Fed to the digester [t/month]

    What was delivered less packaging and other rejects.
    """
    return substrate_delivered * (1 - substrate_reject_share)


@line(per="substrate", when=FEED)
def substrate_dry_matter__feed(substrate_tonnes, substrate_ts_share):
    """Dry matter [t/month]

    Tonnes x dry matter share.
    """
    return substrate_tonnes * substrate_ts_share


@line(per="substrate", when=FEED)
def substrate_volatile_solids__feed(substrate_dry_matter, substrate_vs_share_of_ts):
    """Volatile solids [t/month]

    Dry matter x share that burns off: the part that can become gas.
    """
    return substrate_dry_matter * substrate_vs_share_of_ts


@line(per="substrate", when=FEED)
def substrate_grit__feed(substrate_tonnes):
    """Grit that settles in the tank [t/month]

    None is counted: soil and stones of a feed are its rejects, or part of its ash.
    """
    return 0 * substrate_tonnes
