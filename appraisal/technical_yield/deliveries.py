"""The peak day: what lorries, weekends and a buffer make of an even month.

Worst case of an ordinary week: all feeds are delivered on the same day, on consecutive days, into buffers that were empty.
"""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total

HERD, FEED = {"substrate_origin": "herd"}, {"substrate_origin": "feed"}


@line(per="substrate", when=FEED)
def substrate_delivery_day(
    substrate_delivered,
    days,
    days_per_week,
    substrate_delivery_days_per_week,
    substrate_truckload_t,
    rounding_tolerance,
):
    """Brought on a delivery day [t/day]

    A week's tonnes over its delivery days, in whole loads; 0 when the feed does not come.
    """
    even = substrate_delivered / days * (days_per_week / substrate_delivery_days_per_week)
    loads = -np.floor(rounding_tolerance - even / np.where(substrate_truckload_t > 0, substrate_truckload_t, 1))
    return np.where(substrate_truckload_t > 0, loads * substrate_truckload_t, even)


@line(per="substrate", when=FEED)
def substrate_deliveries(substrate_delivered, days, days_per_week, substrate_delivery_day):
    """Delivery days in a row [1]

    Days a week on which this feed is brought, at least one.
    """
    some = substrate_delivery_day > 0
    week = substrate_delivered / days * days_per_week
    return np.maximum(np.where(some, week / np.where(some, substrate_delivery_day, 1), 1), 1)


@line(per="substrate", when=FEED)
def substrate_peak_day__feed(
    substrate_delivery_day,
    substrate_deliveries,
    substrate_buffer_m3,
    substrate_bulk_t_per_m3,
    substrate_delivered,
    days,
    substrate_reject_share,
):
    """Fed on the peak day [t/day]

    What a delivery day brings, less what the buffer can hold back on each of the delivery days in a row; never less than
    the even day. Rejects are off.
    """
    held = substrate_buffer_m3 * substrate_bulk_t_per_m3 / substrate_deliveries
    return np.maximum(substrate_delivery_day - held, substrate_delivered / days) * (1 - substrate_reject_share)


@line(per="substrate", when=HERD)
def substrate_peak_day__herd(substrate_tonnes, days):
    """Fed on the peak day [t/day]

    The even day: animals know no weekend.
    """
    return substrate_tonnes / days


@line(per="substrate", when=FEED)
def substrate_even_buffer(
    substrate_delivery_day, substrate_deliveries, substrate_delivered, days, substrate_bulk_t_per_m3
):
    """Buffer that would let this feed in evenly [m3]

    What delivery days in a row bring beyond the even day.
    """
    beyond = np.maximum(substrate_delivery_day - substrate_delivered / days, 0)
    return beyond * substrate_deliveries / substrate_bulk_t_per_m3


@line(per="substrate")
def substrate_peak_day_solids(substrate_peak_day, substrate_volatile_solids, substrate_tonnes):
    """Volatile solids on the peak day [t/day]

    Peak tonnes x volatile solids in a tonne.
    """
    some = substrate_tonnes > 0
    return np.where(some, substrate_peak_day * substrate_volatile_solids / np.where(some, substrate_tonnes, 1), 0)


@line()
def peak_day_tonnes(each_substrate_peak_day, water_tonnes, days):
    """Fed on the peak day in all [t/day]

    All peaks on one day, and the even day's water.
    """
    return total(each_substrate_peak_day) + water_tonnes / days


@line()
def peak_day_over_even_day(each_substrate_peak_day_solids, volatile_solids_fed, days):
    """Volatile solids of the peak day over the even day [1]

    1 when everything comes evenly or a buffer makes it even; 0 when nothing is fed.
    """
    some = volatile_solids_fed > 0
    return np.where(some, total(each_substrate_peak_day_solids) * days / np.where(some, volatile_solids_fed, 1), 0)
