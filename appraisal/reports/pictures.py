"""Charts as pictures for the papers."""

from __future__ import annotations

import json
from functools import lru_cache

from appraisal.present.blocks import Figure

SCALE = 2.0
KEPT = 32  # pictures; the same one stands in Word and PDF, and in more than one paper


def png(figure: Figure) -> bytes:
    """The chart of a figure as PNG, the same bytes for the same chart."""
    return _drawn(json.dumps(figure.chart.to_dict(), sort_keys=True))


@lru_cache(maxsize=KEPT)
def _drawn(chart: str) -> bytes:
    import vl_convert

    return bytes(vl_convert.vegalite_to_png(chart, scale=SCALE))
