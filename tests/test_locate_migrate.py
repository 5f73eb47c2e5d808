"""Line numbers in a scenario's text, and the steps that bring older files to the present form."""

from __future__ import annotations

import pytest

from appraisal.scenario.locate import dotted, line_map, line_of
from appraisal.scenario.migrate import NoStepError, migrate


def _doubled(content: dict[str, object]) -> dict[str, object]:
    return {**content, "years": int(str(content["years"])) * 2}


def test_older_content_goes_through_every_step_in_turn() -> None:
    steps = {1: lambda content: {"years": content["ages"]}, 2: _doubled}
    old = {"schema_version": 1, "ages": 5}
    assert migrate(old, 1, steps=steps, present=3) == {"schema_version": 3, "years": 10}
    assert old == {"schema_version": 1, "ages": 5}
    assert migrate({"years": 7}, 3, steps=steps, present=3) == {"years": 7}


@pytest.mark.parametrize(("version", "reason"), [(4, "newer"), (0, "too old")])
def test_content_that_no_step_leads_on_from_is_refused(version: int, reason: str) -> None:
    with pytest.raises(NoStepError, match=reason):
        migrate({"years": 1}, version, steps={1: _doubled, 2: _doubled}, present=3)


TRICKY = '''\
# [not.a.table]
top = 1
[a."b.c" . 'd e']   # a comment with [brackets] and key = value
x = """
[nor.this]
y = 2
"""
list = [
  "a = 1", # = ]
  [1, 2],
  { inner = 3, deep . er = { est = "}" } },
]
\tspaced . key = 'it\\'
"quoted \\u00e9" = 1979-05-27
last = { one = { two = 1 }, three = [{ four = "}" }] }

[[many]]
first = true
[[many]]
second = 3.14
[last]
one.two = 5
'''


def test_lines_are_found_in_a_tricky_text() -> None:
    table = dotted(("a", "b.c", "d e"))
    assert table == 'a."b.c"."d e"'
    expected = {
        "top": 2, "a": 3, 'a."b.c"': 3, table: 3, f"{table}.x": 4, f"{table}.list": 8, f"{table}.spaced": 13,
        f'{table}."quoted é"': 14, f"{table}.last": 15, "many": 17, "many.first": 18,
        "many.second": 20, "last": 21, "last.one.two": 22,
    }
    found = line_map(TRICKY)
    assert {path: found.get(path) for path in expected} == expected
    assert not [path for path in found if path.startswith(("not", "nor", f"{table}.y"))]
    assert line_of(found, "many.third") == 17
    assert line_of(found, "nowhere.third") is None
