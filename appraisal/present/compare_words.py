"""Plans side by side, in words."""

from __future__ import annotations

from appraisal.present.numbers import percent
from appraisal.present.risk_words import drawn_by, of_hundred, units_of
from appraisal.present.words import Passage
from appraisal.risk.compare import Against, Comparison


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
        sentences.append(_rate_of_difference(other, against, found.rate))
        if against.beats is not None:
            sentences.append(
                f"Over {found.settings.draws:,} common futures {other} beats {name} in {of_hundred(against.beats.value)}."
            )
    if any(found.offsets):
        sentences.append("The plans begin at different dates: all are discounted to the earliest first month.")
    if not found.drawn:
        sentences.append("No value carries a range, so nothing is said about futures.")
    return Passage("Side by side", tuple(sentences))


def how_compared(found: Comparison) -> Passage:
    """How the common futures were drawn."""
    common = "A value with a range in several plans is drawn once: each plan reads its own range at the same place."
    return Passage("How this was worked out", (*drawn_by(found.settings), common))


def _rate_of_difference(other: str, against: Against, wanted: float) -> str:
    """What the money earns in which the plans differ at first; which of the two takes it follows from the sign of the gap."""
    if against.rate is None:
        return "No rate of return fits the difference of the two cash flows; go by the worth."
    if against.status == "several":
        return "More than one rate of return fits the difference of the two cash flows; go by the worth."
    rate, asked = percent(against.rate), f"and {percent(wanted)} is asked"
    if (against.npv_difference > 0) == (wanted < against.rate):
        return f"{other} takes more money at first; what it takes more earns {rate} a year, {asked}."
    return f"{other} takes less money at first; what it spares then costs {rate} a year later on, {asked}."
