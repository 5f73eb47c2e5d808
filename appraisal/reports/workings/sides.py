"""Worth, rate of return and payback from eight sides: project or owner, before or after tax, nominal or real.

One set of definitions; `view_lines` repeats it for every side with the names of that side.
"""

from __future__ import annotations

import inspect
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import numpy as np

from appraisal.lines.define import Body, Line, read
from appraisal.reports.workings.eight import RATES, SIDES, Side


def rate_real(stated: Any, project_inflation: Any) -> Any:
    """Rate in money of constant worth [share/year]

    (1 + nominal) / (1 + inflation) - 1.
    """
    return (stated - project_inflation) / (1 + project_inflation)


def rate_nominal(stated: Any) -> Any:
    """Rate in money of the day [share/year]

    As stated.
    """
    return stated


def flow_real(cash: Any, price_level: Any) -> Any:
    """Cash [money/month]

    In prices of month 0.
    """
    return cash / price_level


def flow_nominal(cash: Any) -> Any:
    """Cash [money/month]

    In money of the day.
    """
    return cash


def present(flow: Any, discount: Any, years_dated: Any) -> Any:
    """Cash, worth today [money/month]

    Discounted to month 0; their sum is the net present value.
    """
    return flow * (1 + discount) ** (-years_dated)


def size(flow: Any) -> Any:
    """Size of the cash [money/month]

    Without its sign.
    """
    return np.maximum(flow, -flow)


def out(flow: Any) -> Any:
    """Money goes out [1]

    1 in months with more out than in.
    """
    return np.where(flow < 0, 1, 0)


def spent(cumulative_out: Any) -> Any:
    """Spending has begun [1]

    1 from the first month in which money goes out.
    """
    return np.where(cumulative_out > 0, 1, 0)


def started(spent: Any) -> Any:
    """Not yet spent [1]

    Their sum is the month in which spending begins.
    """
    return 1 - spent


def running_total(previous_running_total: Any, flow: Any) -> Any:
    """Cash so far [money]

    Of the month before, and this month's.
    """
    return previous_running_total + flow


def discounted_total(previous_discounted_total: Any, present: Any) -> Any:
    """Discounted cash so far [money]

    Of the month before, and this month's.
    """
    return previous_discounted_total + present


def back(running_total: Any, spent: Any, close_to_zero: Any, life_sum_size: Any) -> Any:
    """The money is back [1]

    Spending has begun and the total is not below zero; a sum this close to zero counts as zero.
    """
    return np.where(running_total >= 0 - close_to_zero * life_sum_size, spent, 0)


def regained(back: Any, previous_back: Any) -> Any:
    """The money comes back in this month [1]

    It was not back the month before.
    """
    return back * (1 - previous_back)


def moment(
    regained: Any, cumulative_regained: Any, month_number: Any, previous_total: Any, inflow: Any, life_sum_started: Any
) -> Any:
    """Time until the money is first back [month]

    From the first spending; within the month along a straight line. One entry, in the month in which it is first back.
    """
    gain = np.maximum(inflow, 0)
    part = np.where(
        inflow > 0, np.minimum(np.maximum(0 - previous_total, 0), gain) / np.where(inflow > 0, inflow, 1), 1
    )
    first = np.where(cumulative_regained > 1, 0, regained)
    return first * (month_number - 1 + part - life_sum_started)


def times(life_sum_regained: Any) -> Any:
    """How often the money comes back [1]

    0: never. More than once, or not back at the end: the total falls below zero again.
    """
    return life_sum_regained


def at_end(back: Any, last_month: Any) -> Any:
    """The money is back at the end [1]

    In the last month.
    """
    return back * last_month


def spent_worth(flow: Any, finance: Any, years_dated: Any) -> Any:
    """Money out, worth today at the finance rate [money/month]

    For the modified rate of return.
    """
    return np.maximum(0 - flow, 0) * (1 + finance) ** (-years_dated)


def earned_worth(flow: Any, reinvest: Any, years_dated: Any, months_in_all: Any, months_per_year: Any) -> Any:
    """Money in, worth at the end at the reinvestment rate [money/month]

    For the modified rate of return; the end is the last month.
    """
    return np.maximum(flow, 0) * (1 + reinvest) ** ((months_in_all - 1) / months_per_year - years_dated)


def year_end_worth(year_sum_flow: Any, discount: Any, year_end_years_on: Any) -> Any:
    """Cash of the year, worth today when dated at its end [money/year]

    The first year is today, the others fall a year apart: for comparison with papers that count so.
    """
    return year_sum_flow * (1 + discount) ** (-year_end_years_on)


MONTHLY: tuple[Body, ...] = (
    *(present, size, out, spent, started, running_total, discounted_total),
    *(spent_worth, earned_worth),
)
OWN = {body.__name__ for body in (*MONTHLY, back, regained, moment, times, at_end)} | {"flow", *RATES}
VIEWED = ("previous_", "cumulative_", "life_sum_", "year_sum_", "year_end_")


def view_lines() -> Iterator[Line]:
    """Every line of every side."""
    for side in SIDES:
        for rate in RATES:
            body: Body = rate_real if side.real else rate_nominal
            yield _made(body, side, rate, {"stated": f"judging_{rate}_rate"}, words=f"{rate} rate")
        yield _made(flow_real if side.real else flow_nominal, side, "flow", {"cash": side.cash})
        for each in MONTHLY:
            roll = each.__name__ if each.__name__.endswith("_total") else None
            yield _made(each, side, each.__name__, {}, roll=roll)
        for kind, total, inflow in (("plain", "running_total", "flow"), ("discounted", "discounted_total", "present")):
            own = {
                "running_total": f"{side.key}_{total}",
                "previous_total": f"previous_{side.key}_{total}",
                "inflow": f"{side.key}_{inflow}",
                **{
                    f"{view}{name}": f"{view}{side.key}_{kind}_{name}"
                    for name in ("back", "regained")
                    for view in ("", *VIEWED)
                },
            }
            for body in (back, regained, moment, times, at_end):
                yield _made(body, side, f"{kind}_{body.__name__}", own, words="discounted" * (kind == "discounted"))
        yield _made(year_end_worth, side, "year_end_worth", {}, yearly=True)


def _made(
    body: Body,
    side: Side,
    name: str,
    renamed: dict[str, str],
    *,
    words: str = "",
    roll: str | None = None,
    yearly: bool = False,
) -> Line:
    """A definition under the names of one side."""
    made = read(body, {"yearly": yearly, "roll": f"{side.key}_{roll}" if roll else None})
    label = (
        f"{words.capitalize()} of {side.words}"
        if name in RATES
        else f"{made.label}{', ' * bool(words)}{words}; {side.words}"
    )
    arguments = tuple(renamed.get(each, _own(each, side)) for each in inspect.signature(body).parameters)
    return replace(made, name=f"{side.key}_{name}", variant="", label=label, arguments=arguments)


def _own(argument: str, side: Side) -> str:
    view = next((each for each in VIEWED if argument.startswith(each) and argument.removeprefix(each) in OWN), "")
    name = argument.removeprefix(view)
    return f"{view}{side.key}_{name}" if name in OWN else argument
