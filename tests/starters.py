"""Starter files of every currency and system of units."""

from __future__ import annotations

from appraisal.scenario.starter import starter

STARTERS = {
    (currency, units): starter(currency=currency, display_units=units)
    for currency in ("USD", "EUR", "DKK")
    for units in ("us", "metric")
}
STARTER = STARTERS["USD", "us"]
