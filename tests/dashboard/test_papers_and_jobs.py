"""Every paper can be taken away in every form, and long work can be followed, cancelled and started anew."""

from __future__ import annotations

import io
import threading
import zipfile
from collections.abc import Iterator

import pytest
import streamlit as st
from streamlit.testing.v1 import AppTest

from appraisal.dashboard.take_away import everything, takes
from appraisal.demos import demos
from appraisal.scenario.load import Loaded, load
from tests.dashboard.windows import draft_of_demo, healthy, said, screen, window

BEGINS = {"docx": b"PK", "xlsx": b"PK", "pdf": b"%PDF-", "json": b"{", "txt": b"Stony Lane", "toml": b"# An invented"}
FORMS = [(take.key, form.ending) for take in takes() for form in take.forms]


@pytest.fixture(scope="module")
def farm() -> Loaded:
    return load(demos()["small_herd_manure_only"])


@pytest.mark.parametrize(("key", "ending"), FORMS)
def test_each_form_of_each_paper_is_a_file_of_its_kind(farm: Loaded, key: str, ending: str) -> None:
    form = next(form for take in takes() if take.key == key for form in take.forms if form.ending == ending)
    assert form.made(farm).startswith(BEGINS[ending])


def test_everything_in_one_file_tells_how_far_it_is(farm: Loaded) -> None:
    told: list[tuple[int, int]] = []
    content = everything(farm, lambda done, whole: told.append((done, whole)))
    names = zipfile.ZipFile(io.BytesIO(content)).namelist()
    assert {"family_report.docx", "bank_report.docx", "workbook.xlsx", "scenario.toml", "csv/cover.csv"} <= set(names)
    assert told == sorted(told)
    assert told[0][0] == 0
    assert told[-1][0] == told[-1][1]


def test_the_papers_of_the_chosen_reader_come_first() -> None:
    at = screen(window(draft_of_demo().id, reader="grant"), "papers")
    healthy(at)
    titles = [each.value for each in at.main.markdown if each.value.startswith("**")]
    assert titles[0].startswith("**Tables for the grant office")


def test_what_changed_since_an_older_file_stands_on_the_screen_of_papers() -> None:
    kept = draft_of_demo("small_herd_manure_only")
    at = screen(window(kept.id), "papers")
    at.toggle(key="_changed").set_value(True).run()
    older = kept.text.replace("discount_rate = ", "discount_rate = 0.02 # ", 1)
    healthy(at.file_uploader(key="older").set_value(("older.toml", older.encode(), "application/toml")).run())
    assert "judging.discount_rate" in said(at) and "All changes together move the worth" in said(at)
    bad = older.replace("discount_rate = 0.02", "discount_rate = 7", 1)
    healthy(at.file_uploader(key="older").set_value(("bad.toml", bad.encode(), "application/toml")).run())
    assert "cannot be compared" in said(at) and "judging.discount_rate" in said(at)
    other = kept.text.replace('currency = "USD"', 'currency = "EUR"').replace(" USD", " EUR").encode()
    healthy(at.file_uploader(key="older").set_value(("other.toml", other, "application/toml")).run())
    assert "the old one in EUR, the new one in USD" in said(at)


GATE, BUSY = threading.Event(), threading.Event()


def slow(tell: object) -> str:
    """Work that waits for the test at each step, and says that it is busy once a step is done."""
    for step in range(100):
        tell(step, 100)  # type: ignore[operator]
        if step > 0:
            BUSY.set()
        if GATE.wait(0.02):
            return "the result"
    return "the end"


def page() -> None:
    """A page with one piece of long work."""
    import streamlit as st

    from appraisal.dashboard.jobs import long_work
    from tests.dashboard.test_papers_and_jobs import slow

    found = long_work("slow", "Begin", slow)
    st.markdown(f"found: {found}")


@pytest.fixture
def at() -> Iterator[AppTest]:
    st.cache_resource.clear()
    GATE.clear()
    BUSY.clear()
    yield AppTest.from_function(page, default_timeout=20)
    GATE.set()
    st.cache_resource.clear()


def test_long_work_is_followed_and_hands_back_its_result(at: AppTest) -> None:
    healthy(at.run())
    healthy(at.button(key="start_slow").click().run())
    assert BUSY.wait(5)
    healthy(at.run())
    assert "of 100 done" in at.get("progress")[0].proto.text
    GATE.set()
    wait_for(at, "found: the result")


def test_long_work_is_cancelled_and_can_begin_anew(at: AppTest) -> None:
    at.run()
    at.button(key="start_slow").click().run()
    assert BUSY.wait(5)
    at.run()
    at.button(key="cancel_slow").click().run()
    wait_for(at, "Cancelled. Nothing is lost.")
    BUSY.clear()
    at.button(key="again_slow").click().run()
    assert BUSY.wait(5)
    GATE.set()
    wait_for(at, "found: the result")


def wait_for(at: AppTest, words: str) -> None:
    """Draw the page until it says so."""
    for _ in range(100):
        healthy(at.run())
        if any(words in each.value for each in at.markdown):
            return
        threading.Event().wait(0.05)
    raise AssertionError(f"never said {words!r}")
