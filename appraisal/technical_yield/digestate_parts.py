"""Digestate parted into liquid and solids, and the store it waits in."""

import numpy as np

from appraisal.lines.define import line


@line()
def solids_mass(digestate_mass, separation_mass_share):
    """Separated solids [t/month]

    Digestate x share of the mass; none without a separator.
    """
    return digestate_mass * separation_mass_share


@line()
def solids_dry_matter(digestate_dry_matter, separation_ts_share):
    """Dry matter in the solids [t/month]

    Digestate's dry matter x share.
    """
    return digestate_dry_matter * separation_ts_share


@line()
def liquid_mass(digestate_mass, solids_mass):
    """Digestate or its liquid part [t/month]

    All that is no separated solids.
    """
    return digestate_mass - solids_mass


@line()
def solids_sold(solids_mass, separation_sold_share):
    """Solids that leave the farm [t/month]

    Their nutrients go along.
    """
    return solids_mass * separation_sold_share


@line()
def solids_for_bedding(solids_mass, separation_bedding_share):
    """Solids used as bedding [t/month]

    They come back with the manure.
    """
    return solids_mass * separation_bedding_share


@line()
def nitrogen_for_land(digestate_nitrogen, separation_n_share, separation_sold_share):
    """Nitrogen that must find land [kg/month]

    Of the digestate, less that in solids sold.
    """
    return digestate_nitrogen * (1 - separation_n_share * separation_sold_share)


@line()
def phosphorus_for_land(digestate_phosphorus, separation_p_share, separation_sold_share):
    """Phosphorus that must find land [kg/month]

    Of the digestate, less that in solids sold.
    """
    return digestate_phosphorus * (1 - separation_p_share * separation_sold_share)


@line()
def potassium_for_land(digestate_potassium, separation_k_share, separation_sold_share):
    """Potassium that must find land [kg/month]

    Of the digestate, less that in solids sold.
    """
    return digestate_potassium * (1 - separation_k_share * separation_sold_share)


@line()
def rain_into_store(store_open_area_m2, site_rain_mm_per_year, mm_per_m, days, days_per_year):
    """Rain into the digestate store [m3/month]

    Open surface x rain of the year, spread evenly: all that falls is counted, none dries up.
    """
    return store_open_area_m2 * site_rain_mm_per_year / mm_per_m * days / days_per_year


@line()
def store_spreading(store_spread_share):
    """Part of the store spread [share]

    Of what is in it at the end of the month before spreading.
    """
    return store_spread_share + 0


@line(roll="digestate_store")
def store_filled(previous_store_left, liquid_mass, mix_t_per_m3, rain_into_store, feeding):
    """Digestate store before spreading [m3]

    What was left, this month's liquid, and rain.
    """
    return previous_store_left + liquid_mass / mix_t_per_m3 + rain_into_store * feeding


@line(roll="digestate_store")
def store_left(store_filled, store_spreading):
    """Digestate store after spreading [m3]

    What is not spread this month.
    """
    return store_filled * (1 - store_spreading)


@line()
def store_room(store_volume_m3, store_freeboard_share):
    """Usable volume of the store [m3]

    Less what stays empty; 0 when no volume is stated.
    """
    return np.maximum(store_volume_m3 * (1 - store_freeboard_share), 0)
