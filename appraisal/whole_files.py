"""New files that are whole or not there."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path


def create(path: Path, content: bytes) -> None:
    """Put content in a new file, or leave none; raises FileExistsError where one stands, OSError where it cannot be."""
    handle = path.open("xb")
    try:
        with handle:
            handle.write(content)
    except BaseException:
        path.unlink(missing_ok=True)
        raise


def write_together(files: Mapping[Path, bytes], *, replace: bool) -> None:
    """Put many files where they belong only when all are on the disk; a folder that is missing is made.

    files: place -> content. replace: False raises FileExistsError where a file stands, and never writes over it.
    Raises OSError where the system refuses: while files are laid beside their places nothing has changed yet.
    """
    laid: dict[Path, Path] = {}
    made: list[Path] = []
    try:
        for path, content in files.items():
            made += _make_folder(path.parent)
            laid[path] = _lay_beside(path, content)
        for path, beside in laid.items():
            _move(beside, path, replace=replace)
    finally:
        for beside in laid.values():
            beside.unlink(missing_ok=True)
        for folder in reversed(made):
            with suppress(OSError):  # it holds files by now
                folder.rmdir()


def _make_folder(folder: Path) -> list[Path]:
    """Make a folder and those around it; which of them are new, the outermost first."""
    new = [each for each in (folder, *folder.parents) if not each.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    return new[::-1]


def _lay_beside(path: Path, content: bytes) -> Path:
    """The content on the disk under a passing name in the folder of its place."""
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
        Path(name).chmod(0o644)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    return Path(name)


def _move(beside: Path, path: Path, *, replace: bool) -> None:
    """One rename; where nothing may be written over, a second name, which the system refuses to a name that is taken."""
    if replace:
        beside.replace(path)
        return
    try:
        os.link(beside, path)
    except FileExistsError:
        raise
    except OSError:  # a disk without second names, as sticks are
        create(path, beside.read_bytes())
