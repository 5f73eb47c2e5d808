"""What falls into the manure and goes along: straw, sand and grit; then the herd's feed put together, without water."""

from appraisal.lines.define import line

HERD = {"substrate_origin": "herd"}


@line(per="substrate", when=HERD)
def substrate_bedding(
    substrate_heads, substrate_bedding_t_per_head_year, days_per_year, substrate_barn_days, substrate_supply
):
    """Bedding in the manure [t/month]

    Animals x bedding of one in a year; it reaches the digester with the manure that is caught.
    """
    return substrate_heads * substrate_bedding_t_per_head_year / days_per_year * substrate_barn_days * substrate_supply


@line(per="substrate", when=HERD)
def substrate_bedding_dry_matter(substrate_bedding, substrate_bedding_ts_share):
    """Dry matter of the bedding [t/month]

    Bedding x its own dry matter share.
    """
    return substrate_bedding * substrate_bedding_ts_share


@line(per="substrate", when=HERD)
def substrate_bedding_solids(substrate_bedding_dry_matter, substrate_bedding_vs_share_of_ts):
    """Volatile solids of the bedding [t/month]

    Dry matter x its own share that burns off.
    """
    return substrate_bedding_dry_matter * substrate_bedding_vs_share_of_ts


@line(per="substrate", when=HERD)
def substrate_sand(
    substrate_heads,
    substrate_sand_t_per_head_year,
    days_per_year,
    substrate_barn_days,
    substrate_sand_into_tank_share,
    substrate_supply,
):
    """Sand that reaches the tank [t/month]

    Sand bedding less what a sand lane or separator takes out before.
    """
    caught = substrate_heads * substrate_sand_t_per_head_year / days_per_year * substrate_barn_days
    return caught * substrate_sand_into_tank_share * substrate_supply


@line(per="substrate", when=HERD)
def substrate_grit__herd(substrate_sand, substrate_sand_settles_share):
    """Grit that settles in the tank [t/month]

    Sand x share that settles. It stays on the floor until a clean-out, so it is in no flow through the tank.
    """
    return substrate_sand * substrate_sand_settles_share


@line(per="substrate", when=HERD)
def substrate_sand_carried(substrate_sand, substrate_sand_settles_share):
    """Sand that is carried through [t/month]

    What does not settle leaves with the digestate.
    """
    return substrate_sand * (1 - substrate_sand_settles_share)


@line(per="substrate", when=HERD)
def substrate_delivered__herd(substrate_manure, substrate_bedding, substrate_sand):
    """Delivered [t/month]

    Manure, bedding and sand, without the water that comes along.
    """
    return substrate_manure + substrate_bedding + substrate_sand


@line(per="substrate", when=HERD)
def substrate_tonnes__herd(substrate_manure, substrate_bedding, substrate_sand_carried, substrate_lost_solids):
    """Fed to the digester [t/month]

    All that is collected, less what rotted in the pit and what settles.
    """
    return substrate_manure + substrate_bedding + substrate_sand_carried - substrate_lost_solids


@line(per="substrate", when=HERD)
def substrate_dry_matter__herd(
    substrate_manure_dry_matter, substrate_bedding_dry_matter, substrate_sand_carried, substrate_lost_solids
):
    """Dry matter [t/month]

    Of manure, bedding and carried sand, less what rotted in the pit.
    """
    return substrate_manure_dry_matter + substrate_bedding_dry_matter + substrate_sand_carried - substrate_lost_solids


@line(per="substrate", when=HERD)
def substrate_volatile_solids__herd(substrate_aged_solids, substrate_bedding_solids):
    """Volatile solids [t/month]

    Of the aged manure and the bedding: the part that can become gas.
    """
    return substrate_aged_solids + substrate_bedding_solids
