"""The answer to the family: every branch, and that it never says yes past a stop-and-ask finding or a broken house rule."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from appraisal.appraise import Appraisal, appraise
from appraisal.demos import demos
from appraisal.errors import Finding
from appraisal.present.decision import Decision, decide, owed_after, stopping
from appraisal.present.house_rules import rules, rules_table
from appraisal.risk.changes import changed_scenario
from appraisal.risk.draws import Settings
from appraisal.risk.drivers import standard_drivers
from appraisal.risk.reverse import breaks
from appraisal.risk.simulate import Simulation, simulate
from appraisal.risk.swings import swings_to_quantiles
from appraisal.scenario.edit_text import with_edits
from appraisal.scenario.load import Loaded, loads

DAIRY = "dairy_with_leftovers"
EASY = {
    "judging.least_cover": 1.0,
    "judging.least_chance_share": 0.0,
    "judging.longest_payback_years": 60.0,
    "judging.least_month_cash_amount": -1e9,
}
SOUND = {"loan.bank.amount": 50_000.0, "judging.discount_rate": 0.01}  # a small loan, and no dear money


@cache
def scenario(demo: str, *, easy: bool = False, sound: bool = False, **more: float) -> Loaded:
    """A demo with easy house rules or a sound loan, and more values by path with `__` for the dots; its ranges stay."""
    changes = {**(EASY if easy else {}), **(SOUND if sound else {})}
    changes |= {path.replace("__", "."): value for path, value in more.items()}
    text = demos()[demo].read_text(encoding="utf-8")
    edits = {tuple(path.split(".")): value for path, value in changes.items()}
    return loads(with_edits(text, edits) if edits else text, file=demo)


KEPT: dict[str, Simulation] = {}


def futures(loaded: Loaded) -> Simulation:
    key = loaded.scenario.model_dump_json()
    if key not in KEPT:
        KEPT[key] = simulate(loaded, Settings(draws=256, seed=3))
    return KEPT[key]


def answered(loaded: Loaded, *, asked: bool = True) -> tuple[Appraisal, Decision]:
    found = appraise(loaded)
    return found, decide(found, simulation=futures(loaded) if asked else None)


def text(decision: Decision) -> str:
    return " ".join(decision.said.sentences)


def test_a_plan_worth_less_than_nothing_is_told_no() -> None:
    found, decision = answered(scenario("small_herd_manure_only", easy=True))
    assert found.headline.npv[0] < 0
    assert decision.answer == "no"
    assert decision.said.sentences[0].startswith("Not as it stands.")
    assert f"{-found.headline.npv[0]:,.0f} USD less than nothing" in text(decision)


def test_broken_rules_are_told_one_by_one() -> None:
    found, decision = answered(scenario(DAIRY))
    assert found.headline.npv[0] > 0
    assert decision.answer == "against the rules"
    broken = [rule for rule in decision.rules if rule.kept is False]
    assert f"breaks {len(broken)} of your {len(decision.rules)} house rules" in text(decision)
    for rule in broken:
        assert f"House rule broken: {rule.short}: {rule.found}; wanted: {rule.wanted}." in decision.said.sentences


def test_rules_not_asked_leave_the_answer_open() -> None:
    loaded = scenario(DAIRY, easy=True, sound=True)
    found, decision = answered(loaded, asked=False)
    assert found.headline.npv[0] > 0
    assert decision.answer == "not known"
    assert "work out the futures" in text(decision)
    assert "Yes" not in text(decision)


def test_all_rules_kept_is_a_yes_with_its_condition() -> None:
    _, decision = answered(scenario(DAIRY, easy=True, sound=True))
    assert all(rule.kept for rule in decision.rules)
    assert decision.answer == "yes"
    assert "if what you assumed comes true" in text(decision)
    assert f"all of your {len(decision.rules)} house rules" in text(decision)


def test_never_yes_past_a_stop_and_ask_finding() -> None:
    loaded = scenario(DAIRY, easy=True, sound=True)
    found = appraise(loaded)
    grave = Finding("digester.loading", "Far too much is fed.", "stop and ask", 9.0, 4.0, "kg", "a test")
    decision = decide(replace(found, findings=(grave, *found.findings)), simulation=futures(loaded))
    assert decision.answer == "not yet"
    assert "digester (loading)" in decision.said.sentences[0]
    assert "it pays" not in text(decision).lower()
    assert any("digester (loading) must be cleared" in sentence for sentence in decision.must_hold.sentences)


def test_a_real_operating_limit_is_told_with_the_sum_made_twice() -> None:
    loaded = scenario(DAIRY, easy=True, sound=True, feed__whey__tonnes_per_year=30_000.0)
    found, decision = answered(loaded)
    assert found.cautious is not None
    assert decision.answer in ("no", "not yet")
    assert "the sum is made twice" in text(decision)
    assert f"{found.cautious.headline.npv[0]:,.0f}" in text(decision)


@pytest.mark.parametrize(
    ("path", "value"),
    [
        ("judging.least_cover", 3.0),
        ("judging.least_chance_share", 1.0),
        ("judging.longest_payback_years", 1.0),
        ("judging.least_month_cash_amount", 1e9),
        ("judging.own_money_amount", 1.0),
    ],
)
def test_each_rule_can_break_by_itself(path: str, value: float) -> None:
    base = scenario(DAIRY, easy=True)
    before = {rule.path: rule.kept for rule in rules(appraise(base), futures(base))}
    loaded = scenario(DAIRY, easy=True, **{path.replace(".", "__"): value})
    found, decision = answered(loaded)
    after = {rule.path: rule.kept for rule in decision.rules}
    assert after[path] is False
    assert before.get(path) is not False or path == "judging.least_cover"
    assert {p: k for p, k in after.items() if p != path} == {p: k for p, k in before.items() if p != path}
    assert rules_table(decision.rules).rows[[rule.path for rule in decision.rules].index(path)][-1] == "broken"
    assert found.headline.npv[0] > 0


def test_the_chance_is_that_of_the_futures() -> None:
    loaded = scenario(DAIRY, easy=True)
    chance = 1 - futures(loaded).chances["npv_below_zero"].value
    for share, kept in ((chance - 0.01, True), (chance + 0.01, False)):
        held = rules(appraise(scenario(DAIRY, easy=True, judging__least_chance_share=share)), futures(loaded))
        assert next(rule for rule in held if rule.path == "judging.least_chance_share").kept is kept


@pytest.mark.parametrize("demo", demos())
def test_by_default_the_worst_month_must_be_paid_from_what_the_plant_has_earned(demo: str) -> None:
    """Account and reserves added up month by month from the first full year on, by hand, must never come below nothing."""
    found = appraise(scenario(demo, judging__least_month_cash_amount=0.0))
    v, start = found.values, 12 * (found.plant.year - 1)
    set_by = sum(np.broadcast_to(v[line], v["net_cash"].shape)[0] for line in
                 ("debt_reserve_moves", "overhaul_reserve_moves", "lock_up_moves"))  # fmt: skip
    rise, lowest, worst = 0.0, 0.0, 0.0
    for month in range(start, found.timeline.months):
        rise += float(v["net_cash"][0, month] - set_by[month])
        lowest, worst = min(lowest, rise), min(worst, float(v["net_cash"][0, month]))
    rule = next(rule for rule in rules(found, None) if rule.path == "judging.least_month_cash_amount")
    assert worst < 0  # a rule that no month may cost money would be broken by every demo
    assert rule.kept is (lowest > -0.5) is (demo != "small_herd_manure_only")
    assert f"{-lowest:,.0f}" in rule.found or rule.kept


def test_without_a_loan_no_rule_on_cover() -> None:
    loaded = scenario(DAIRY, loan__bank__amount=0.0)
    assert "judging.least_cover" not in {rule.path for rule in rules(appraise(loaded), None)}


YES = "heat_for_the_cheese_dairy"  # the one demo that keeps all of its rules


@pytest.mark.parametrize("demo", demos())
def test_every_demo_gets_every_part_of_the_answer(demo: str) -> None:
    loaded = scenario(demo)
    found = appraise(loaded)
    decision = decide(
        found,
        simulation=futures(loaded),
        breaks=breaks(loaded, standard_drivers(loaded), measures=("npv",)),
        swings=swings_to_quantiles(loaded),
    )
    for part in (
        decision.said,
        decision.must_hold,
        decision.hurts,
        decision.work,
        decision.if_stopped,
        decision.cautions,
    ):
        assert part.sentences
        assert all(sentence.endswith((".", "!", "?")) for sentence in part.sentences)
    assert (decision.answer == "no") == (found.headline.npv[0] < 0)
    sound = found.headline.npv[0] >= 0 and not stopping(found) and all(rule.kept for rule in decision.rules)
    assert (decision.answer == "yes") == sound == (demo == YES)
    assert ("may end" in text(decision)) is False
    gas = found.plant.contract_gas_share
    assert any(f"{gas:.1%} of the gas hangs" in each for each in decision.must_hold.sentences) == (gas > 0)


def test_what_hurts_most_is_the_worst_end_of_the_swings() -> None:
    loaded = scenario(DAIRY)
    swings = swings_to_quantiles(loaded)
    worst = min(min(each.npv_low, each.npv_high) for each in swings.swings)
    told = decide(appraise(loaded), swings=swings).hurts.sentences
    assert f"{worst:,.0f} USD" in told[0]


def test_what_must_hold_turns_the_sign() -> None:
    loaded = scenario(DAIRY)
    found = breaks(loaded, standard_drivers(loaded), measures=("npv",))
    gas = next(each for each in found if each.driver.label == "Gas")
    told = decide(appraise(loaded), breaks=found).must_hold.sentences
    assert f"Gas: at most {gas.move:.1%} less than planned." in told
    assert gas.move is not None
    for step, pays in ((-0.005, True), (0.005, False)):
        changed = changed_scenario(loaded, {"digester.gas_cut_share": gas.move + step})
        assert bool(appraise(changed).headline.npv[0] >= 0) is pays


@pytest.mark.parametrize("demo", demos())
def test_owed_after_each_year_is_the_line(demo: str) -> None:
    found = appraise(scenario(demo))
    owed = np.broadcast_to(found.values["owed_if_stopped"][0], (found.timeline.years,))
    for year, amount in enumerate(owed, start=1):
        told = owed_after(found, year)
        assert ("nothing is owed" in told) == (amount <= 0)
        assert "-0" not in told
        if amount > 0:
            assert f"{amount:,.0f}" in told


def test_what_stops_the_plan_is_named_in_plain_words() -> None:
    """No name of a line with underscores in a sentence that a family reads."""
    crowded = scenario(DAIRY, digester__active_volume_m3=570.0)
    _, decision = answered(crowded, asked=False)
    told = " ".join((*decision.said.sentences, *decision.must_hold.sentences))
    assert "organic loading rate" in told and "loading_rate" not in told
