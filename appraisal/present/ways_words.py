"""Ready-made other ways for the same farm, in plain sentences."""

from __future__ import annotations

from collections.abc import Sequence

from appraisal.present.words import Passage
from appraisal.risk.alternatives import Alternative

HOW = "To hold one or more of them against the plan, name each: `appraisal compare FILE --with NAME --with NAME`."


def taken_for(others: Sequence[Alternative]) -> Passage:
    """What the ready-made ways assume."""
    return Passage("What was taken", tuple(f"{each.label}: {each.note}" for each in others))


def ways(found: Sequence[Alternative]) -> Passage:
    """Names of the ready-made ways, and what is missing where one cannot be compared."""
    sentences = (
        f"{each.name}: {each.label}. {f'Cannot be compared: {each.missing}.' if each.plan is None else each.note}"
        for each in found
    )
    return Passage("Other ways for this farm", (*sentences, HOW))
