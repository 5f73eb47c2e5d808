"""A draft as a file of the user: a name for it, and the way back to the file it came from."""

from __future__ import annotations

import re
from pathlib import Path

from appraisal.dashboard.disk import write_whole
from appraisal.dashboard.drafts import Kept

LONGEST = 90


def file_name(name: str, ending: str = "toml") -> str:
    """A harmless file name made of the name of a plant."""
    stem = re.sub(r"[^A-Za-z0-9]+", "_", name).strip("_")[:LONGEST] or "farm"
    return f"{stem}.{ending}"


def write_back(kept: Kept) -> str:
    """Put the text of a draft in the file it came from, the old content beside it as `.bak`; what was done, in words."""
    path = Path(kept.head.origin)
    try:
        if path.exists():
            write_whole(path.with_name(path.name + ".bak"), path.read_bytes().decode("utf-8"))
        write_whole(path.resolve(), kept.text)  # a link goes on pointing at the file it names
    except (OSError, ValueError) as error:
        return f"{path} could not be written ({error}); the draft is safe."
    return f"Written to {path}; what stood there before is beside it as {path.name}.bak."
