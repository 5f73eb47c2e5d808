"""Water that comes with the manure: washed, flushed and rained in. It takes volume and heat and gives no gas."""

from appraisal.lines.define import line
from appraisal.lines.trace import total

HERD = {"substrate_origin": "herd"}


@line(per="substrate", when=HERD)
def substrate_wash_water(
    substrate_heads,
    substrate_wash_water_l_per_head_day,
    litres_per_m3,
    days,
    substrate_collected_share,
    substrate_supply,
):
    """Wash water [t/month]

    Parlour and cleaning water per head, as far as it is collected; one litre is one kilogram.
    """
    a_day = substrate_heads * substrate_wash_water_l_per_head_day / litres_per_m3
    return a_day * days * substrate_collected_share * substrate_supply


@line(per="substrate", when=HERD)
def substrate_flush_water(
    substrate_heads, substrate_flush_water_l_per_head_day, litres_per_m3, substrate_barn_days, substrate_supply
):
    """Flush water [t/month]

    Fresh water that flushes the lanes, on the days whose manure is caught; liquid sent round again is not counted here.
    """
    return (
        substrate_heads * substrate_flush_water_l_per_head_day / litres_per_m3 * substrate_barn_days * substrate_supply
    )


@line(per="substrate", when=HERD)
def substrate_rain_water(
    substrate_yard_area_m2, site_rain_mm_per_year, mm_per_m, days, days_per_year, substrate_supply
):
    """Rain from open yards [t/month]

    Area x rain of the year, spread evenly: all that falls is counted, none dries up. 1 m3 is 1 t.
    """
    return substrate_yard_area_m2 * site_rain_mm_per_year / mm_per_m * days / days_per_year * substrate_supply


@line(per="substrate", when=HERD)
def substrate_water__herd(substrate_wash_water, substrate_flush_water, substrate_rain_water):
    """Water that comes along [t/month]

    Wash, flush and rain water.
    """
    return substrate_wash_water + substrate_flush_water + substrate_rain_water


@line(per="substrate", when={"substrate_origin": "feed"})
def substrate_water__feed(substrate_tonnes):
    """Water that comes along [t/month]

    None: an outside feed is weighed with its water.
    """
    return 0 * substrate_tonnes


@line()
def water_tonnes(each_substrate_water):
    """Water fed [t/month]

    Water of all herds.
    """
    return total(each_substrate_water)
