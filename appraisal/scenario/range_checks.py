"""Whether one range holds together: its parameters fit its shape, the field's limits, each other and the value."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import starmap
from math import exp, isfinite, log
from statistics import NormalDist
from typing import Any

from appraisal.errors import Fault
from appraisal.scenario.beside import NAMES, PARAMETERS, parameters
from appraisal.scenario.draft import Draft
from appraisal.scenario.faults import out_of_range, shown
from appraisal.scenario.locate import dotted
from appraisal.scenario.quantity import Declaration

LIES_FAR_OUT = 0.001  # a value beyond this quantile of a curve without ends counts as outside
MOST_CUT = 0.01  # of the probability that the limits of the field may cut off a curve without ends
LISTS = ("values", "weights")
BOUNDED = ("low", "likely", "high", "p10", "p90", "mean_before_cut")
Z90 = NormalDist().inv_cdf(0.9)


def lognormal(p10: float, p90: float) -> NormalDist:
    """The normal curve of the logarithm whose 10 % and 90 % quantiles are those of two positive values."""
    return NormalDist((log(p10) + log(p90)) / 2, (log(p90) - log(p10)) / (2 * Z90))


def check_range(path: str, item: Mapping[str, Any], *, target: Declaration, draft: Draft) -> None:
    """Refuse what does not hold together in the range of one value, one fault for one slip.

    path: of the value; item: the range as read, in the unit of the value; target: the value's declaration.
    """
    where = dotted(("range", path))
    given = parameters(item)
    if {f"{where}.{name}" for name in ("shape", *NAMES)} & draft.doubtful or not all(starmap(_usable, given.items())):
        return
    for faults in (_names, _limits, _order, _curve, _value_inside):
        found = list(faults(path, item, target, draft))
        for fault in found:
            draft.refuse(fault)
        if found:
            return


def _usable(name: str, value: Any) -> bool:
    """Whether a parameter is a finite number, or a list where one belongs; the class says what is wrong with another."""
    return isinstance(value, list) if name in LISTS else isinstance(value, float) and isfinite(value)


def _names(path: str, item: Mapping[str, Any], target: Declaration, draft: Draft) -> Iterator[Fault]:
    where, shape = dotted(("range", path)), str(item.get("shape"))
    if shape not in PARAMETERS:
        return  # the class says so
    needed, extra = PARAMETERS[shape]
    given = parameters(item)
    for name in needed:
        if name not in given and f"{where}.{name}" not in draft.doubtful:
            yield Fault(f"{where}.{name}", f"needed for the shape {shape}, but not given")
    for name in given:
        if name not in (*needed, *extra):
            fits = ", ".join((*needed, *extra))
            yield Fault(f"{where}.{name}", f"not used by the shape {shape}", allowed=fits)


def _limits(path: str, item: Mapping[str, Any], target: Declaration, draft: Draft) -> Iterator[Fault]:
    """Parameters outside the field's own limits."""
    where = dotted(("range", path))
    for name in BOUNDED:
        if (value := item.get(name)) is None:
            continue
        what = "must be above 0" if name == "p10" and value <= 0 else out_of_range(target, value)
        if what:
            written = draft.written.get(f"{where}.{name}") or value
            yield Fault(f"{where}.{name}", what, got=shown(written), allowed=target.allowed())
    hazard = item.get("per_year")
    happens_once = target.event is not None and target.event.when == "once"
    if hazard is not None and target.unit != "year" and not happens_once:
        yield Fault(f"{where}.shape", "a hazard ends a number of years, or says when something happens",
                    got=shown(f"a value in {target.unit}"),
                    allowed="a value in years, such as the years of a contract, or the month of an event, such as upset.month")
    elif hazard is not None and not 0 < hazard < 1:
        yield Fault(f"{where}.per_year", "must be above 0 and below 1", got=f"{hazard:g} share/year")
    sd = item.get("sd_before_cut")
    if sd == 0:
        yield Fault(f"{where}.sd_before_cut", "must be above 0", got=f"{sd:g} {target.unit}")


def _order(path: str, item: Mapping[str, Any], target: Declaration, draft: Draft) -> Iterator[Fault]:
    where, unit = dotted(("range", path)), target.unit
    given = {name: value for name, value in parameters(item).items() if not isinstance(value, list)}
    pairs = (("low", "high"), ("p10", "p90"), ("low", "p10"), ("p90", "high"))
    for lower, upper in pairs:
        if lower in given and upper in given and not given[lower] < given[upper]:
            got = f"{given[lower]:g} and {given[upper]:g} {unit}"
            yield Fault(where, f"{lower} must lie under {upper}", got=got)
            return
    for name in ("likely", "mean_before_cut"):
        if name in given and "low" in given and "high" in given and not given["low"] <= given[name] <= given["high"]:
            yield Fault(f"{where}.{name}", "not between low and high", got=f"{given[name]:g} {unit}")
    weights, values = item.get("weights"), item.get("values")
    if isinstance(values, list) and len(set(values)) < 2:
        yield Fault(f"{where}.values", "two different values at least are needed")
    elif isinstance(weights, list) and isinstance(values, list) and (len(weights) != len(values) or not any(weights)):
        yield Fault(f"{where}.weights", "one weight for each value is needed, not all of them 0",
                    got=f"{len(weights)} weights", allowed=f"{len(values)} weights")


def _curve(path: str, item: Mapping[str, Any], target: Declaration, draft: Draft) -> Iterator[Fault]:
    """A lognormal curve needs positive quantiles and must lie almost wholly within the field's limits."""
    where, given = dotted(("range", path)), parameters(item)
    if item.get("shape") != "lognormal" or not {"p10", "p90"} <= set(given):
        return
    curve = lognormal(given["p10"], given["p90"])
    below = curve.cdf(log(target.low)) if target.low is not None and target.low > 0 and "low" not in given else 0.0
    above = 1 - curve.cdf(log(target.high)) if target.high is not None and "high" not in given else 0.0
    for end, cut in (("low", below), ("high", above)):
        if cut > MOST_CUT:
            yield Fault(where, f"{cut:.0%} of the futures would lie beyond the allowed range", allowed=target.allowed(),
                        hint=f"give {end} to cut the curve yourself, or choose a shape with ends")


def _value_inside(path: str, item: Mapping[str, Any], target: Declaration, draft: Draft) -> Iterator[Fault]:
    """The value that the scenario itself uses lies within its range."""
    value = draft.assumptions[path].value if path in draft.assumptions else None
    if path in draft.doubtful or not isinstance(value, float) or not isfinite(value) or out_of_range(target, value):
        return
    low, high = _span(item)
    if low is None or high is None or low <= value <= high:
        return
    yield Fault(
        dotted(("range", path)), "the value itself lies outside its range", got=f"{value:g} {target.unit}",
        allowed=f"{low:g} to {high:g} {target.unit}")


def _span(item: Mapping[str, Any]) -> tuple[float | None, float | None]:
    """The ends of a range; of a curve without ends what all but one future in a thousand keep within."""
    given = parameters(item)
    if item.get("shape") == "table":
        return min(given["values"]), max(given["values"])
    if item.get("shape") == "lognormal":
        curve = lognormal(given["p10"], given["p90"])
        ends = [exp(curve.inv_cdf(quantile)) for quantile in (LIES_FAR_OUT, 1 - LIES_FAR_OUT)]
        return given.get("low", ends[0]), given.get("high", ends[1])
    return given.get("low"), given.get("high")
