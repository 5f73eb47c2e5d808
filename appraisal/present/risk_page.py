"""The pages that `simulate`, `rank`, `stress` and `compare` print, as plain text."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from appraisal.appraise import Appraisal
from appraisal.present import compare_words, future_tables, risk_tables, risk_words, stress_words, ways_words
from appraisal.present.futures_hold import futures_hold
from appraisal.present.loan_words import largest_loan
from appraisal.present.page import passage, table
from appraisal.present.words import cautions_short
from appraisal.risk.alternatives import Alternative
from appraisal.risk.compare import Comparison
from appraisal.risk.grids import Grid, Sizes
from appraisal.risk.rank import Ranking
from appraisal.risk.reverse import Break
from appraisal.risk.simulate import Simulation
from appraisal.risk.stress import StressTest
from appraisal.risk.worsening import Worsening
from appraisal.scenario.load import Loaded

CAUTIONS = ("not_advice", "default_values", "market_prices")


def _page(loaded: Loaded, parts: Iterable[str]) -> str:
    name = loaded.scenario.project.name
    end = f"Scenario fingerprint {loaded.fingerprint}. Figures are nominal; worth is counted without loans, after tax."
    return "\n\n".join((f"{name}\n{'=' * len(name)}", *parts, passage(cautions_short(CAUTIONS)), end)) + "\n"


def simulation(found: Simulation) -> str:
    """Many futures of one scenario."""
    events = [table(future_tables.event_table(found))] if found.events else []
    return _page(
        found.loaded,
        (
            passage(risk_words.futures(found)),
            passage(risk_words.cover_and_cash(found)),
            *events,
            passage(futures_hold(found.loaded, found)),
            table(future_tables.spread_table(found)),
            table(future_tables.chance_table(found)),
            table(future_tables.fan_table(found)),
            table(future_tables.settling_table(found)),
            passage(risk_words.how_drawn(found)),
        ),
    )


def ranking(found: Ranking, *, grid: Grid | None = None, sizes: Sizes | None = None) -> str:
    """Causes of one scenario, and the tables asked for besides."""
    parts = [
        passage(risk_words.causes(found)),
        table(risk_tables.swing_table(found.loaded, found.swings)),
        table(risk_tables.cause_table(found)),
    ]
    if grid is not None:
        parts.append(table(risk_tables.grid_table(found.loaded, grid)))
    if sizes is not None:
        parts.append(table(risk_tables.size_table(found.loaded, sizes)))
    parts.append(passage(risk_words.how_ranked(found)))
    return _page(found.loaded, parts)


def stress(found: StressTest, breaks: tuple[Break, ...], together: tuple[Worsening, ...]) -> str:
    """Bad cases and breaks of one scenario."""
    plan = found.plan
    parts = [passage(stress_words.stressed(found)), table(risk_tables.stress_table(found))]
    if breaks:
        parts.append(
            table(risk_tables.break_table(found.loaded, breaks, plan_cover=plan.least_cover, plan_npv=plan.npv or 0.0))
        )
        loan = largest_loan(breaks, found.loaded)
        parts += [] if loan is None else [passage(loan)]
    if together:
        parts.append(passage(stress_words.worsened(together)))
    if found.loaded.scenario.range or found.loaded.scenario.wander:
        parts.append(passage(futures_hold(found.loaded)))
    return _page(found.loaded, parts)


def comparison(found: Comparison, others: Sequence[Alternative] = ()) -> str:
    """Plans side by side, with what was taken for the ready-made ones."""
    taken = [passage(ways_words.taken_for(others))] if others else []
    common = [table(risk_tables.common_table(found))] if found.drawn else []
    drawn = [passage(compare_words.how_compared(found))] if found.drawn else []
    return _page(
        found.cases[0].loaded,
        (passage(compare_words.compared(found)), *taken, *common, table(risk_tables.difference_table(found)), *drawn),
    )


def ways(plan: Appraisal, found: Sequence[Alternative], appraised: Mapping[str, Appraisal]) -> str:
    """The ready-made other ways of one plan by name, with figures, what each takes or what it lacks; appraised: by name."""
    return _page(plan.loaded, (table(ways_words.ways_table(plan, found, appraised)), passage(ways_words.ways(found))))
