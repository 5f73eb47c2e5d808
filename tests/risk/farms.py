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
    for engine in known.engine:
        text = text.replace(f"[engine.{engine}]\n", f'[engine.{engine}]\nfailure = "counted"\nfailure_cost = 20000\n')
        more[f"engine.{engine}.failure_month"] = 'shape = "hazard"\nper_year = 0.06'
    for herd in known.herd:
        text = text.replace(f"[herd.{herd}]\n", f'[herd.{herd}]\nkeeping = "may_be_sold"\n')
        more[f"herd.{herd}.sold_after_years"] = 'shape = "hazard"\nper_year = 0.02'
    for feed in known.feed:
        text = text.replace(f"[feed.{feed}]\n", f'[feed.{feed}]\nreplaced = "after_a_gap"\ngap_months = 4\n')
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
