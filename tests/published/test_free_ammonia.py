"""Free ammonia by the formula of Emerson et al. 1975, as printed in several public source files (read).

The anchor of 5.37 % at 25 degC and pH 8.0 stands in those sources; the other shares are computed from the two printed
constants. One package page prints 2727.92 for the second: a slip, since it does not give the printed anchor.
Tolerance: 0.5 %.
"""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.constants import CONSTANTS
from appraisal.scenario.reference import figure
from appraisal.technical_yield import ammonia

CONSTANT = {constant.name: constant.value for constant in CONSTANTS}
TOTAL = np.array(3.0)  # g N/L
TOLERANCE = 0.005


def share(ph: float, degc: float, *, slope: float = CONSTANT["ammonia_pka_slope"]) -> float:
    """Free ammonia of ammonium nitrogen at a pH and a temperature, through the lines of the model."""
    pka = ammonia.ammonia_pka(CONSTANT["ammonia_pka_offset"], slope, np.array(degc), CONSTANT["zero_degc_k"])
    low = ammonia.free_ammonia_share_low(pka, ph, CONSTANT["acid_scale_base"])
    assert low == ammonia.free_ammonia_share_high(pka, ph, CONSTANT["acid_scale_base"])
    return float(low)


def test_anchor() -> None:
    assert share(8.0, 25) == pytest.approx(0.0537, rel=TOLERANCE)
    assert share(8.0, 25, slope=2727.92) != pytest.approx(0.0537, rel=TOLERANCE)


@pytest.mark.parametrize(("ph", "degc", "printed"), [(7.8, 38, 0.0795), (8.0, 38, 0.1204), (8.0, 55, 0.280)])
def test_share(ph: float, degc: float, printed: float) -> None:
    assert share(ph, degc) == pytest.approx(printed, rel=TOLERANCE)


@pytest.mark.parametrize(("ph", "degc", "mg_per_l"), [(7.8, 38, 239), (8.0, 38, 361), (8.0, 55, 841)])
def test_level_at_three_grams_of_total_ammonia(ph: float, degc: float, mg_per_l: float) -> None:
    share_of_it = share(ph, degc)
    for level in (ammonia.free_ammonia_low(TOTAL, share_of_it), ammonia.free_ammonia_high(TOTAL, share_of_it)):
        assert float(level) * 1000 == pytest.approx(mg_per_l, rel=TOLERANCE)


@pytest.mark.parametrize(
    ("row", "ph", "degc"),
    [("nh3_share_25_80", 8.0, 25), ("nh3_share_38_75", 7.5, 38), ("nh3_share_38_82", 8.2, 38), ("nh3_share_55_80", 8.0, 55)],
)
def test_rows_of_the_reference_table(row: str, ph: float, degc: float) -> None:
    assert share(ph, degc) == pytest.approx(figure("kinetics", row, "mid").value, rel=TOLERANCE)


def test_more_ph_or_more_heat_frees_more() -> None:
    by_ph, by_heat = [share(ph, 38) for ph in (6.5, 7, 7.5, 8, 8.5)], [share(8, degc) for degc in (20, 30, 38, 50, 55)]
    assert by_ph == sorted(by_ph) and by_heat == sorted(by_heat)
    assert share(ammonia_half(38), 38) == pytest.approx(0.5)


def ammonia_half(degc: float) -> float:
    """The pH at which half of the ammonium is free: pKa itself."""
    pka = ammonia.ammonia_pka(
        CONSTANT["ammonia_pka_offset"], CONSTANT["ammonia_pka_slope"], degc, CONSTANT["zero_degc_k"]
    )
    return float(pka)
