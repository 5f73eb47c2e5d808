"""A farm whose values carry no range takes usual ones over with one click."""

from __future__ import annotations

import tomllib

from appraisal.dashboard import drafts
from appraisal.dashboard.usual_ranges import values_of
from appraisal.risk.offers import offers
from appraisal.scenario.edit_text import with_edits
from appraisal.scenario.load import loads
from appraisal.scenario.starter_short import starter_short
from tests.dashboard.windows import healthy, said, screen, window


def test_usual_ranges_are_taken_with_their_reasons_and_undone() -> None:
    text = starter_short(currency="EUR", display_units="metric")
    kept = drafts.create(text, name="Hill Farm")
    at = screen(window(kept.id), "what_could_go_wrong")
    assert "No value of this farm carries a range yet" in said(at)
    healthy(at.button(key="usual_ranges").click().run())
    ranges = tomllib.loads(drafts.read(kept.id).text)["range"]
    assert set(ranges) == {each.path for each in offers(loads(text))}
    assert all(each["reason"] for each in ranges.values())
    assert "No value of this farm carries a range yet" not in said(at)
    assert "now carry a usual range" in said(at)
    undo = next(each for each in at.sidebar.button if each.label == "Undo")
    healthy(undo.click().run())
    assert drafts.read(kept.id).text == text


def test_the_text_with_usual_ranges_loads_and_says_what_was_offered() -> None:
    text = starter_short(currency="USD", display_units="us")
    found = offers(loads(text))
    made = loads(with_edits(text, values_of(found))).scenario.range
    assert {path: each.shape for path, each in made.items()} == {each.path: each.shape for each in found}
    assert not offers(loads(with_edits(text, values_of(found))))
