"""Files that are whole or not there: atomic writes, a lock that dies with its process, and the folder of the user."""

from __future__ import annotations

import os
import secrets
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from threading import Lock

HOME = "APPRAISAL_HOME"  # names another folder than the usual one
TRIES, PAUSE_SECONDS = 20, 0.05  # a virus scanner or a sync program may hold a file for a moment
_in_process = Lock()


def home() -> Path:
    """The folder of this user for drafts: APPRAISAL_HOME, else where the system keeps the data of programs."""
    if os.environ.get(HOME):
        return Path(os.environ[HOME])
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA", Path.home() / "AppData" / "Local")) / "appraisal"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "appraisal"
    return Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share") / "appraisal"


def write_whole(path: Path, text: str) -> None:
    """Put text in a file so that a reader finds the old content or the new, never a part; raises OSError."""
    new = path.with_name(f".{path.name}.{secrets.token_hex(4)}")
    try:
        with new.open("w", encoding="utf-8", newline="") as out:
            out.write(text)
            out.flush()
            os.fsync(out.fileno())
        _replace(new, path)
    finally:
        with suppress(OSError):
            new.unlink(missing_ok=True)
    _settle(path.parent)


def _replace(new: Path, path: Path) -> None:
    for left in range(TRIES, 0, -1):
        try:
            new.replace(path)
            return
        except PermissionError:
            if left == 1:
                raise
            time.sleep(PAUSE_SECONDS)


def _settle(folder: Path) -> None:
    """Make the new name itself last through a power cut, where the system can."""
    if sys.platform == "win32":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


@contextmanager
def alone(folder: Path) -> Iterator[None]:
    """Hold a folder against every other writer, in this process and in others; freed when the process dies."""
    with _in_process, (folder / ".lock").open("a+b") as handle:
        _hold(handle.fileno())
        try:
            yield
        finally:
            _free(handle.fileno())


if sys.platform == "win32":
    import msvcrt

    def _hold(handle: int) -> None:
        os.lseek(handle, 0, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_LOCK, 1)

    def _free(handle: int) -> None:
        os.lseek(handle, 0, os.SEEK_SET)
        msvcrt.locking(handle, msvcrt.LK_UNLCK, 1)

else:
    import fcntl

    def _hold(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX)

    def _free(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_UN)
