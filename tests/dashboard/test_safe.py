"""Safe by default, whatever way it is started, and the same settings wherever they stand."""

from __future__ import annotations

from pathlib import Path
from threading import Event, Thread

import pytest
from click.testing import CliRunner

from appraisal.cli import main
from appraisal.dashboard import ahead, drafts, launch
from appraisal.dashboard.places import OPENING, PLACES
from appraisal.dashboard.settings import FILE, SCRIPT, settings
from appraisal.demos import demos

ROOT = Path(__file__).parents[2]


def test_the_settings_of_a_checkout_are_those_that_travel_in_the_package() -> None:
    assert (ROOT / ".streamlit" / "config.toml").read_bytes() == FILE.read_bytes()


def test_what_the_settings_must_say() -> None:
    told = settings()
    assert told["browser"]["gatherUsageStats"] is False
    assert told["server"]["address"] == "127.0.0.1"
    assert set(told["server"]["allowedHosts"]) == {"localhost", "127.0.0.1"}
    assert told["server"]["maxUploadSize"] <= 2
    assert "enableXsrfProtection" not in told["server"], "on by default; nothing may switch it off"
    assert told["client"]["showErrorDetails"] == "none"


def test_every_setting_stands_on_the_command_line() -> None:
    words = launch.command("a" * 32, port=8600, open_browser=False)
    for option in (
        "--browser.gatherUsageStats=false", "--server.address=127.0.0.1", "--server.allowedHosts=localhost",
        "--server.allowedHosts=127.0.0.1", "--server.maxUploadSize=2", "--server.headless=true", "--server.port=8600",
    ):  # fmt: skip
        assert option in words
    assert words[3:5] == ["run", str(SCRIPT)]
    assert list(words[-3:]) == ["--", "--draft", "a" * 32]
    assert "--server.headless=false" in launch.command(None, port=None, open_browser=True)


def test_every_screen_has_its_page_file_and_no_folder_runs_past_the_entry_script() -> None:
    for place in (*PLACES, OPENING):
        assert f'open_screen("{place.name}")' in place.file.read_text(encoding="utf-8")
        assert callable(place.module().show)
    assert not (SCRIPT.parent / "pages").exists(), "Streamlit runs the files of such a folder without the entry script"


def served(monkeypatch: pytest.MonkeyPatch) -> list[str | None]:
    """Drafts that were asked to be served; nothing is started."""
    asked: list[str | None] = []
    monkeypatch.setattr(launch, "serve", lambda draft, **options: asked.append(draft) or 0)
    return asked


def test_the_command_opens_a_file_once_and_goes_on_with_its_draft(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = served(monkeypatch)
    file = tmp_path / "farm.toml"
    file.write_bytes(demos()["small_herd_manure_only"].read_bytes())
    for _ in range(2):
        assert CliRunner().invoke(main, ["dashboard", str(file)]).exit_code == 0
    assert asked[0] is not None
    assert asked[0] == asked[1], "unsaved work on this file goes on"
    kept = drafts.read(asked[0])
    drafts.save(kept.id, kept.text + "# more\n", name="x", revision=1)
    CliRunner().invoke(main, ["dashboard", str(file)])
    assert asked[2] == asked[0]
    file.write_text(kept.text + "# changed outside\n", encoding="utf-8")
    CliRunner().invoke(main, ["dashboard", str(file)])
    assert asked[3] != asked[0], "a file changed outside is opened as it is now"


def test_the_command_without_a_file_opens_the_first_screen(monkeypatch: pytest.MonkeyPatch) -> None:
    asked = served(monkeypatch)
    assert CliRunner().invoke(main, ["dashboard"]).exit_code == 0
    assert asked == [None]


def test_the_command_refuses_a_bad_file_with_every_fault(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = served(monkeypatch)
    file = tmp_path / "farm.toml"
    file.write_text("schema_version = 1\n[project]\nnam = 'x'\n", encoding="utf-8")
    done = CliRunner().invoke(main, ["dashboard", str(file)])
    assert done.exit_code == 3
    assert "project.nam" in done.output
    assert asked == []


def test_a_screen_waits_for_what_is_brought_in_ahead(monkeypatch: pytest.MonkeyPatch) -> None:
    let_go, drawn = Event(), Event()
    monkeypatch.setattr(ahead, "_AHEAD", [])
    monkeypatch.setattr(ahead, "_bring_in", let_go.wait)
    ahead.wait()
    ahead.begin()

    def draw() -> None:
        ahead.wait()
        drawn.set()

    Thread(target=draw, daemon=True).start()
    assert not drawn.wait(0.2)
    let_go.set()
    assert drawn.wait(10)
