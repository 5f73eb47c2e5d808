"""Ranges, correlations and stress cases that cannot be used: each slip is one fault that says what would be accepted."""

from __future__ import annotations

import pytest

from appraisal.scenario.beside import PARAMETERS
from appraisal.scenario.correlations import normal_of_rank, rank_of_normal
from appraisal.scenario.load import loads
from tests.edges.scenario_text import STARTER, only_fault

PATH = "feed.whey.tonnes_per_year"
WHERE = f'range."{PATH}"'
OLD = ('high = "4000 short_ton/year"', 'low = "1650 short_ton/year"', 'shape = "triangular"')
GOOD = {
    "triangular": {"low": 1500, "high": 3600, "likely": 3200},
    "pert": {"low": 1500, "high": 3600},
    "uniform": {"low": '"1650 short_ton/year"', "high": 3600},
    "truncated_normal": {"low": 1500, "high": 3600, "sd_before_cut": 400, "mean_before_cut": 3000},
    "lognormal": {"p10": 2500, "p90": 3500, "low": 1000},
    "table": {"values": [2000, '"3300 short_ton/year"', 3100.5], "weights": [1, 2, 1]},
}


def ranged(shape: str, **given: object) -> str:
    lines = [f'shape = "{shape}"', *(f"{name} = {_literal(value)}" for name, value in given.items())]
    text = STARTER
    for old, new in zip(OLD, ("", "", "\n".join(lines)), strict=True):
        assert text.count(old) >= 1
        text = text.replace(f"\n{old}", f"\n{new}", 1)
    return text


def _literal(value: object) -> str:
    return f"[{', '.join(map(str, value))}]" if isinstance(value, list) else str(value)


def test_every_shape_has_a_good_range() -> None:
    assert set(GOOD) == set(PARAMETERS) - {"hazard"}  # a hazard ends years, see the next test


def test_a_hazard_ends_a_number_of_years() -> None:
    aside = '\n[range."feed.whey.contract_years"]\nshape = "hazard"\nper_year = 0.1\nreason = "Creameries merge."\n'
    assert loads(STARTER + aside).scenario.range["feed.whey.contract_years"].per_year == 0.1


def test_a_hazard_draws_the_month_of_an_event_and_of_nothing_else() -> None:
    aside = '\n[range."{}"]\nshape = "hazard"\nper_year = 0.1\nreason = "Sour tanks are heard of."\n'
    assert loads(STARTER + aside.format("upset.month")).scenario.range["upset.month"].per_year == 0.1
    fault = only_fault(STARTER + aside.format("clean_out.ramp_months"))
    assert "the month of an event, such as upset.month" in fault.allowed


@pytest.mark.parametrize("shape", GOOD)
def test_a_good_range_loads_in_the_unit_of_its_value(shape: str) -> None:
    found = loads(ranged(shape, **GOOD[shape])).scenario.range[PATH]
    assert found.shape == shape
    if shape == "uniform":
        assert found.low == pytest.approx(1650 * 0.90718474)
    if shape == "table":
        assert found.values == pytest.approx([2000, 3300 * 0.90718474, 3100.5])


@pytest.mark.parametrize(("shape", "change", "path", "words"), [
    ("triangular", {"high": None}, ".high", "needed for the shape triangular"),
    ("triangular", {"p10": 2000}, ".p10", "allowed low, high, likely"),
    ("triangular", {"likely": 4000}, ".likely", "not between low and high"),
    ("uniform", {"likely": 2000}, ".likely", "not used by the shape uniform"),
    ("uniform", {"high": 2000000}, ".high", "0 to 1000000 t/year"),
    ("uniform", {"low": 3100}, "", "the value itself lies outside its range"),
    ("truncated_normal", {"sd_before_cut": 0}, ".sd_before_cut", "above 0"),
    ("truncated_normal", {"sd_before_cut": -1}, ".sd_before_cut", "below the allowed range"),
    ("truncated_normal", {"mean_before_cut": 5000}, ".mean_before_cut", "not between"),
    ("lognormal", {"p10": 0}, ".p10", "above 0"),
    ("lognormal", {"p10": 3600}, "", "p10 must lie under p90"),
    ("lognormal", {"low": 2600}, "", "low must lie under p10"),
    ("lognormal", {"p10": 10, "p90": 1000000, "low": None}, "", "10% of the futures would lie beyond"),
    ("lognormal", {"p10": 10, "p90": 20, "low": None}, "", "the value itself lies outside its range"),
    ("table", {"values": [2000, 2000]}, ".values", "two different values"),
    ("table", {"values": [], "weights": None}, ".values", "1 to 1000 numbers"),
    ("table", {"values": 3000, "weights": None}, ".values", "in square brackets"),
    ("table", {"values": [2000, -1], "weights": None}, ".values", "entry 2: below the allowed range"),
    ("table", {"weights": [1, 2]}, ".weights", "3 weights"),
    ("table", {"weights": [0, 0, 0]}, ".weights", "not all of them 0"),
])
def test_a_range_that_does_not_hold_together_is_one_fault(shape: str, change: dict[str, object], path: str, words: str) -> None:
    given = {name: value for name, value in {**GOOD[shape], **change}.items() if value is not None}
    fault = only_fault(ranged(shape, **given))
    assert fault.path == f"{WHERE}{path}"
    assert words in fault.text("farm.toml")


MORE = '\n[range."feed.whey.gate_fee_per_t"]\nshape = "uniform"\nlow = 2\nhigh = 6\nreason = "x"\n'
THIRD = '\n[range."tax.rate"]\nshape = "uniform"\nlow = 0.1\nhigh = 0.3\nreason = "x"\n'
FEE, TAX = "feed.whey.gate_fee_per_t", "tax.rate"


def together(name: str, first: str, second: str, rank: object) -> str:
    return f'\n[correlation.{name}]\nfirst = "{first}"\nsecond = "{second}"\nrank = {rank}\nreason = "x"\n'


def test_correlations_that_go_together_load() -> None:
    text = STARTER + MORE + THIRD + together("a", PATH, FEE, 0.6) + together("b", FEE, TAX, '"-30 %"')
    assert loads(text).scenario.correlation["b"].rank == pytest.approx(-0.3)


@pytest.mark.parametrize(("text", "path", "words"), [
    (together("a", PATH, "feed.whey.gate_fee_per_tt", 0.5), "correlation.a.second", "did you mean `feed.whey.gate_fee_per_t`"),
    (together("a", PATH, "labour.hired_wage_per_hour", 0.5), "correlation.a.second", "carries no range"),
    (together("a", PATH, PATH, 0.5), "correlation.a", "with itself"),
    (together("a", PATH, FEE, 1), "correlation.a.rank", "above the allowed range"),
    (together("a", PATH, FEE, 0.5) + together("b", FEE, PATH, 0.4), "correlation.b", "correlated twice"),
    (together("a", PATH, FEE, 0.5).replace("rank", "rnk"), "correlation.a.rnk", "did you mean `rank`?"),
    ("\n[correlation]\nfirst = 1\n", "correlation.first", "must be a table"),
    (together("a", PATH, FEE, 0.9) + together("b", FEE, TAX, 0.9) + together("c", PATH, TAX, -0.2),
     "correlation.a.rank", "-0.58 to 0.21 while the others stay"),
])
def test_a_correlation_that_cannot_be_is_one_fault(text: str, path: str, words: str) -> None:
    fault = only_fault(STARTER + MORE + THIRD + text)
    assert fault.path == path
    assert words in fault.text("farm.toml")
    assert fault.line is not None


def test_the_named_interval_mends_the_contradiction() -> None:
    def text(rank: float) -> str:
        pairs = together("a", PATH, FEE, rank) + together("b", FEE, TAX, 0.9) + together("c", PATH, TAX, -0.2)
        return STARTER + MORE + THIRD + pairs

    allowed = only_fault(text(0.9)).allowed or ""
    high = float(allowed.split()[2])
    b, c = normal_of_rank(0.9), normal_of_rank(-0.2)  # a third correlation lies within b c +- sqrt((1 - b2)(1 - c2))
    assert high == pytest.approx(float(rank_of_normal(b * c + ((1 - b * b) * (1 - c * c)) ** 0.5)), abs=0.006)
    assert loads(text(high - 0.01)).scenario.correlation
    assert only_fault(text(high + 0.02)).path.startswith("correlation.")


def case(text: str) -> str:
    return f'{STARTER}\n[stress.bad]\nlabel = "Bad"\n{text}\n'


def test_a_stress_case_reads_units_and_stars() -> None:
    found = loads(case('times = { "capital.*.amount" = 1.2 }\nplus = { "loan.*.rate" = "2 %/year" }')).scenario.stress["bad"]
    assert (found.times, found.plus, found.to) == ({"capital.*.amount": 1.2}, {"loan.*.rate": 0.02}, {})


@pytest.mark.parametrize(("text", "path", "words"), [
    ("", "stress.bad", "changes nothing"),
    ('times = { "capital.*.amuont" = 1.2 }', 'stress.bad.times."capital.*.amuont"', "no such value"),
    ('times = { "project.years" = 1.2 }', 'stress.bad.times."project.years"', "make a second scenario"),
    ('times = { "capital.*.amount" = "a lot" }', 'stress.bad.times."capital.*.amount"', "a lot"),
    ('times = { "capital.*.amount" = true }', 'stress.bad.times."capital.*.amount"', "not a finite number"),
    ('plus = { "loan.*.rate" = "2 kW" }', 'stress.bad.plus."loan.*.rate"', "kW"),
    ('plus = { "loan.*.rate" = 0.9 }', 'stress.bad.plus."loan.*.rate"', "loan.bank.rate becomes 0.955 share/year"),
    ('to = 3', "stress.bad.to", "must be values by path"),
    ('too = { "tax.rate" = 0.3 }', "stress.bad.too", "unknown name"),
])
def test_a_stress_case_that_cannot_be_used_is_refused(text: str, path: str, words: str) -> None:
    if path == "stress.bad.too":
        text += '\ntimes = { "tax.rate" = 1.1 }'
    fault = only_fault(case(text))
    assert fault.path == path
    assert words in fault.text("farm.toml")
