"""A quantity of the wrong kind: what was written, what is wanted, and what is likely meant."""

from __future__ import annotations

from typing import NamedTuple

from appraisal.scenario.unit_factors import converted
from appraisal.scenario.unit_list import TAGS, UNITS, Parts, kind

_ENERGY_OF = {"kW": "kWh", "MW": "MWh", "W": "Wh", "hp": "kWh"}
_POWER_OF = {"kWh": "kW", "MWh": "MW", "Wh": "W"}
_TO_LIQUID = {row.name: "m3" for row in UNITS if row.base == "Nm3"}
_TO_GAS = {row.name: "Nm3" for row in UNITS if row.base == "m3"}


class WrongKind(NamedTuple):
    """A quantity of the wrong kind: value, number as written, unit; the field's unit, parted and as written."""

    value: float
    number: str
    got: Parts
    wanted: Parts
    unit: str

    def fits(self, parts: Parts) -> bool:
        """True when a unit is of the field's kind."""
        return kind(parts) == kind(self.wanted)


def told(case: WrongKind) -> str:
    """Say what was written, what is wanted, and what is likely meant."""
    for reason in (_time_lacking, _power_or_energy, _other_time, _gas_or_liquid, _other_basis):
        if found := reason(case):
            return f"{found} (the field counts {case.unit})"
    kinds = (kind(case.got), kind(case.wanted))
    got, wanted = (" per ".join((" times ".join(each.over) or "a plain number", *each.under)) for each in kinds)
    return f"{case.got} measures {got}; the field counts {case.unit}, which measures {wanted}"


def _time_lacking(case: WrongKind) -> str | None:
    """An amount where a rate is wanted."""
    ask = "an amount of energy, not a rate: over which time?" if case.unit == "kW" else "an amount; per which time?"
    for time in case.wanted.times():
        full = case.got.per([time])
        if case.fits(full):
            figure = _figure(converted(case.value, full, case.wanted), case.unit)
            return f"{ask} e.g. {case.number} {full} = {figure}"
    return None


def _figure(value: float, unit: str) -> str:
    """A value [unit] with four figures, large power in MW."""
    if unit == "kW" and abs(value) >= 1000:
        value, unit = value / 1000, "MW"
    return f"{value:.0f} {unit}" if abs(value) >= 1000 else f"{value:.4g} {unit}"


def _power_or_energy(case: WrongKind) -> str | None:
    """Power where energy is wanted, or the reverse; power "per month" is always energy."""
    for swaps, what in ((_ENERGY_OF, "a rate"), (_POWER_OF, "an amount of energy")):
        word = next((name for name in case.got.names() if name in swaps), "")
        likely = case.got.swapped(swaps)
        twice = swaps is _ENERGY_OF and word in case.got.over and likely.times()
        if word and (twice or any(case.fits(likely.per(more)) for more in ((), case.wanted.times()[:1]))):
            return f"{word} is {what}; did you mean {swaps[word]}?"
    return None


def _other_time(case: WrongKind) -> str | None:
    """A rate where an amount is wanted, or energy per day where power is."""
    for time in case.got.times():
        for more in ((), case.wanted.times()[:1]):
            likely = case.got.swapped({time: ""}).per(more)
            if case.fits(likely):
                return f"{case.got} counts per {time}; did you mean {likely}?"
    return None


def _gas_or_liquid(case: WrongKind) -> str | None:
    """Gas of unstated temperature, or gas where a liquid or solid is wanted."""
    advices = ((_TO_GAS, "at which temperature? write Nm3 or scf"), (_TO_LIQUID, "is gas; did you mean m3?"))
    for swaps, advice in advices:
        if case.fits(case.got.swapped(swaps)) and (found := [name for name in case.got.names() if name in swaps]):
            return f"{found[0]} {advice}"
    return None


def _other_basis(case: WrongKind) -> str | None:
    """Per tonne where per tonne of volatile solids is wanted, and the like."""
    drop = dict.fromkeys(TAGS, "")
    if kind(case.got.swapped(drop)) != kind(case.wanted.swapped(drop)):
        return None
    return f"{case.got} is counted on another basis; VS means volatile solids, TS total solids, CO2e CO2 equivalent"
