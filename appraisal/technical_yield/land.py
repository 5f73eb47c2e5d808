"""The land: what the nutrients need of it, what is missing, and where the digestate goes that finds none."""

import numpy as np

from appraisal.lines.define import line
from appraisal.lines.trace import total

COUNTED, NOT_COUNTED = {"land_count": "counted"}, {"land_count": "not_counted"}


@line(per="crop")
def crop_p2o5_removed(crop_area_ha, crop_yield_t_per_ha, crop_p2o5_removal_kg_per_t):
    """Phosphate the crop takes off [kg/year]

    Area x yield x removal, as P2O5.
    """
    return crop_area_ha * crop_yield_t_per_ha * crop_p2o5_removal_kg_per_t


@line()
def own_land(each_crop_area_ha):
    """Land of the farm that takes digestate [ha]

    Of all crops.
    """
    return total(each_crop_area_ha) + 0


@line(when=COUNTED)
def land_in_all(own_land, land_more_land_ha):
    """Land that takes digestate [ha]

    The farm's and that of others.
    """
    return own_land + land_more_land_ha


@line(when={**COUNTED, "land_n_counts": "all"}, yearly=True)
def nitrogen_against_limit__all(year_sum_nitrogen_for_land):
    """Nitrogen that counts against the limit [kg/year]

    All of the digestate.
    """
    return year_sum_nitrogen_for_land + 0


@line()
def manure_nitrogen_for_land(each_substrate_manure_nitrogen, separation_n_share, separation_sold_share):
    """Manure nitrogen that must find land [kg/month]

    Of the herds, less that in solids sold.
    """
    return total(each_substrate_manure_nitrogen) * (1 - separation_n_share * separation_sold_share)


@line(when={**COUNTED, "land_n_counts": "manure"}, yearly=True)
def nitrogen_against_limit__manure(year_sum_manure_nitrogen_for_land):
    """Nitrogen that counts against the limit [kg/year]

    Of the herds only, as in the EU Nitrates Directive.
    """
    return year_sum_manure_nitrogen_for_land + 0


@line(when=COUNTED, yearly=True)
def land_for_nitrogen(nitrogen_against_limit, land_n_limit_kg_per_ha):
    """Land that the nitrogen needs [ha]

    Nitrogen over the limit per hectare.
    """
    return nitrogen_against_limit / land_n_limit_kg_per_ha


@line(when={**COUNTED, "land_p_rule": "none"}, yearly=True)
def land_for_phosphorus__none(year_sum_phosphorus_for_land):
    """Land that the phosphorus needs [ha]

    None is asked for.
    """
    return 0 * year_sum_phosphorus_for_land


@line(when={**COUNTED, "land_p_rule": "per_ha"}, yearly=True)
def land_for_phosphorus__per_ha(year_sum_phosphorus_for_land, p2o5_per_p, land_p2o5_limit_kg_per_ha):
    """Land that the phosphorus needs [ha]

    Phosphate over the limit per hectare.
    """
    return year_sum_phosphorus_for_land * p2o5_per_p / land_p2o5_limit_kg_per_ha


@line(when={**COUNTED, "land_p_rule": "removal"})
def p2o5_allowed_per_ha(each_crop_p2o5_removed, own_land, land_p_removal_share):
    """Phosphate a hectare may get [kg/ha/year]

    What the crops take off on average x factor; land of others is taken to be like it. 0 without crops.
    """
    mean = np.where(own_land > 0, total(each_crop_p2o5_removed) / np.where(own_land > 0, own_land, 1), 0)
    return mean * land_p_removal_share


@line(when={**COUNTED, "land_p_rule": "removal"}, yearly=True)
def land_for_phosphorus__removal(year_sum_phosphorus_for_land, p2o5_per_p, p2o5_allowed_per_ha):
    """Land that the phosphorus needs [ha]

    Phosphate over what a hectare may get; without crops nothing is known, and nothing is asked for.
    """
    known = p2o5_allowed_per_ha > 0
    return np.where(known, year_sum_phosphorus_for_land * p2o5_per_p / np.where(known, p2o5_allowed_per_ha, 1), 0)


@line(when=COUNTED, yearly=True)
def land_needed(land_for_nitrogen, land_for_phosphorus):
    """Land that the digestate needs [ha]

    The greater of the two.
    """
    return np.maximum(land_for_nitrogen, land_for_phosphorus)


@line(when=COUNTED, yearly=True)
def land_missing(land_needed, land_in_all):
    """Land that is missing [ha]

    Needed less there is; 0 where it fits.
    """
    return np.maximum(land_needed - land_in_all, 0)


@line(when=COUNTED, yearly=True)
def digestate_fits_share(land_in_all, land_needed):
    """Digestate that finds land [share]

    Land there is over land needed, at most all.
    """
    needs = land_needed > land_in_all
    return np.where(needs, land_in_all / np.where(needs, land_needed, 1), 1)


@line(when=COUNTED, yearly=True)
def digestate_on_own_land_share(own_land, land_needed):
    """Digestate that stays on the farm's own land [share]

    The farm's land over land needed, at most all.
    """
    needs = land_needed > own_land
    return np.where(needs, own_land / np.where(needs, land_needed, 1), 1)


@line(when=COUNTED)
def digestate_exported__counted(digestate_mass, solids_sold, in_year_digestate_fits_share):
    """Digestate that finds no land [t/month]

    What must leave, solids sold apart.
    """
    return (digestate_mass - solids_sold) * (1 - in_year_digestate_fits_share)


@line(when=NOT_COUNTED)
def digestate_exported__not_counted(digestate_mass):
    """Digestate that finds no land [t/month]

    None: the land is not counted.
    """
    return 0 * digestate_mass


@line(when=COUNTED)
def digestate_to_others__counted(
    digestate_mass, solids_sold, in_year_digestate_fits_share, in_year_digestate_on_own_land_share
):
    """Digestate to land of others [t/month]

    What fits, less what stays on the farm's own land.
    """
    away = np.maximum(in_year_digestate_fits_share - in_year_digestate_on_own_land_share, 0)
    return (digestate_mass - solids_sold) * away


@line(when=NOT_COUNTED)
def digestate_to_others__not_counted(digestate_mass):
    """Digestate to land of others [t/month]

    None: the land is not counted.
    """
    return 0 * digestate_mass


@line()
def digestate_truck_diesel(
    digestate_exported,
    land_export_km,
    digestate_to_others,
    land_more_land_km,
    ways_of_a_load,
    emissions_truck_load_t,
    emissions_truck_litres_per_km,
):
    """Diesel to haul digestate away [L/month]

    Loads x way there and back x diesel per km, to land of others and to export.
    """
    tonne_km = digestate_exported * land_export_km + digestate_to_others * land_more_land_km
    return tonne_km * ways_of_a_load / emissions_truck_load_t * emissions_truck_litres_per_km
