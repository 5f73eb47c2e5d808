"""Plans side by side: nothing differs from itself, more is more, later is later, and draws are common."""

from __future__ import annotations

import numpy as np
import pytest

from appraisal.appraise import appraise
from appraisal.measures.discounting import npv
from appraisal.measures.returns import irr
from appraisal.risk.compare import compare, shifted
from appraisal.risk.draws import Settings
from appraisal.risk.points import RiskError
from tests.risk.farms import edited, plain, wide

DAIRY, SMALL, SHARED = "dairy_with_leftovers", "small_herd_manure_only", "shared_plant_three_farms"
FEW = Settings(1500)


def test_a_plan_does_not_differ_from_itself() -> None:
    found = compare([plain(DAIRY), plain(DAIRY)], FEW)
    assert found.npv[0] == found.npv[1] == appraise(plain(DAIRY)).headline.npv[0]
    against = found.against[0]
    assert (against.npv_difference, against.rate, against.status) == (0.0, None, "none")
    assert against.beats is not None and against.beats.value == 0
    assert all(line.present[0] == line.present[1] and line.sums[0] == line.sums[1] for line in found.lines)


def test_a_plan_with_more_money_beats_the_other_in_every_common_future() -> None:
    richer = edited(DAIRY, ('bought_price_per_kwh = "14 ct/kWh"', 'bought_price_per_kwh = "13.9 ct/kWh"'))
    found = compare([plain(DAIRY), richer], FEW)
    against = found.against[0]
    assert against.beats is not None and against.beats.value == 1
    assert against.difference is not None and against.difference.sd < 0.5 * against.npv_difference
    moved = {line.name for line in found.lines if line.present[0] != line.present[1]}
    assert "plant_power_bought" in moved and "loan.bank.interest" not in moved


def test_differences_line_by_line_add_up_to_the_difference_in_cash() -> None:
    found = compare([plain(DAIRY), plain(SMALL)], FEW)
    for place, case in enumerate(found.cases):
        assert sum(line.sums[place] for line in found.lines) == pytest.approx(case.values["net_cash"].sum(), abs=1e-4)


def test_the_rate_of_the_difference_makes_both_plans_alike() -> None:
    found = compare([plain(DAIRY), plain(SMALL)], FEW)
    length = max(offset + case.timeline.months for offset, case in zip(found.offsets, found.cases, strict=True))
    flows = [
        shifted(case.values["project_cash"][:1], o, length) for case, o in zip(found.cases, found.offsets, strict=True)
    ]
    rate = found.against[0].rate
    assert rate is not None and rate == irr(flows[1] - flows[0], 12).value[0]
    one, other = (float(npv(flow, rate)[0]) for flow in flows)
    assert one == pytest.approx(other, abs=1e-3)


def test_a_plan_two_years_later_is_discounted_two_years_more() -> None:
    later = edited(SMALL, ('first_month = "2027-05"', 'first_month = "2029-05"'))
    found = compare([plain(SMALL), later], FEW)
    assert found.offsets == (0, 24)
    assert found.npv[1] == pytest.approx(found.npv[0] / 1.07**2)
    against = found.against[0]
    assert against.beats is not None and against.beats.value == 1  # it loses money, so later is better
    back = compare([later, plain(SMALL)], FEW)
    assert back.offsets == (24, 0)
    assert back.npv == pytest.approx(found.npv[::-1])


def test_another_yardstick_of_the_second_plan_does_not_count() -> None:
    other = edited(SMALL, ("discount_rate = 0.07", "discount_rate = 0.03"))
    found = compare([plain(SMALL), other], FEW)
    assert found.npv[0] == found.npv[1]
    against = found.against[0]
    assert against.beats is not None and against.beats.value == 0


def test_ranges_of_one_plan_only_are_drawn_for_it_alone() -> None:
    bare = edited(DAIRY, ranges=False)
    found = compare([bare, plain(DAIRY)], FEW)
    assert found.drawn == tuple(plain(DAIRY).scenario.range)
    assert found.against[0].beats is not None and 0 < found.against[0].beats.value < 0.2  # the plan is hopeful
    nothing = compare([bare, bare], FEW)
    assert nothing.drawn == () and nothing.against[0].beats is None


def test_correlated_draws_are_common_too_and_the_same_on_two_workers() -> None:
    one, two = (compare([wide(DAIRY), plain(DAIRY)], FEW, workers=workers) for workers in (1, 2))
    assert one.against == two.against


def test_plans_that_cannot_be_compared_are_refused() -> None:
    with pytest.raises(RiskError, match="two plans"):
        compare([plain(DAIRY)], FEW)
    with pytest.raises(RiskError, match="currencies"):
        compare([plain(DAIRY), plain(SHARED)], FEW)
    turned = wide(DAIRY).text.replace("rank = 0.5", "rank = -0.5")
    from appraisal.scenario.load import loads

    with pytest.raises(RiskError, match="differently"):
        compare([wide(DAIRY), loads(turned)], FEW)
    assert np.isfinite(compare([wide(DAIRY), wide(DAIRY)], FEW).npv).all()
