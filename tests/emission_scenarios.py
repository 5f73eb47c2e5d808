"""The dairy demo with greenhouse gases counted in every way there is, and more inputs set than a demo would."""

from __future__ import annotations

from collections.abc import Mapping

from appraisal.demos import demos
from appraisal.scenario.load import Loaded, loads

DEMO = "dairy_with_leftovers"
HERD_2006 = """
store_2006 = "slurry_no_crust_12"
store_n2o = "2006_direct_slurry_crust"
store_ammonia = "2006_gas_slurry_no_crust_dairy"
solids_apart_share = 0.2
mcf_solids_share = 0.02
round_trip_km = 3
"""
HERD_2019 = HERD_2006.replace(
    'store_2006 = "slurry_no_crust_12"', 'store_2019 = "slurry_no_crust_cool_temperate_moist_6"'
)
HERD_EXCRETED = HERD_2019 + 'excreted = "2019_dairy_na"\n'
FEED = """
landfilled_share = 0.4
fed_before_share = 0.5
replacement_feed_cost_per_t = 6
replacement_feed_kg_co2e_per_t = 25
round_trip_km = 60
"""
EVERYTHING = """
[emissions]
gwp_set = "AR6_100"
field_set = "ipcc_2019_wet"
grid_place = "US-NYUP"
fuel = "us_epa_propane"
flare_unburned_share = 0.05
"""
STORE = 'manure_method = "store_model"\nstore_emptied_share = [0, 0, 0, 0.95, 0, 0, 0, 0, 0, 0.95, 0, 0]\n'
LOSSES = '\n[store]\nloss = "open_store_long"\n'
# name -> text put into each herd, into the feed whey, and at the end of the file
CASES: Mapping[str, tuple[str, str, str]] = {
    "ipcc_2006": (HERD_2006, FEED, EVERYTHING + 'manure_method = "ipcc_2006"\n' + LOSSES),
    "ipcc_2019_excreted": (
        HERD_EXCRETED,
        FEED,
        EVERYTHING + 'manure_method = "ipcc_2019"\nmanure_solids = "as_excreted"\n'
        'landfill_first_gas = "month_of_burial"\n',
    ),
    "store_us": (HERD_2006, FEED, EVERYTHING + STORE + LOSSES),
    "store_ipcc_excreted": (
        HERD_EXCRETED,
        "",
        EVERYTHING + STORE + 'store_set = "ipcc_2019_annex"\nmanure_solids = "as_excreted"\n',
    ),
    "store_never_emptied": ("", "", '[emissions]\nmanure_method = "store_model"\nstore_emptied_share = 0\n'),
}


def text(name: str) -> str:
    """The scenario file of one case."""
    herd, feed, end = CASES[name]
    found = demos()[DEMO].read_text("utf-8")
    for table, more in (("[herd.milkers]\n", herd), ("[herd.dry_cows]\n", herd), ("[feed.whey]\n", feed)):
        assert found.count(table) == 1
        found = found.replace(table, table + more)
    return found + "\n" + end


def scenario(name: str, *changes: tuple[str, str]) -> Loaded:
    """One case, loaded, with some texts exchanged."""
    found = text(name)
    for old, new in changes:
        assert found.count(old) == 1, old
        found = found.replace(old, new)
    return loads(found)
