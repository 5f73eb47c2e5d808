"""Which pictures stand in which part of a report."""

from __future__ import annotations

from typing import Literal

from appraisal.present.blocks import Block
from appraisal.risk.material import Material

Part = Literal["decision", "money", "swings", "plant", "cover", "bad_cases", "tonnes", "nutrients"]


def pictures(found: Material, part: Part) -> tuple[Block, ...]:
    """The pictures of one part of a report."""
    return ()
