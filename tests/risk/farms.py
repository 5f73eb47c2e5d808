"""Demo farms with more ranges than they carry, so that every part of the risk layer has something to draw."""

from __future__ import annotations

from functools import cache

from appraisal.demos import demos
from appraisal.scenario.load import Loaded, load, loads

DEMOS = sorted(demos())
WIDER = {
    "digester.leak_share": 'shape = "triangular"\nlow = 0\nhigh = 0.1',
    "project.build_months": 'shape = "table"\nvalues = [10, 12, 14, 18.5]',
    "power.contract_years": 'shape = "hazard"\nper_year = 0.05',
    "upset.month": 'shape = "table"\nvalues = [0, 5, 14.5, 30]\nweights = [6, 1, 1, 1]',
    "project.inflation": 'shape = "truncated_normal"\nlow = 0\nhigh = 0.06\nsd_before_cut = 0.01',
    "labour.hired_wage_per_hour": 'shape = "lognormal"\np10 = 20\np90 = 30',
}
TOGETHER = """
[wander.energy]
half_life_years = 3
sd_long_run = 0.25
reason = "A shock that all prices of energy share."

[wander.energy.moves]
"power.market_price_share_by_year" = 1
"power.bought_price_share_by_year" = 0.6
"upgrading.market_price_share_by_year" = 0.8

[wander.power_alone]
half_life_years = 1
sd_long_run = 0.1
reason = "Of the power market alone."
moves = { "power.market_price_share_by_year" = 1 }
[correlation.months_and_wages]
first = "project.build_months"
second = "labour.hired_wage_per_hour"
rank = 0.5
reason = "A busy building trade."
"""


@cache
def plain(name: str) -> Loaded:
    """A demo as it is."""
    return load(demos()[name])


def with_lines(text: str, table: str, lines: str) -> str:
    """The text of a scenario with lines put under the head of one of its tables."""
    return text.replace(f"[{table}]\n", f"[{table}]\n{lines}")


@cache
def wide(name: str) -> Loaded:
    """A demo with more ranges, two of them correlated, a hazard on every contract, engine and herd, and prices that wander."""
    text = demos()[name].read_text(encoding="utf-8")
    known = plain(name).scenario
    more = dict(WIDER)
    more |= {
        f"feed.{feed}.contract_years": 'shape = "hazard"\nper_year = 0.08'
        for feed, item in known.feed.items()
        if item.supply_by == "contract"
    }
    for engine, run in known.engine.items():
        if run.failure == "not_counted":
            text = with_lines(text, f"engine.{engine}", 'failure = "counted"\nfailure_cost = 20000\n')
        more[f"engine.{engine}.failure_month"] = 'shape = "hazard"\nper_year = 0.06'
    for herd, animals in known.herd.items():
        if animals.keeping == "stays":
            text = with_lines(text, f"herd.{herd}", 'keeping = "may_be_sold"\n')
        more[f"herd.{herd}.sold_after_years"] = 'shape = "hazard"\nper_year = 0.02'
    for feed, waste in known.feed.items():
        if waste.replaced == "at_once":
            text = with_lines(text, f"feed.{feed}", 'replaced = "after_a_gap"\ngap_months = 4\n')
    for path, body in more.items():
        if path not in known.range:
            text += f'\n[range."{path}"]\n{body}\nreason = "For a test."\n'
    return loads(text + TOGETHER)


def edited(name: str, *swaps: tuple[str, str], ranges: bool = True) -> Loaded:
    """A demo with pieces of its text replaced, each of them once; without its ranges if so asked."""
    text = demos()[name].read_text(encoding="utf-8")
    for old, new in swaps:
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    if not ranges:
        blocks = text.split("\n\n")
        text = "\n\n".join(block for block in blocks if not block.startswith(("[range.", "[correlation.")))
    return loads(text)
