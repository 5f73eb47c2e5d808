"""Windows on the dashboard without a browser: the script itself, run by Streamlit's own test runner."""

from __future__ import annotations

from streamlit.testing.v1 import AppTest

from appraisal.dashboard import drafts
from appraisal.dashboard.drafts import Kept
from appraisal.dashboard.settings import SCRIPT
from appraisal.demos import demos
from appraisal.scenario.load import load

SECONDS = 60


def draft_of_demo(name: str = "dairy_with_leftovers") -> Kept:
    """A new draft of an invented farm."""
    path = demos()[name]
    return drafts.create(path.read_text(encoding="utf-8"), name=load(path).scenario.project.name)


def window(draft: str | None = None, **address: str) -> AppTest:
    """A new window on a draft, drawn once."""
    at = AppTest.from_file(str(SCRIPT), default_timeout=SECONDS)
    for name, value in {**({"draft": draft} if draft else {}), **address}.items():
        at.query_params[name] = value
    return at.run()


def screen(at: AppTest, name: str) -> AppTest:
    """The same window on another screen."""
    return at.switch_page(f"page_files/{name}.py").run()


def said(at: AppTest) -> str:
    """Everything a window says in words, tables included."""
    blocks = [*at.title, *at.subheader, *at.markdown, *at.error, *at.warning, *at.info, *at.success]
    return "\n".join(str(block.value) for block in blocks) + "\n".join(str(each.proto.body) for each in at.get("html"))


def healthy(at: AppTest) -> None:
    """No exception was shown."""
    assert not at.exception, [each.value for each in at.exception]
