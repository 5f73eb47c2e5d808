"""What could go wrong, asked once for a farm as it stands: futures, swings, bad cases, break points; kept by fingerprint."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import streamlit as st

from appraisal.appraise import appraise
from appraisal.dashboard.jobs import Tell, long_work
from appraisal.dashboard.typed import put
from appraisal.risk.draws import Settings
from appraisal.risk.drivers import standard_drivers
from appraisal.risk.least_grant import least_grant, without_grants
from appraisal.risk.material import GrantAsked
from appraisal.risk.reverse import Break, breaks
from appraisal.risk.simulate import Simulation, simulate
from appraisal.risk.stress import StressTest, stress_test
from appraisal.risk.swings import Swings, swings_to_quantiles
from appraisal.risk.three_years import combined_cover
from appraisal.scenario.load import Loaded

DRAWS = (1_024, 4_096, 10_000, 50_000)
USUAL_DRAWS, USUAL_SEED = 10_000, 1
LABEL = "Work out what could go wrong"
GIVES = (
    "This plays the plan through thousands of futures: how often it loses money, the account month by month in a good, a middle "
    "and a bad year, what hurts most, and the bad cases. It takes a few seconds and can be cancelled."
)


@dataclass(frozen=True, eq=False)
class Asked:
    """The answers.

    simulation, swings: None where no value carries a range. combined: cover when all bad cases come at once. grant: the plan
    without its grants, and the smallest grant that reaches the targets.
    """

    simulation: Simulation | None
    swings: Swings | None
    breaks: tuple[Break, ...]
    stress: StressTest
    combined: npt.NDArray[np.float64] | None
    grant: GrantAsked


def settings() -> Settings:
    """How many futures are drawn and from which seed, as chosen in this window."""
    draws = int(st.session_state.get("_futures", USUAL_DRAWS))
    return Settings(draws=draws, seed=int(st.session_state.get("_seed_of_futures", USUAL_SEED)))


def choose() -> None:
    """Draw the choice of how many futures, and of the number that the drawing starts from."""
    many, seed = st.columns(2)
    chosen = settings()
    put("_choose_futures", chosen.draws)
    put("_choose_seed", chosen.seed)
    st.session_state["_futures"] = many.selectbox(
        "How many futures", DRAWS, key="_choose_futures", format_func=lambda count: f"{count:,}",
        help="Each future draws every value that carries a range anew. More futures make the shares steadier.",
    )  # fmt: skip
    st.session_state["_seed_of_futures"] = seed.number_input(
        "Number the drawing starts from", min_value=0, step=1, key="_choose_seed",
        help="The same number draws the same futures again; another one shows how far chance alone moves the answer. Papers "
        "call it the seed.",
    )  # fmt: skip


def asked(loaded: Loaded) -> Asked | None:
    """The answers for a farm as its file stands, drawing a start button, the progress or nothing; None while there are none."""
    chosen = settings()
    key = f"asked_{loaded.fingerprint}_{chosen.draws}_{chosen.seed}"
    return long_work(key, LABEL, lambda tell: _work(loaded, chosen, tell), gives=GIVES)


def _work(loaded: Loaded, chosen: Settings, tell: Tell) -> Asked:
    ranged = bool(loaded.scenario.range or loaded.scenario.wander)
    simulation = simulate(loaded, chosen, progress=tell) if ranged else None
    tested = stress_test(loaded)
    return Asked(
        simulation=simulation,
        swings=swings_to_quantiles(loaded) if ranged else None,
        breaks=breaks(loaded, standard_drivers(loaded)),
        stress=tested,
        combined=combined_cover(tested),
        grant=GrantAsked(appraise(loaded), without_grants(loaded), least_grant(loaded)),
    )
