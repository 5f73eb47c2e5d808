"""Characters that cannot be seen, lists where a number belongs, and files with thousands of faults."""

from __future__ import annotations

import time

import pytest

from appraisal.scenario.load import loads
from tests.edges.scenario_text import STARTER, changed, faults, only_fault

NAME = 'name = "Example farm: an invented plant to overwrite"'
RANGE = '[range."feed.whey.contract_years"]\nshape = "pert"\nreason = "x"\n'
STRENGTH = '[wander.w]\nhalf_life_years = 3\nsd_long_run = 0.2\nreason = "x"\nmoves = {{ "power.market_price_per_kwh" = {} }}\n'
LONGEST_S = 30  # of three thousand faulty tables on a busy machine; it took minutes before hints and doubts were bounded


@pytest.mark.parametrize("sign", ["\u202e", "\u2066", "\u200b", "\u200f", "\ufeff", "\u2028", "\u00ad", "\U000e0041", "\u0085"])
def test_a_sign_that_cannot_be_seen_is_refused_by_its_name(sign: str) -> None:
    fault = only_fault(changed((NAME, f'name = "Hill {sign}farm"')))
    assert fault.path == "project.name" and "cannot be seen" in fault.what and fault.hint == "delete it"
    assert fault.text("farm.toml").isprintable()


def test_the_joiners_that_some_writing_needs_and_hard_blanks_stay() -> None:
    name = "\u0646\u0645\u06cc\u200c\u062f\u0627\u0646\u0645, Hof\u00a0Birke"
    assert loads(changed((NAME, f'name = "{name}"'))).scenario.project.name == name


@pytest.mark.parametrize("name", ["low", "likely", "high", "p10", "sd_before_cut", "per_year"])
@pytest.mark.parametrize("value", ["[1]", "[]", "[[1]]", "{ a = 1 }", "true", "1979-05-27"])
def test_a_list_or_table_where_a_range_wants_a_number_is_refused(name: str, value: str) -> None:
    assert any(fault.path.endswith(f".{name}") for fault in faults(f"{STARTER}\n{RANGE}{name} = {value}\n"))


@pytest.mark.parametrize("value", ["1" + "0" * 400, "inf", "nan", "true", '"a"', "0", "3.5"])
def test_a_strength_that_is_no_small_number_is_refused(value: str) -> None:
    assert all(fault.path.startswith("wander.w.moves") for fault in faults(f"{STARTER}\n{STRENGTH.format(value)}"))


@pytest.mark.parametrize("table", [
    '[feed.f{}]\nlikee = "sweet_whey"\n',
    '[range."feed.f{}.tonnes"]\nlow = 1\n',
    '[stress.s{}]\nlabel = "x"\nto = {{ "power.prise" = 1 }}\n',
    "[folly{}]\nx = 1\n",
])
def test_three_thousand_faulty_tables_are_told_in_seconds(table: str) -> None:
    begun = time.perf_counter()
    assert len(faults(STARTER + "\n" + "".join(map(table.format, range(3000))))) >= 3000
    assert time.perf_counter() - begun < LONGEST_S
