"""Drafts on disk: every accepted text of a scenario in a file of its own, and a head that says which one stands.

A draft is a folder. A change is accepted once the head names its text, so a process that dies on the way leaves the draft
as it was; where the head cannot be read, the newest whole text stands. Undo and redo move the head and lose nothing.
"""

from __future__ import annotations

import json
import re
import secrets
import shutil
import tomllib
from contextlib import suppress
from dataclasses import asdict, dataclass, replace
from datetime import UTC, datetime
from pathlib import Path

from appraisal.dashboard.disk import alone, home, write_whole
from appraisal.errors import AppraisalError

ID = re.compile(r"[0-9a-f]{32}")
KEPT = 200  # texts of one draft that undo can reach
ID_BYTES = 16


class NoDraftError(AppraisalError):
    """There is no such draft, or nothing in it can be read."""


class OtherTabError(AppraisalError):
    """The draft was changed by somebody else since it was read; nothing was written."""


@dataclass(frozen=True)
class Head:
    """What stands in a draft.

    name: of the plant, for lists. origin: the file it came from, empty when none. revision: grows with every change.
    order: numbers of the texts, oldest first. at: place in it of the text that stands. saved: time of the last change, UTC.
    """

    name: str
    origin: str
    revision: int
    order: tuple[int, ...]
    at: int
    saved: str


@dataclass(frozen=True)
class Kept:
    """One draft as it stands: its id, head and text."""

    id: str
    head: Head
    text: str

    @property
    def can_undo(self) -> bool:
        """There is an older text."""
        return self.head.at > 0

    @property
    def can_redo(self) -> bool:
        """There is a newer text."""
        return self.head.at + 1 < len(self.head.order)


def create(text: str, *, name: str, origin: str = "") -> Kept:
    """Keep a text as a new draft; raises OSError where the folder cannot be written."""
    id = secrets.token_hex(ID_BYTES)
    folder = _folder(id)
    folder.mkdir(parents=True, mode=0o700)
    head = Head(name, origin, revision=1, order=(1,), at=0, saved=_now())
    with alone(folder):
        write_whole(_text_file(folder, 1), text)
        _write_head(folder, head)
    return Kept(id, head, text)


def read(id: str) -> Kept:
    """A draft as it stands; raises NoDraftError."""
    folder = _folder(id)
    if not folder.is_dir():
        raise NoDraftError("there is no draft with this address")
    try:
        head = _read_head(folder)
        return Kept(id, head, _read_text(folder, head))
    except (OSError, ValueError, KeyError, TypeError, IndexError):
        return _salvaged(id, folder)


def save(id: str, text: str, *, name: str, revision: int) -> Kept:
    """Accept a changed text; what was undone before it can no longer be redone.

    revision: of the draft the change was made to. Raises OtherTabError when the draft has moved on since, NoDraftError.
    """
    with alone(_existing(id)):
        before = _unchanged(id, revision)
        number = _newest(_folder(id)) + 1
        order = (*before.head.order[: before.head.at + 1], number)[-KEPT:]
        head = Head(name, before.head.origin, before.head.revision + 1, order, len(order) - 1, _now())
        write_whole(_text_file(_folder(id), number), text)
        _write_head(_folder(id), head)
        _forget(_folder(id), head)
    return Kept(id, head, text)


def step(id: str, by: int, *, revision: int) -> Kept:
    """Undo (by = -1) or redo (by = 1); the same draft when there is nothing on that side. Raises as `save` does."""
    with alone(_existing(id)):
        before = _unchanged(id, revision)
        at = before.head.at + by
        if not 0 <= at < len(before.head.order):
            return before
        head = replace(before.head, at=at, revision=before.head.revision + 1, saved=_now())
        text = _read_text(_folder(id), head)
        _write_head(_folder(id), head)
    return Kept(id, head, text)


def recent(most: int = 8) -> list[Kept]:
    """The drafts that can be read, latest change first."""
    found = []
    root = home() / "drafts"
    for folder in root.iterdir() if root.is_dir() else ():
        with suppress(NoDraftError, OSError):
            found.append(read(folder.name))
    return sorted(found, key=lambda each: each.head.saved, reverse=True)[:most]


def remove(id: str) -> None:
    """Take a draft off the disk for good; raises NoDraftError where there is none."""
    with alone(_existing(id)):
        (_folder(id) / "head.json").unlink(missing_ok=True)
    shutil.rmtree(_folder(id), ignore_errors=True)


def began_with(id: str, text: str) -> bool:
    """Whether the first text of a draft, or the one that stands, is this one."""
    kept = read(id)
    first = _text_file(_folder(id), 1)
    return text in (kept.text, first.read_text(encoding="utf-8") if first.is_file() else None)


def _folder(id: str) -> Path:
    """The folder of a draft; nothing but 32 hexadecimal digits ever reaches the disk."""
    if not ID.fullmatch(id):
        raise NoDraftError("not the address of a draft")
    return home() / "drafts" / id


def _existing(id: str) -> Path:
    folder = _folder(id)
    if not folder.is_dir():
        raise NoDraftError("there is no draft with this address")
    return folder


def _unchanged(id: str, revision: int) -> Kept:
    before = read(id)
    if before.head.revision != revision:
        raise OtherTabError(
            "this farm was changed in another window since this page was drawn; nothing was overwritten"
        )
    return before


def _text_file(folder: Path, number: int) -> Path:
    return folder / f"{number:06d}.toml"


def _read_text(folder: Path, head: Head) -> str:
    return _text_file(folder, head.order[head.at]).read_bytes().decode("utf-8")


def _read_head(folder: Path) -> Head:
    raw = json.loads((folder / "head.json").read_text(encoding="utf-8"))
    return Head(**{**raw, "order": tuple(raw["order"])})


def _write_head(folder: Path, head: Head) -> None:
    write_whole(folder / "head.json", json.dumps(asdict(head)))


def _numbers(folder: Path) -> list[int]:
    return sorted(int(path.stem) for path in folder.glob("*.toml") if path.stem.isdigit())


def _newest(folder: Path) -> int:
    return max(_numbers(folder), default=0)


def _salvaged(id: str, folder: Path) -> Kept:
    """The newest text that is whole, where the head is damaged or its text is gone."""
    for number in reversed(_numbers(folder)):
        with suppress(OSError, ValueError):
            text = _text_file(folder, number).read_bytes().decode("utf-8")
            name = str(tomllib.loads(text).get("project", {}).get("name", ""))
            return Kept(id, Head(name, "", number, (number,), 0, _now()), text)
    raise NoDraftError("nothing in this draft can be read any more")


def _forget(folder: Path, head: Head) -> None:
    """Remove texts that undo no longer reaches, the first one apart."""
    for number in _numbers(folder):
        if number not in head.order and number != 1:
            with suppress(OSError):
                _text_file(folder, number).unlink()


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="milliseconds")
