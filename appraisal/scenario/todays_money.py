"""An old cost in today's money: its own currency and year, a price index of its place, and an exchange rate.

A cost of year y0 in currency A becomes a cost of year y1 in currency B by

    index(place, y1) / index(place, y0) * (rate of B at y1) / (rate of A at y1).

Years after the last published index are bridged by the scenario's own general inflation, and that is said. Where no
index of construction covers the place and year, consumer prices stand in, and that is said too. Nothing is guessed: a
missing index or rate is refused in words.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from appraisal.errors import AppraisalError
from appraisal.scenario.reference import rows

KINDS = ("construction", "consumer prices")  # in order of preference
PLACES = {"EU": "EA", "UK": "GB"}  # as cost tables write a place -> as index tables write it
PLACE_OF_CURRENCY = {"EUR": "EA", "USD": "US", "GBP": "GB", "CAD": "CA", "AUD": "AU", "NZD": "NZ", "DKK": "DK"}
BASE = "EUR"


class NotBroughtError(AppraisalError, ValueError):
    """No index or exchange rate leads from the cost's year and currency to the scenario's."""


@dataclass(frozen=True)
class Brought:
    """What a cost is multiplied by, and how that came about.

    factor [target currency/currency of the cost]: index part times exchange part. words: the chain, for a reader.
    """

    factor: float
    words: str


def brought(
    *, currency: str, year: int, place: str, to_currency: str, to_year: int, inflation: float
) -> Brought:
    """The factor from a cost's year, place and currency to a scenario's.

    place: as cost tables write it (US, UK, EU, DE ...); empty or any: the home of the currency.
    inflation [1/year]: bridges the years after the last index. Raises NotBroughtError with what is missing.
    """
    level, level_words = _level(_place(place, currency), year, to_year, inflation=inflation)
    rate, rate_words = _rate(currency, to_currency, to_year)
    return Brought(level * rate, f"{year} prices x {level:.3f} ({level_words}){rate_words}")


def _place(place: str, currency: str) -> str:
    known = place not in ("", "any", "none")
    found = PLACES.get(place, place) if known else PLACE_OF_CURRENCY.get(currency)
    if found is None:
        raise NotBroughtError(f"no place is named whose price index could bring {currency} to today's money")
    return found


def _level(place: str, year: int, to_year: int, *, inflation: float) -> tuple[float, str]:
    """Ratio of price levels [1], and its words."""
    if to_year < year:
        raise NotBroughtError(f"the cost is of {year}, after the year of today's money, {to_year}")
    for kind in KINDS:
        index = _index().get((place, kind), {})
        if year in index:
            last = min(max(index), to_year)
            bridged = to_year - last
            words = f"index of {kind}, {place}, {year} to {last}" + (
                f", then {bridged} years at {inflation:.1%}" if bridged else ""
            )
            return index[last] / index[year] * (1 + inflation) ** bridged, words
    raise NotBroughtError(f"no price index of {place} for {year} in the table price_index")


def _rate(currency: str, to_currency: str, year: int) -> tuple[float, str]:
    """Exchange factor [target/own currency] of the year, or of the last year on record before it, and its words."""
    if currency == to_currency:
        return 1.0, ""
    both = [_per_euro(each, year) for each in (currency, to_currency)]
    shared = min(of for _, of in both)
    own, target = (_per_euro(each, shared)[0] for each in (currency, to_currency))
    return target / own, f", x {target / own:.4f} {to_currency}/{currency} (mean of {shared})"


def _per_euro(currency: str, year: int) -> tuple[float, int]:
    if currency == BASE:
        return 1.0, year
    known = _rates().get(currency, {})
    years = [each for each in known if each <= year]
    if not years:
        raise NotBroughtError(f"no exchange rate of {currency} for {year} or before in the table exchange_rates")
    return known[max(years)], max(years)


@cache
def _index() -> Mapping[tuple[str, str], Mapping[int, float]]:
    found: dict[tuple[str, str], dict[int, float]] = {}
    for line in rows("price_index"):
        found.setdefault((line["place"], line["kind"]), {})[int(line["year"])] = float(line["value"])
    return MappingProxyType(found)


@cache
def _rates() -> Mapping[str, Mapping[int, float]]:
    found: dict[str, dict[int, float]] = {}
    for line in rows("exchange_rates"):
        found.setdefault(line["currency"], {})[int(line["year"])] = float(line["per_eur"])
    return MappingProxyType(found)
