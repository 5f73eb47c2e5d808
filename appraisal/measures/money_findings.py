"""Findings about the money: does it pay, does it carry its loan, how deep is the family's own pocket needed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
import numpy.typing as npt

from appraisal.errors import Finding
from appraisal.measures.headline import Headline
from appraisal.scenario.model import Scenario
from appraisal.timeline import Timeline

Values = Mapping[str, npt.NDArray[np.float64]]
CASE = "limit set in the plan"


def findings(scenario: Scenario, values: Values, measured: Headline, *, timeline: Timeline) -> tuple[Finding, ...]:
    """All findings about the money of one case (the first draw)."""
    money = scenario.project.currency
    return (
        *_worth(scenario, measured, money),
        *_cover(scenario, measured),
        *_own_money(values, money, timeline),
        *_savings(values, money),
        *_losing(values, timeline),
        *_loan_left(scenario, values, money),
    )


def _worth(scenario: Scenario, measured: Headline, money: str) -> Iterator[Finding]:
    value, rate = float(measured.npv[0]), scenario.judging.discount_rate
    if value < 0:
        yield Finding(
            "measures.npv",
            f"It does not pay: at {rate:.1%} a year the plant is worth {value:,.0f} {money} in today's "
            "money, less than nothing.",
            "warning",
            value,
            0.0,
            money,
            CASE,
        )
    if measured.irr.words[0] == "several":
        yield Finding(
            "measures.irr",
            "More than one rate of return fits these cash flows; go by the worth in today's money (net present value) instead.",
            "warning",
            float(measured.irr.value[0]),
            None,
            "1/year",
            "arithmetic of rates of return",
        )


def _cover(scenario: Scenario, measured: Headline) -> Iterator[Finding]:
    least, target = measured.dscr_min, scenario.judging.least_cover
    if least.words[0] != "no debt due" and float(least.value[0]) < target:
        yield Finding(
            "measures.dscr_min",
            f"In project year {int(least.year[0])} cash covers only {float(least.value[0]):.2f} times the "
            f"debt service; {target:.2f} is wanted.",
            "warning",
            float(least.value[0]),
            target,
            "1",
            CASE,
        )


def _own_money(values: Values, money: str, timeline: Timeline) -> Iterator[Finding]:
    balance = values["bank_balance"][0]
    worst = int(balance.argmin())
    if balance[worst] < 0:
        yield Finding(
            "bank_balance",
            f"The family must find {-balance[worst]:,.0f} {money} of its own: month by month, with grants, loans and tax, the "
            f"account is lowest at the end of {timeline.in_words(worst)} (month {worst}).",
            "note",
            float(balance[worst]),
            0.0,
            money,
            "running total of net cash",
        )


def _savings(values: Values, money: str) -> Iterator[Finding]:
    modelled, all_gains = (
        float(sum(values[name].sum() for name in names))
        for names in (("modelled_savings",), ("cash_income", "evidenced_savings", "modelled_savings"))
    )
    if all_gains > 0 and modelled / all_gains > 0.2:
        yield Finding(
            "modelled_savings",
            f"{modelled / all_gains:.0%} of all income is savings that no bill proves; a lender leaves them out.",
            "warning",
            modelled / all_gains,
            0.2,
            "share",
            "common practice, no source",
        )


def _losing(values: Values, timeline: Timeline) -> Iterator[Finding]:
    year = values["operating_result"][0].reshape(timeline.years, 12).sum(axis=1)
    fed = (values["feeding"] + values["closed"])[0].reshape(timeline.years, 12).sum(axis=1) >= 12
    losing = (year < 0) & fed
    runs = np.flatnonzero(losing[1:] & losing[:-1])
    if runs.size:
        yield Finding(
            "operating_result",
            f"From project year {int(runs[0]) + 1} running the plant costs more than it brings, two years "
            "in a row: the family would switch it off.",
            "stop and ask",
            float(year[runs[0]]),
            0.0,
            "money/year",
            CASE,
        )


def _loan_left(scenario: Scenario, values: Values, money: str) -> Iterator[Finding]:
    for name in scenario.loan:
        left = float(values[f"loan.{name}.closing"][0, -1])
        if abs(left) > 0.005:
            yield Finding(
                f"loan.{name}",
                f"At the end {left:,.2f} {money} are still owed.",
                "stop and ask",
                left,
                0.0,
                money,
                "loan schedule",
            )
