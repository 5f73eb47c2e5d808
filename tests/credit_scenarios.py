"""The dairy demo with every input of credits and claims in use."""

from __future__ import annotations

from collections.abc import Mapping

from appraisal.demos import demos
from appraisal.scenario.load import Loaded, loads
from tests.emission_scenarios import DEMO, EVERYTHING, FEED, HERD_2006, LOSSES

CREDITS = """
price_per_t_co2e = 12
escalation = 0.02
price_share_by_year = [1, 1, 0.5]
counts_landfill = "yes"
discount_share = 0.06
buffer_share = 0.1
share_kept = 0.7
registration_cost = 20000
verification_cost = 15000
verification_every_years = 2
issuance_fee_per_t = 0.19
paid = "next_year"
paid_in_month = 4
"""
CLAIMS = """
[carbon_claim.bonus]
kind = "tariff_bonus"
of = "power"
price_per_kwh = 0.01
cost_per_year = 500

[carbon_claim.dairy]
kind = "life_cycle_value"
of = "fertilizer"
by = "others"
claimed_share = 0.8
"""
# name -> herd, feed, credits, end of the file
CASES: Mapping[str, tuple[str, str, str, str]] = {
    "full": (HERD_2006, FEED, CREDITS, EVERYTHING + 'manure_method = "ipcc_2006"\n' + LOSSES + CLAIMS),
    "power_credited": (
        HERD_2006,
        "",
        'price_per_t_co2e = 9\ncounts_power = "yes"\n',
        EVERYTHING + 'manure_method = "ipcc_2006"\n',
    ),
    "sold_short": ("", "round_trip_km = 1500\n", "price_per_t_co2e = 9\nbaseline_methane_share = 0.3\n", ""),
    "claims_of_every_kind": (
        HERD_2006,
        FEED,
        "price_per_t_co2e = 0\n",
        EVERYTHING
        + 'manure_method = "ipcc_2006"\n'
        + "".join(
            f'\n[carbon_claim.c_{of}]\nkind = "voluntary_offset"\nof = "{of}"\nby = "{by}"\nprice_per_t_co2e = 5\n'
            for of, by in (
                ("manure_methane", "plant"),
                ("landfill_methane", "others"),
                ("power", "others"),
                ("fuel_and_gas", "plant"),
                ("fertilizer", "plant"),
            )
        ),
    ),
}


def scenario(name: str, *changes: tuple[str, str]) -> Loaded:
    """One case, loaded, with some texts exchanged."""
    herd, feed, credits, end = CASES[name]
    found = demos()[DEMO].read_text("utf-8")
    start = found.index("[credits]")
    stop = found.index("\n[", start)
    found = found[:start] + "[credits]\n" + credits + found[stop:]
    for table, more in (("[herd.milkers]\n", herd), ("[herd.dry_cows]\n", herd), ("[feed.whey]\n", feed)):
        assert found.count(table) == 1
        found = found.replace(table, table + more)
    found += "\n" + end
    for old, new in changes:
        assert found.count(old) == 1, old
        found = found.replace(old, new)
    return loads(found)
