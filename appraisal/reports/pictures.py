"""Charts as pictures for the papers."""

from __future__ import annotations

import json

from appraisal.present.blocks import Figure

SCALE = 2.0


def png(figure: Figure) -> bytes:
    """The chart of a figure as PNG, the same bytes for the same chart."""
    import vl_convert

    made = vl_convert.vegalite_to_png(json.dumps(figure.chart.to_dict()), scale=SCALE)
    return bytes(made)
