"""The safe settings: local address, known hosts, small uploads, nothing told to anybody."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parent
SCRIPT = FOLDER / "app.py"
FILE = FOLDER / ".streamlit" / "config.toml"  # the same content stands at the top of the checkout


def settings() -> dict[str, Any]:
    """The settings as tables, from the file that travels with the script."""
    return tomllib.loads(FILE.read_text(encoding="utf-8"))


def options() -> Iterator[str]:
    """The same as options of a command line, which come before every file and environment variable."""
    for table, entries in settings().items():
        for name, value in entries.items():
            for one in value if isinstance(value, list) else (value,):
                yield f"--{table}.{name}={str(one).lower() if isinstance(one, bool) else one}"
