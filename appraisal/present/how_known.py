"""How an input is known, in the words of the assumption book; the weakest ways first."""

from __future__ import annotations

from appraisal.scenario.assumptions import Assumption

SECTIONS = {
    "guess": "Still a guess",
    "not said": "Given, but nobody said from where (not said)",
    "default": "Left at the program's default, which has no source",
    "memory": "From memory, not checked at the source",
    "judged": "In part judged, between or beside the figures of a source",
    "common practice": "Common practice, no source",
    "invented": "Invented for this example",
    "published": "Published",
    "computed": "Worked out from published figures",
    "quote": "Quoted",
    "measured": "Measured",
    "choice": "Choices, names and counts",
    "nothing": "Left at nothing by default, so not counted in this plan",
}
GROUPS = tuple(SECTIONS)
UNEXPLAINED = ("guess", "not said")  # what somebody of this project must still explain
OF_WORDS = {
    "guess": "guess", "memory": "memory", "judged": "judged", "assumed": "judged", "practice": "common practice",
    "invented": "invented", "quote": "quote", "measured": "measured", "read": "published", "seen": "published",
    "published": "published", "computed": "computed",
}  # fmt: skip


def known(each: Assumption) -> str:
    """One of `GROUPS`: where a value rests on several, the weakest.

    What the scenario states without a source is `not said`; choices and texts are the user's own and are `choice`; a default
    of 0 stands for what the plan does not have and is `nothing`.
    """
    words = each.known.lower()
    for word, group in OF_WORDS.items():
        if words.startswith(word) or f" {word}" in f" {words}":
            return group
    if each.declaration.kind in ("choice", "text", "count") and each.origin in ("scenario", "default"):
        return "choice"
    if each.origin == "default":
        return "default" if _any(each) else "nothing"
    return {"computed": "computed", "reference": "published"}.get(each.origin, "not said")


def _any(each: Assumption) -> bool:
    return any(each.value) if isinstance(each.value, tuple) else bool(each.value)
