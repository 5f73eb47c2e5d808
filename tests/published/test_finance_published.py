"""Measures against published figures (finance.json: source, how it is known, tolerance)."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from appraisal.measures.annuity import level_payment, number_of_periods, schedule
from appraisal.measures.discounting import npv, present_value
from appraisal.measures.factors import annuity_factor, growing_annuity, present_worth_factor
from appraisal.measures.inflation import deflate, real_rate
from appraisal.measures.payback import discounted_payback, simple_payback
from appraisal.measures.returns import irr, irr_roots, mirr, xirr, xnpv
from appraisal.measures.unit_cost import capital_recovery_factor, levelised_cost

RECORDS: dict[str, dict[str, Any]] = {
    record["id"]: record for record in json.loads((Path(__file__).parent / "finance.json").read_text("utf-8"))
}
HOURS_PER_YEAR = 8760
Values = dict[str, Any]


def flows(*rows: list[float]) -> np.ndarray:
    """Rows as a (draws, periods) array."""
    return np.array(rows, dtype=np.float64)


def at_year_end(row: list[float], rate: float) -> float:
    """NPV of one row, first flow today, the others at the ends of the years."""
    return float(npv(flows(row), rate, timing="end of year")[0])


def rate_of(row: list[float]) -> float | None:
    """The single rate of return of one row of yearly flows, None where the status says there is none."""
    found = irr(flows(row), 1)
    assert found.words[0] in ("one", "none")
    return None if found.words == ["none"] else float(found.value[0])


def mirr_of(row: list[float], finance: float, reinvest: float) -> float:
    """Modified rate of one row of yearly flows."""
    return float(mirr(flows(row), finance_rate=finance, reinvest_rate=reinvest, periods_per_year=1).value[0])


def differences(a: list[float], b: list[float]) -> list[float]:
    """b - a, period by period."""
    return [later - earlier for earlier, later in zip(a, b, strict=True)]


def dated(i: Values) -> Values:
    days = [date.fromisoformat(text) for text in i["dates"]]
    rate = xirr(flows(i["flows"]), days)
    assert rate.words == ["one"]
    return {"xirr": rate.value[0], "xnpv": xnpv(flows(i["flows"]), i["xnpv_rate"], dates=days)[0]}


def two_roots(i: Values) -> Values:
    assert irr(flows(i["flows"]), 1).words == ["several"]
    at = {text: at_year_end(i["flows"], float(text)) for text in ("0.00", "0.15", "0.30")}
    return {"irr": irr_roots(np.array(i["flows"]), 1).tolist(), "npv_at": at}


def oil_pump(i: Values) -> Values:
    found = two_roots(i)["irr"]
    rate = i["rate"]
    return {
        "irr": found,
        "npv_at_10pct": at_year_end(i["flows"], rate),
        "mirr_10_10": mirr_of(i["flows"], rate, rate),
    }


def amortisation(i: Values) -> Values:
    rate = i["annual_rate"] / i["periods_per_year"]
    plan = schedule(i["principal"], rate, periods=i["n"])
    parts = zip(plan.principal[0], plan.interest[0], plan.closing[0], strict=True)
    return {
        "payment": level_payment(i["principal"], rate, periods=i["n"])[0],
        "total_interest": plan.interest.sum(),
        "schedule_period_principal_interest_balance": [[k + 1, *part] for k, part in enumerate(parts)],
    }


def paybacks(i: Values) -> Values:
    rows = flows(*[[-cost, *i["inflows"]] for cost in i["costs"]])
    simple, discounted = (
        simple_payback(rows, periods_per_year=1),
        discounted_payback(rows, i["rate"], periods_per_year=1),
    )
    assert set(simple.words + discounted.words) == {"paid back"}
    return {"discounted_payback": discounted.value.tolist(), "simple_payback": simple.value.tolist()}


def escalated(i: Values) -> Values:
    rows = []
    for rate, rise in i["cases"]:
        end, mid, spread = (
            present_worth_factor(rate, escalation=rise, years=i["years"], timing=timing)[0]
            for timing in ("end of year", "mid year", "spread evenly")
        )
        row = {"discount": rate, "escalation": rise, "published": spread, "within_year_continuous": spread}
        rows.append(row | {"end_of_year": end, "mid_year": mid})
    return {"rows": rows}


def unit_cost(i: Values) -> Values:
    kwh = HOURS_PER_YEAR * i["capacity_factor"]
    yearly = i.get("fixed_om", 0.0) + kwh * i.get("variable_om", 0.0)
    years = i["years"]
    costs, energy = flows([i["capex_per_kw"], *[yearly] * years]), flows([0.0, *[kwh] * years])
    cost = levelised_cost(costs, energy, rate=i["rate"], timing="end of year")
    assert cost.words == ["given"]
    return {"crf": capital_recovery_factor(i["rate"], years=years)[0], "lcoe": cost.value[0]}


def real_and_nominal(i: Values) -> Values:
    nominal, real = i["nominal_flows"], real_rate(i["nominal_rate"], i["inflation"])[0]
    real_flows = deflate(flows(nominal), i["inflation"], periods_per_year=1)[0].tolist()
    right = at_year_end(real_flows, real)
    assert right == pytest.approx(at_year_end(nominal, i["nominal_rate"]), rel=1e-12)
    return {
        "real_rate": real,
        "npv": right,
        "real_flows": real_flows,
        "wrong_nominal_flows_real_rate": at_year_end(nominal, real),
        "wrong_approx_rate_minus": at_year_end(real_flows, i["nominal_rate"] - i["inflation"]),
    }


def one_real_flow(i: Values) -> Values:
    row = [0.0] * i["years"] + [i["nominal_flow"]]
    real, real_flows = (
        real_rate(i["nominal_rate"], i["inflation"])[0],
        deflate(flows(row), i["inflation"], periods_per_year=1),
    )
    return {
        "pv": at_year_end(row, i["nominal_rate"]),
        "real_flow": real_flows[0, -1],
        "real_rate": real,
        "pv_real": present_value(real_flows, real, periods_per_year=1)[0],
    }


def indexed_price(i: Values) -> Values:
    first, rate, index, years = i["first_year_revenue"], i["nominal_rate"], i["indexation"], i["years"]
    full, none, part = (
        growing_annuity(first, rate, growth=index, share_indexed=share, years=years)[0]
        for share in (1.0, 0.0, i["partial_indexation_share"])
    )
    real = real_rate(rate, index)
    level = first / (1.0 + index) * annuity_factor(real, periods=years)[0]
    return {
        "pv_full_index": full,
        "pv_no_index": none,
        "pv_30pct_indexed": part,
        "real_rate": real[0],
        "pv_equal_real": level,
    }


def timings(i: Values) -> Values:
    row = flows([-i["outlay"], *[i["annual"]] * i["years"]])
    names = {"npv_end": "end of year", "npv_mid": "mid year", "npv_start": "start of year"}
    names["npv_continuous"] = "spread evenly"
    return {key: npv(row, i["rate"], timing=timing)[0] for key, timing in names.items()}  # type: ignore[arg-type]


CASES: dict[str, Callable[[Values], Values]] = {
    "FO-01": lambda i: {"npv": at_year_end(i["flows"], i["rate"])},
    "FO-02": lambda i: {key: [rate_of(row) for row in i["series"]] for key in ("irr", "published")},
    "FO-03": lambda i: {
        "mirr": [
            mirr_of(i["flows"][: years + 1], i["finance_rate"], reinvest)
            for reinvest, years in zip(i["reinvest_rates"], i["horizons"], strict=True)
        ]
    },
    "FO-04": dated,
    "FO-05": two_roots,
    "FO-06": oil_pump,
    "FO-07": lambda i: {"irr": rate_of(i["flows"]), "npv": at_year_end(i["flows"], i["rate"])},
    "FO-08": lambda i: {
        "npv": [at_year_end(i[name], i["rate"]) for name in "AB"],
        "irr": [rate_of(i[name]) for name in "AB"],
        "incremental_irr": rate_of(differences(i["A"], i["B"])),
    },
    "FO-09": lambda i: {
        "irr_A": rate_of(i["A"]),
        "irr_B": rate_of(i["B"]),
        "irr_B_minus_A": rate_of(differences(i["A"], i["B"])),
        "npv": [at_year_end(i[name], i["marr"]) for name in "AB"],
    },
    "FO-10": lambda i: {"payment": level_payment(i["principal"], i["rate_per_period"], periods=i["n"])[0]},
    "FO-11": amortisation,
    "FO-12": lambda i: {"n": number_of_periods(i["principal"], i["rate_per_period"], payment=i["payment"]).value[0]},
    "FO-16": paybacks,
    "FO-18": escalated,
    "FO-20": unit_cost,
    "FO-21": unit_cost,
    "FO-22": real_and_nominal,
    "FO-23": one_real_flow,
    "FO-24": indexed_price,
    "FO-59": timings,
}


def leaves(value: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Every single figure in nested lists and tables, with its path."""
    if isinstance(value, dict | list):
        for key, part in value.items() if isinstance(value, dict) else enumerate(value):
            yield from leaves(part, (*path, str(key)))
    else:
        yield path, value


def tolerance(record: Values, path: tuple[str, ...]) -> float:
    """Absolute tolerance of one figure: of its own name, of its group, or the default."""
    given = record["tolerance"]
    return float(next(given[name] for name in (path[-1], path[0], "default") if name in given))


def test_every_record_has_its_case() -> None:
    assert set(RECORDS) == set(CASES)


@pytest.mark.parametrize("name", sorted(CASES))
def test_published_figure(name: str) -> None:
    record = RECORDS[name]
    ours, theirs = dict(leaves(CASES[name](record["inputs"]))), dict(leaves(record["expected"]))
    about = f"{record['topic']}; source: {record['source']}; known: {record['basis']}"
    assert set(ours) == set(theirs), about
    for path, figure in theirs.items():
        if figure is None:
            assert ours[path] is None, about
        else:
            assert ours[path] == pytest.approx(figure, abs=tolerance(record, path), rel=0.0), f"{path}: {about}"
