"""A plan in which nothing is built and nothing is fed: the farm as it is, to which other ways are added."""

from __future__ import annotations

from appraisal.risk.edits import Raw
from appraisal.scenario.load import Loaded

KEPT = ("schema_version", "project", "site", "tax", "judging")


def bare(raw: Raw, *, loaded: Loaded) -> None:
    """Leave of the file only its dates, place, tax and way of judging; the least a plant may have, at no cost and no gas."""
    for table in [table for table in raw if table not in KEPT]:
        raw.pop(table)
    raw |= {
        "feed": {"nothing": {"like": "sweet_whey", "tonnes_per_year": 0.0, "supply_by": "own"}},
        "digester": {"kind": "covered_lagoon", "active_volume_m3": 1.0},
        "engine": {"none": {"rated_kw": 5.0, "maintenance": "full_service", "maintenance_per_kwh": 0.0}},
        "power": {
            "plant_use_kwh_per_t": 0.0,
            "contract_price_per_kwh": 0.0,
            "market_price_per_kwh": 0.0,
            "bought_price_per_kwh": 0.0,
        },
        "labour": {"hired_wage_per_hour": 0.0},
    }
