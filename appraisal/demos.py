"""The invented demo farms; they travel inside the installed package and stand beside it in a checkout."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

_PACKAGE = Path(__file__).parent
_PLACES = (_PACKAGE / "demo_scenarios", _PACKAGE.parent / "demo_scenarios")


def demos() -> Mapping[str, Path]:
    """Demo scenario files by name, in alphabetical order; raises FileNotFoundError when the package lost them."""
    folder = next((place for place in _PLACES if place.is_dir()), None)
    if folder is None:
        raise FileNotFoundError("the demo scenarios are missing from this installation")
    return {path.stem: path for path in sorted(folder.glob("*.toml"))}
