"""Offered ranges as text for a scenario file."""

from __future__ import annotations

import json

from appraisal.risk.offers import Offer


def offers_text(found: tuple[Offer, ...]) -> str:
    """Tables to paste into a scenario file, one a range; says so where there are none."""
    if not found:
        return "# No value without a range has one on offer."
    return "\n".join(_table(each) for each in found)


def _table(each: Offer) -> str:
    facts = "".join(f"{name} = {_number_or_list(value)}\n" for name, value in each.facts)
    reason = json.dumps(each.reason, ensure_ascii=False)
    return f'[range."{each.path}"]\nshape = "{each.shape}"\n{facts}reason = {reason}\n'


def _number_or_list(value: float | tuple[float, ...]) -> str:
    if isinstance(value, tuple):
        return f"[{', '.join(f'{each:.6g}' for each in value)}]"
    return f"{value:.10g}"
