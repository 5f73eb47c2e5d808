"""The small demo with everything switched on that heat knows, in three kinds of heat main; other inputs for it."""

from __future__ import annotations

from functools import cache

import numpy as np
import numpy.typing as npt

from appraisal import model
from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import evaluate
from appraisal.scenario.load import loads

Array = npt.NDArray[np.float64]
SMALL = "small_herd_manure_only"
FLOWS = (
    "heat_to_warm_feed", "heat_lost_by_tank", "heat_to_pasteurise", "heat_to_digester", "heat_digester_met",
    "heat_shortfall", "heat_to_house", "heat_to_barn", "heat_to_dryer", "heat_left_to_sell", "heat_into_main", "heat_sold",
    "heat_lost_in_main", "heat_used", "heat_dumped", "heat_first_warming", "coldest_day_need", "backup_fuel_used",
    "circulation_power",
)
USES = ("heat_digester_met", "heat_to_house", "heat_to_barn", "heat_to_dryer", "heat_into_main")

# The small demo with everything switched on that heat knows, in three kinds of heat main.
WALLS = """heat_loss_method = "from_walls"
digestate_heat_recovery_share = 0.3
heat_of_digestion_kwh_per_nm3 = 0.2

[shell]
areas = "from_diameter"
diameter_m = 9
wall_height_m = 6
roof_rise_m = 2
floor = "cone"
cone_depth_m = 1
buried_share = 0.4
"""
SITE = """
feed_temperature = "as_air"
frozen_share = [0.2, 0.1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0.1]
wash_water = "given"
"""
HEAT = """[heat]
drying_kwh = [0, 0, 0, 0, 0, 5000, 9000, 9000, 3000, 0, 0, 0]
drying_counts_as = "{drying}"
drying_value_per_kwh = 0.02
sold_kwh = 4000
sold_price_per_kwh = 0.04
main_losses = "{main}"
main_length_m = 120
circulation_share = 0.015
backup_fuel = "propane"
backup_fuel_price_per_kwh = 0.09
backup_boiler_efficiency = 0.88
"""
KINDS = [("none", "paid"), ("share", "worth"), ("by_length", "fuel_saved")]


@cache
def full(main: str = "by_length", drying: str = "fuel_saved") -> Appraisal:
    text = demos()[SMALL].read_text("utf-8")
    for old, new in (
        ("heat_loss_w_per_k = 127\n", WALLS), ('climate = "us_vermont_burlington"\n', 'climate = "us_vermont_burlington"' + SITE),
        ("[heat]\n", HEAT.format(main=main, drying=drying)),
    ):
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    keep = [line for line in text.splitlines() if not line.startswith("backup_fuel_price_per_kwh = \"")]
    return appraise(loads("\n".join(keep)))


def lines(case: Appraisal, **moved: Array) -> dict[str, Array]:
    """All lines of a case with some inputs exchanged: dotted paths, written with __ in the place of the dot."""
    inputs = {**case.inputs, **{path.replace("__", "."): array for path, array in moved.items()}}
    return evaluate(case.plan, model.inputs(case.structure, inputs))


def shifted(array: Array, month: int, by: float) -> Array:
    moved = array.copy()
    moved[:, month] += by
    return moved


def no_less(more: Array, less: Array) -> bool:
    return bool((more >= less - 1e-9 * np.abs(less).max()).all())
