"""The grant tables read back from their CSV files, as somebody would who never saw the program: all foot and tie as shown.

For every demo, ten random changes of inputs, and plans that few people make: no grant, more grant than cost, names alike.
"""

from __future__ import annotations

import csv
import io
import random
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

import pytest
import tomlkit

from appraisal.appraise import appraise
from appraisal.demos import demos
from appraisal.errors import AppraisalError
from appraisal.present.grant_tables import TABLES
from appraisal.reports.csv_text import OF_TABLE, csv_bytes, number_of, share_of
from appraisal.risk.least_grant import LeastGrant, without_grants
from appraisal.risk.material import GrantAsked
from appraisal.scenario.load import Loaded, load, loads, with_values

LONG_WORK = ("risk_register", "assumptions", "smallest_grant")  # these need many runs
FLOWS = ("capital paid", "fees, interest, reserve", "loans drawn", "bridge loan drawn, repaid", "own money")
CHANGED, TRIES, NUMBERS = 8, 40, "float"


@dataclass(frozen=True)
class Read:
    """One file: heads and rows of text."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    def column(self, head: str) -> list[float | None]:
        """Numbers of a column, None where it shows a text."""
        place = self.heads.index(head)
        return [number_of(row[place]) for row in self.rows]

    def last(self, head: str) -> float:
        """The number in the last row of a column."""
        found = self.column(head)[-1]
        assert found is not None
        return found


Files = Mapping[str, Read]


def read(loaded: Loaded) -> Files:
    """Every grant table that needs no search, through its CSV file."""
    found = GrantAsked(appraise(loaded), without_grants(loaded), LeastGrant("", ()))
    files = {}
    for name, make in TABLES.items():
        if name not in LONG_WORK:
            text = csv_bytes(make(found)).decode("utf-8-sig")  # type: ignore[arg-type]
            head, *rows = csv.reader(io.StringIO(text, newline=""))
            assert head[-1] == OF_TABLE and len({row[-1] for row in rows}) == 1
            files[name] = Read(tuple(head[:-1]), tuple(tuple(row[:-1]) for row in rows))
    return files


def changed(seed: int) -> Loaded:
    """A demo with some stated numbers moved by up to 30 %; what the model refuses is drawn anew."""
    rng, names = random.Random(seed), list(demos())
    loaded = load(demos()[names[seed % len(names)]])
    paths = [path for path, each in loaded.assumptions.items() if type(each.value).__name__ == NUMBERS and each.value]
    for _ in range(TRIES):
        chosen = rng.sample(paths, CHANGED)
        try:
            return with_values(loaded, {p: float(loaded.assumptions[p].value) * rng.uniform(0.7, 1.3) for p in chosen})  # type: ignore[arg-type]
        except AppraisalError:
            continue
    raise AssertionError("no change was accepted")


def odd(name: str) -> Loaded:
    """Plans that few people make."""
    tables = tomlkit.parse(demos()["small_herd_manure_only"].read_text(encoding="utf-8"))
    alike = {"label": "One fund", "share_of_eligible": 0.2, "arrives_in_month": 9}
    tables["grant"] = {
        "no_grant": {},
        "more_than_cost": {one: {"share_of_eligible": 0.9, "arrives_in_month": 20} for one in "ab"},
        "names_alike": {one: {**alike, "eligible_from_month": month} for one, month in (("a", 0), ("b", 2))},
        "hostile": {
            "a": {"label": "=1+1", "share_of_eligible": 0.111},
            "b": {"label": "-2+3", "share_of_eligible": 0.07},
        },
    }[name]
    for place, capital in enumerate(tables["capital"].values()):  # type: ignore[union-attr]
        capital["eligible_share"] = (1.0, 0.333, 0.77, 0.0)[place % 4]
    return loads(tomlkit.dumps(tables))


@cache
def files_of(case: str) -> Files:
    kind, _, what = case.partition(":")
    made = {"demo": lambda: load(demos()[what]), "changed": lambda: changed(int(what)), "odd": lambda: odd(what)}[kind]
    return read(made())


CASES = (
    *(f"demo:{name}" for name in demos()),
    *(f"changed:{seed}" for seed in range(10)),
    *(f"odd:{name}" for name in ("no_grant", "more_than_cost", "names_alike", "hostile")),
)
each_case = pytest.mark.parametrize("case", CASES)


@each_case
def test_every_last_row_called_all_is_the_sum_of_the_rows_above(case: str) -> None:
    for name, file in files_of(case).items():
        if file.rows[-1][0].lower() != "all" or len(file.rows) == 1:
            continue
        for head in file.heads[1:]:
            *above, total = file.column(head)
            if total is not None:
                assert sum(each or 0 for each in above) == total, (name, head)
    shares = [share_of(row[4]) or 0.0 for row in files_of(case)["funding_match"].rows]
    assert sum(shares[:-1]) == pytest.approx(shares[-1], abs=1e-9)


@each_case
def test_budget_funders_match_and_quarters_tie(case: str) -> None:
    files = files_of(case)
    budget, kinds, pays, match, cash = (
        files[n] for n in ("budget", "budget_by_category", "who_pays", "funding_match", "claims_and_cash")
    )
    total, amounts = budget.last("cost"), match.column("amount")
    assert total == kinds.last("cost") == amounts[-1] == number_of(pays.rows[-1][1])
    for row in kinds.rows:
        before, (cost, eligible, rest) = [number_of(c) or 0 for c in row[1:-3]], [number_of(c) or 0 for c in row[-3:]]
        assert sum(before) == cost == eligible + rest
    for row in pays.rows:
        assert sum(number_of(cell) or 0 for cell in row[2:]) == number_of(row[1])
    assert [number_of(cell) for cell in pays.rows[-1][2:]] == amounts[:-1]
    flows = [head for head in cash.heads if head in FLOWS or head.startswith("grant: ")]
    for place in range(len(cash.rows)):
        assert sum(cash.column(head)[place] or 0 for head in flows) == 0
    assert cash.last("own money") == amounts[-2]
    assert cash.last("eligible cost paid") == budget.last("eligible cost") == kinds.last("eligible cost")


@each_case
def test_grants_are_one_amount_in_every_table(case: str) -> None:
    files = files_of(case)
    match = files["funding_match"]
    grants = [amount or 0 for row, amount in zip(match.rows, match.column("amount"), strict=True) if row[0] == "grant"]
    cash, economics = files["claims_and_cash"], {row[0]: row for row in files["economics"].rows}
    assert [cash.last(head) for head in cash.heads if head.startswith("grant: ")] == grants
    steps = [
        row[2].rpartition(", ")[2].split()[0] for row in files["milestones"].rows if row[2].startswith("Grant received")
    ]
    assert sum(number_of(step) or 0 for step in steps) == sum(grants) == number_of(economics["Grants"][1])
    assert number_of(economics["Own money needed for building"][1]) == match.column("amount")[-2]
    for row in economics.values():
        if "change" in files["economics"].heads and number_of(row[3]) is not None:
            assert (number_of(row[1]) or 0) - (number_of(row[2]) or 0) == pytest.approx(number_of(row[3]), abs=1e-9)


@each_case
def test_energy_nutrients_land_and_jobs_foot(case: str) -> None:
    files = files_of(case)
    shown = {(row[0], row[1]): number_of(row[2]) or 0 for row in files["energy"].rows}
    sold = (
        "sold to the grid",
        "used on the farm",
        "for the house",
        "for the barn",
        "for drying",
        "sold",
        "sold to the gas grid",
    )
    made = sum(amount for (_, what), amount in shown.items() if what in sold)
    assert number_of(files["energy_history"].rows[-1][2]) == made
    for row in files["nutrients"].rows:
        herds, brought, lost, held = (number_of(cell) or 0 for cell in row[1:5])
        assert herds + brought - lost == held
    land = {row[0]: number_of(row[1]) for row in files["land"].rows}
    if "Digestate" in land:
        parts = [amount or 0 for what, amount in land.items() if what.startswith(("Digestate ", "Separated"))]
        assert sum(parts) == land["Digestate"]
    jobs = files["jobs"].rows
    for place in (1, 2):
        hired, family, both = (number_of(jobs[row][place]) or 0 for row in range(3))
        assert hired + family == pytest.approx(both, abs=1e-9)


@each_case
def test_score_lines_are_what_they_say_they_are_worked_out_from(case: str) -> None:
    for label, amount, _, said in files_of(case)["score_lines"].rows:
        if said:
            value = eval(said.replace(",", "").replace(" x ", " * ").replace(" hours", ""))  # our own text
            shown = share_of(amount) if amount.endswith("%") else number_of(amount)
            assert shown == pytest.approx(
                value, rel=5e-4, abs=0.05 if "payback" in label or "Eligible" in label else 5e-4
            )


@pytest.mark.parametrize("demo", ["small_herd_manure_only", "leftovers_outgrow_land"])
def test_the_factors_listed_are_those_that_move_the_count(demo: str) -> None:
    """An input that moves the gases counted is listed; of those listed, only what is multiplied by none moves nothing."""
    loaded = load(demos()[demo])
    listed = {row[2] for row in files_of(f"demo:{demo}")["emission_factors"].rows}
    before, moving, idle = _counted(loaded), set[str](), set[str]()
    for path, each in loaded.assumptions.items():
        if path.startswith("emissions.") and type(each.value).__name__ == NUMBERS and each.value:
            moves = _counted(with_values(loaded, {path: float(each.value) * 0.9})) != before  # type: ignore[arg-type]
            (moving if moves else idle).add(path)
    nothing_replaced = {"emissions.fertilizer_p2o5_kg_co2e_per_kg", "emissions.fertilizer_k2o_kg_co2e_per_kg"}
    assert moving and moving <= listed and idle & listed <= nothing_replaced
    assert {"digester.leak_share", "engine.main.slip_share", "herd.milkers.b0_m3_per_kg_vs"} <= listed


def _counted(loaded: Loaded) -> tuple[float, float]:
    values = appraise(loaded).values
    return float(values["emissions_without"].sum()), float(values["emissions_with"].sum())
