"""Findings about prices far outside anything the table of prices holds: likely a wrong unit or a slip of the pen."""

from __future__ import annotations

from collections.abc import Iterator

from appraisal.errors import Finding
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row
from appraisal.scenario.said import converted
from appraisal.technical_yield.limits.band import sourced

LIKE_THE_TABLE = ("EUR", "USD", "GBP", "CHF", "CAD", "AUD", "NZD")  # one of them buys about as much as a euro
FAR = 1.5  # times the end of the table; judged, no source
CENTS = 100


def findings(scenario: Scenario) -> tuple[Finding, ...]:
    """All findings about far prices; none where money is counted in a currency of quite another size."""
    if scenario.project.currency not in LIKE_THE_TABLE:
        return ()
    return (*_gate_fees(scenario), *_power(scenario))


def _gate_fees(scenario: Scenario) -> Iterator[Finding]:
    """Fees over what a landfill with tax takes, or feed dearer than glycerol of high gas yield."""
    highest, lowest = FAR * float(_row("gate_landfill_uk_2013", "high")), FAR * float(_row("gate_eu_glycerol", "low"))
    for name, feed in scenario.feed.items():
        for field in ("gate_fee_per_t", "gate_fee_after_per_t"):
            fee, where = float(getattr(feed, field)), f"feed.{name}.{field}"
            if fee > highest:
                rows = "gate_landfill_uk_2013"
                yield _far(scenario, where, fee, highest, unit="t", what="what a landfill with tax takes", rows=rows)
            elif fee < lowest:
                yield _far(scenario, where, fee, lowest, unit="t", what="the dearest feed", rows="gate_eu_glycerol")


def _power(scenario: Scenario) -> Iterator[Finding]:
    """Power sold over the dearest tariff for small manure plants, power bought over the dearest farm contract."""
    power = scenario.power
    for field, rows, what in (
        ("contract_price_per_kwh", "fit_de_2012", "the dearest tariff for small plants"),
        ("market_price_per_kwh", "fit_de_2012", "the dearest tariff for small plants"),
        ("bought_price_per_kwh", "retail_farm_ie", "the dearest farm contract"),
    ):
        price, highest = float(getattr(power, field)), FAR * float(_row(rows, "high")) / CENTS
        if price > highest:
            yield _far(scenario, f"power.{field}", price, highest, unit="kWh", what=what, rows=rows)


def _row(name: str, column: str) -> str:
    return row("prices", name)[column]


def _far(
    scenario: Scenario, where: str, price: float, limit: float, *, unit: str, what: str, rows: str
) -> Finding:
    money = scenario.project.currency
    per = f"money/{unit}"
    paid, usual = ("Paying " if price < 0 else ""), converted(scenario, abs(limit) / FAR, per)[0]
    asked, label = converted(scenario, abs(price), per)
    facts = row("prices", rows)
    source = f"{sourced(facts['source'], facts['basis'])}; how far is too far: judged, no source"
    what_is_said = (
        f"{paid}{asked:,.4g} {label} is more than {FAR:g} times {what} in the table of prices ({usual:,.3g}): is a "
        "unit or a digit wrong? If it is signed, name the contract as its source."
    )
    return Finding(where, what_is_said, "warning", price, limit, f"{money}/{unit}", source)
