"""Plans side by side, in words."""

from __future__ import annotations

from appraisal.present.numbers import percent
from appraisal.present.risk_words import of_hundred, units_of
from appraisal.present.words import Passage
from appraisal.risk.compare import Comparison


def compared(found: Comparison) -> Passage:
    """Each plan against the first."""
    first = found.cases[0].loaded
    units = units_of(first)
    name = first.scenario.project.name
    sentences = [f"{name} is worth {units.money(found.npv[0])} at {percent(found.rate)} a year."]
    for case, worth, against in zip(found.cases[1:], found.npv[1:], found.against, strict=True):
        other = case.loaded.scenario.project.name
        more = "more" if against.npv_difference >= 0 else "less"
        sentences.append(
            f"{other} is worth {units.money(worth)}, {units.money(abs(against.npv_difference))} {more} than {name}."
        )
        sentences.append(_rate_of_difference(against.rate, against.status, found.rate))
        if against.beats is not None:
            sentences.append(
                f"Over {found.settings.draws:,} common futures {other} beats {name} in {of_hundred(against.beats.value)}."
            )
    if any(found.offsets):
        sentences.append("The plans begin at different dates: all are discounted to the earliest first month.")
    if not found.drawn:
        sentences.append("No value carries a range, so nothing is said about futures.")
    return Passage("Side by side", tuple(sentences))


def _rate_of_difference(rate: float | None, status: str, wanted: float) -> str:
    if rate is None:
        return "No rate of return fits the difference of the two cash flows; go by the worth."
    several = " More than one rate fits the difference; go by the worth." if status == "several" else ""
    return (
        f"The difference of the two cash flows has a rate of return of {percent(rate)} a year, held against {percent(wanted)}; "
        f"where the second plan costs more at first, a higher rate speaks for it, where it costs less, against it.{several}"
    )
