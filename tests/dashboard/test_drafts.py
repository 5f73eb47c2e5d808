"""Drafts on disk: whole or not there, and nothing accepted is lost when the writing process is killed."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from appraisal.dashboard import drafts, saving
from appraisal.dashboard.disk import home, write_whole
from appraisal.dashboard.drafts import NoDraftError, OtherTabError
from appraisal.scenario.load import loads
from tests.dashboard.windows import draft_of_demo

KILLS = 50
# Saves one change after the other and says each number once it is accepted, until it is killed.
WRITER = """
import sys
from appraisal.dashboard import drafts
kept = drafts.read(sys.argv[1])
start = int(sys.argv[2])
for number in range(start, start + 1_000_000):
    text = kept.text.partition("# edit ")[0] + f"# edit {number}\\n"
    kept = drafts.save(kept.id, text, name="x", revision=kept.head.revision)
    sys.stdout.write(f"{number}\\n")
    sys.stdout.flush()
"""


def test_fifty_kills_in_the_middle_of_edits_lose_nothing_accepted(own_home: Path) -> None:
    """A process saves without pause; after each kill the draft holds the last change it said, or the one it was saving."""
    kept, said = draft_of_demo(), 0
    for _ in range(KILLS):
        said = killed_after_some_edits(kept.id, said + 1)
        found = int(drafts.read(kept.id).text.partition("# edit ")[2])
        assert found in (said, said + 1)
        said = found
    loads(drafts.read(kept.id).text)
    assert said > KILLS
    assert not list((own_home / "drafts" / kept.id).glob("*.tmp"))


def killed_after_some_edits(id: str, start: int) -> int:
    """Let a process of its own save changes, kill it, and hand back the last one it said was accepted."""
    process = subprocess.Popen(
        [sys.executable, "-c", WRITER, id, str(start)],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ},
    )
    assert process.stdout is not None
    said = [process.stdout.readline() for _ in range(1 + start % 7)]
    process.kill()
    said += process.stdout.read().splitlines(keepends=True)
    process.wait()
    process.stdout.close()
    whole = [line for line in said if line.endswith("\n")]
    return int(whole[-1])


def test_a_damaged_head_leaves_the_newest_whole_text(own_home: Path) -> None:
    kept = draft_of_demo()
    kept = drafts.save(kept.id, kept.text + "# two\n", name="x", revision=1)
    folder = own_home / "drafts" / kept.id
    (folder / "head.json").write_text('{"name": "x", "ord', encoding="utf-8")
    assert drafts.read(kept.id).text.endswith("# two\n")
    (folder / "000002.toml").write_bytes(b"\xff\xff")
    assert drafts.read(kept.id).text == kept.text.removesuffix("# two\n")
    (folder / "000001.toml").unlink()
    with pytest.raises(NoDraftError):
        drafts.read(kept.id)


def test_undo_redo_and_a_new_change_after_undo() -> None:
    kept = drafts.create("a = 1", name="x")
    for value in (2, 3):
        kept = drafts.save(kept.id, f"a = {value}", name="x", revision=kept.head.revision)
    kept = drafts.step(kept.id, -1, revision=kept.head.revision)
    assert (kept.text, kept.can_undo, kept.can_redo) == ("a = 2", True, True)
    kept = drafts.save(kept.id, "a = 4", name="x", revision=kept.head.revision)
    assert (kept.text, kept.can_redo) == ("a = 4", False)
    kept = drafts.step(kept.id, -1, revision=kept.head.revision)
    assert kept.text == "a = 2"
    assert drafts.read(kept.id) == kept


def test_a_change_to_an_older_state_is_refused() -> None:
    kept = drafts.create("a = 1", name="x")
    drafts.save(kept.id, "a = 2", name="x", revision=1)
    for late in (
        lambda: drafts.save(kept.id, "a = 3", name="x", revision=1),
        lambda: drafts.step(kept.id, -1, revision=1),
    ):
        with pytest.raises(OtherTabError):
            late()
    assert drafts.read(kept.id).text == "a = 2"


def test_two_writers_at_once_cannot_both_win() -> None:
    kept = drafts.create("a = 1", name="x")
    script = (
        "import sys; from appraisal.dashboard import drafts\n"
        "try: drafts.save(sys.argv[1], 'a = ' + sys.argv[2], name='x', revision=1)\n"
        "except drafts.OtherTabError: print('refused')\n"
    )
    running = [
        subprocess.Popen([sys.executable, "-c", script, kept.id, str(n)], stdout=subprocess.PIPE, text=True)
        for n in range(4)
    ]
    refused = [process.communicate()[0].strip() == "refused" for process in running]
    assert sorted(refused) == [False, True, True, True]
    assert drafts.read(kept.id).head.revision == 2


def test_old_texts_are_forgotten_but_never_the_first(monkeypatch: pytest.MonkeyPatch, own_home: Path) -> None:
    monkeypatch.setattr(drafts, "KEPT", 3)
    kept = drafts.create("a = 0", name="x")
    for value in range(1, 8):
        kept = drafts.save(kept.id, f"a = {value}", name="x", revision=kept.head.revision)
    names = sorted(path.name for path in (own_home / "drafts" / kept.id).glob("*.toml"))
    assert names == ["000001.toml", "000006.toml", "000007.toml", "000008.toml"]


@pytest.mark.parametrize("id", ["", "..", "A" * 32, "0" * 31, "0" * 33, "/" * 32, "0" * 31 + "\n"])
def test_only_a_proper_address_reaches_the_disk(id: str) -> None:
    with pytest.raises(NoDraftError):
        drafts.read(id)


def test_a_failed_write_leaves_the_old_file_and_no_rest(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.txt"
    path.write_text("old", encoding="utf-8")

    def full(handle: int) -> None:
        raise OSError("no space left")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="no space"):
        write_whole(path, "new")
    assert path.read_text(encoding="utf-8") == "old"
    assert [each.name for each in tmp_path.iterdir() if each.name != "home"] == ["a.txt"]


def test_recent_drafts_come_latest_first_and_a_broken_one_is_left_out(own_home: Path) -> None:
    first, second = drafts.create("a = 1", name="one"), drafts.create("a = 1", name="two")
    drafts.save(first.id, "a = 2", name="one", revision=1)
    (own_home / "drafts" / ("f" * 32)).mkdir()
    assert [kept.id for kept in drafts.recent()] == [first.id, second.id]


def test_the_folder_follows_the_system(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.delenv("APPRAISAL_HOME")
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert home() == tmp_path / "appraisal"
    monkeypatch.setattr(sys, "platform", "win32")
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / "local"))
    assert home() == tmp_path / "local" / "appraisal"


def test_a_head_holds_what_it_must() -> None:
    kept = drafts.create("a = 1", name="x", origin="/a/b.toml")
    head = json.loads((home() / "drafts" / kept.id / "head.json").read_text(encoding="utf-8"))
    assert head["origin"] == "/a/b.toml"
    assert head["revision"] == 1


def test_a_draft_goes_back_through_a_link_and_the_link_stays(own_home: Path, tmp_path: Path) -> None:
    file, link = tmp_path / "kept elsewhere.toml", tmp_path / "farm.toml"
    file.write_text("old", encoding="utf-8")
    link.symlink_to(file)
    kept = drafts.create("new", name="Hill Farm", origin=str(link))
    assert "Written to" in saving.write_back(kept)
    assert link.is_symlink() and file.read_text(encoding="utf-8") == "new"
    assert (tmp_path / "farm.toml.bak").read_text(encoding="utf-8") == "old"
