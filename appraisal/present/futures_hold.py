"""What the futures of a scenario hold and what they leave out, in plain sentences; for pages, papers and screens alike."""

from __future__ import annotations

from collections.abc import Sequence

from appraisal.present.naming import drawn_value, item, name_of
from appraisal.present.numbers import percent
from appraisal.present.risk_words import of_hundred
from appraisal.present.words import Passage
from appraisal.risk.counted import CountedCase, counted_cases
from appraisal.risk.simulate import Simulation
from appraisal.scenario.load import Loaded

ASK = "`appraisal stress` puts the plan to each of them."
CASES_NAMED = 5  # of the bad cases, in brief
MOST = 2  # so many values are named of a case that is reached in part


def futures_hold(loaded: Loaded, found: Simulation | None = None) -> Passage:
    """Which events strike in some futures and how often, which bad cases futures reach, and which no future holds.

    found: the futures, where they were drawn; their counts then stand beside the yearly chances.
    """
    cases = counted_cases(loaded)
    whole = [each.case.label for each in cases if each.whole]
    part = [each for each in cases if not each.whole and each.reached]
    none = [each for each in cases if not each.reached]
    sentences = [events_held(loaded, found)]
    if whole:
        sentences.append(f"Bad cases as hard as some of the futures: {_listed(whole)}.")
    if part:
        sentences.append(f"Reached in part only: {_listed([_in_part(loaded, each) for each in part])}.")
    if none:
        sentences.append(
            f"Reached by no range, so the chances do not count them: {_listed([_left_out(each) for each in none])}. {ASK}"
        )
    return Passage("What the futures hold, and what they leave out", tuple(sentences))


def futures_hold_briefly(loaded: Loaded) -> tuple[str, str]:
    """The events in the futures, and the first bad cases that no future holds whole, by label only."""
    left = [each.case.label for each in counted_cases(loaded) if not each.whole and each.case.adverse]
    named, more = left[:CASES_NAMED], len(left) - CASES_NAMED
    others = f"; and {more} more" if more > 0 else ""
    missing = f"Bad cases that no future holds as a whole: {_listed(named)}{others}. {ASK}" if left else ""
    return events_held(loaded), missing or "Some future holds each of the ready-made bad cases."


def events_held(loaded: Loaded, found: Simulation | None = None) -> str:
    """The events that strike in some futures with their chances, in one sentence."""
    counts = {each.path: each.chance.value for each in found.events} if found else {}
    told = []
    for path, given in loaded.scenario.range.items():
        event = loaded.assumptions[path].declaration.event
        if event is None:
            continue
        words = event.words.format(item=item(path.rpartition(".")[0].partition(".")[2]))
        chance = [f"{percent(given.per_year)} a year"] if given.shape == "hazard" and given.per_year is not None else []
        chance += [f"in {of_hundred(counts[path])} futures"] if path in counts else []
        told.append(f"{words} ({', '.join(chance)})" if chance else words)
    if not told:
        return "No event is in these futures: no contract is lost in them, no engine fails, no tank turns sour."
    return f"Events that strike in some futures, each once at most: {_listed(told)}."


def _left_out(each: CountedCase) -> str:
    return _lower(each.case.label) + (" (its range ends before it)" if each.short else "")


def _in_part(loaded: Loaded, each: CountedCase) -> str:
    """A case with the values that futures do not move so far."""
    kept = [f"{_lower(name_of(loaded, path))} stays at {_plan(loaded, path)}" for path in each.planned[:MOST]]
    kept += [f"{_lower(name_of(loaded, path))} does not go so far" for path in each.short[: MOST - len(kept)]]
    more = len(each.planned) + len(each.short) - len(kept)
    return f"{_lower(each.case.label)} ({', '.join(kept)}{f', and {more} more' if more else ''})"


def _plan(loaded: Loaded, path: str) -> str:
    return drawn_value(loaded, path, float(str(loaded.assumptions[path].value)))


def _listed(parts: Sequence[str]) -> str:
    return "; ".join(_lower(each) for each in parts)


def _lower(text: str) -> str:
    return f"{text[:1].lower()}{text[1:]}"
