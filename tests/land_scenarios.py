"""The dairy demo with land, separator, store and prices of straight fertilizers in every way there is."""

from __future__ import annotations

from collections.abc import Mapping

from appraisal.demos import demos
from appraisal.scenario.load import Loaded, loads
from tests.emission_scenarios import DEMO, HERD_2006

CROPS = """
[crop.maize]
like = "maize_silage_us"
area_ha = {maize}

[crop.alfalfa]
like = "alfalfa_hay"
area_ha = {alfalfa}
"""
TECHNIQUE = 'availability = "by_technique"\ntechnique = "trailing_shoe"\nautumn_now_share = 0.3\nautumn_share = 0.1\n'
STRAIGHT = (
    'prices_from = "straight"\nn_product_price_per_t = "601 USD/short_ton"\np_product_price_per_t = "921 USD/short_ton"\n'
    'k_product_price_per_t = "485 USD/short_ton"\n'
)
AWAY = """haul_cost_per_t_km = 0.15
export_cost_per_t = 6
export_km = 40
more_land_ha = 20
more_land_km = 12
"""
SEPARATED = """
[separation]
technique = "screw_press"
bedding_share = 0.6
sold_share = 0.3
solids_price_per_t = 4
"""
STORE = """
[store]
volume_m3 = {volume}
open_area_m2 = 1500
spread_share = [0, 0, 0, 0.5, 0.5, 0.3, 0.3, 0.5, 0.5, 1, 0, 0]
"""
# name -> lines for [fertilizer], and the end of the file
CASES: Mapping[str, tuple[str, str]] = {
    "wide_land": (TECHNIQUE, '[land]\ncount = "counted"\n' + AWAY + CROPS.format(maize=500, alfalfa=400)),
    "short_land": (
        TECHNIQUE + STRAIGHT,
        '[land]\ncount = "counted"\n'
        + AWAY
        + CROPS.format(maize=150, alfalfa=60)
        + SEPARATED
        + STORE.format(volume=9000),
    ),
    "short_by_limit": (
        "",
        '[land]\ncount = "counted"\nn_counts = "manure"\np_rule = "per_ha"\n'
        + AWAY
        + CROPS.format(maize=100, alfalfa=60),
    ),
    "no_p_rule": ("", '[land]\ncount = "counted"\np_rule = "none"\n' + CROPS.format(maize=100, alfalfa=60)),
    "stated": (STRAIGHT, SEPARATED + STORE.format(volume=60000)),
}


def scenario(name: str, *changes: tuple[str, str]) -> Loaded:
    """One case, loaded, with some texts exchanged."""
    fertilizer, end = CASES[name]
    found = demos()[DEMO].read_text("utf-8")
    for table, more in (
        ("[herd.milkers]\n", HERD_2006),
        ("[herd.dry_cows]\n", HERD_2006),
        ("[fertilizer]\n", fertilizer),
    ):
        assert found.count(table) == 1
        found = found.replace(table, table + more)
    found += "\n" + end
    for old, new in changes:
        assert found.count(old) == 1, old
        found = found.replace(old, new)
    return loads(found)
