"""The measurements behind `python -m tests.benchmarks`."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Callable
from functools import partial

import numpy as np
import pyxirr

from appraisal import model
from appraisal.appraise import appraise
from appraisal.demos import demos
from appraisal.lines.evaluate import MONTHS
from appraisal.lines.prepared import BLOCK, evaluate_block
from appraisal.measures.discounting import npv
from appraisal.measures.headline import full_years, yearly_cover
from appraisal.measures.returns import irr
from appraisal.risk.draws import Settings, drawing
from appraisal.risk.futures import prepared_model
from appraisal.risk.simulate import outcomes_of
from appraisal.risk.workers import in_order
from appraisal.scenario.load import load
from tests.benchmarks.operations import as_written, left

Shown = tuple[str, tuple[str, ...], list[tuple[str, ...]]]
DRAWS, LOOP = 10_000, 200
REPEATS = 5


def best(task: Callable[[], object], repeats: int = REPEATS) -> float:
    """Shortest of some runs [s]: what the machine can do when nothing else disturbs it."""
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        task()
        times.append(time.perf_counter() - start)
    return min(times)


def single_runs() -> Shown:
    """One appraisal of each demo, and two hundred of the first one after the other: the scale for all that follows."""
    title = "Single appraisals, reading the file left out"
    head = ("demo", "one", "200 in a loop", f"at that pace {DRAWS:,}")
    return title, head, [_single(name, looped=place == 0) for place, name in enumerate(demos())]


def _single(name: str, *, looped: bool) -> tuple[str, ...]:
    loaded = load(demos()[name])
    one = best(lambda: appraise(loaded))
    if not looped:
        return name, f"{one * 1000:.1f} ms", "not run", "not run"
    loop = best(lambda: [appraise(loaded) for _ in range(LOOP)], repeats=1)
    return name, f"{one * 1000:.1f} ms", f"{loop:.2f} s", f"{loop / LOOP * DRAWS:.0f} s"


def many_futures() -> Shown:
    """Ten thousand futures of the full model on one and on two workers, beside a floor of plain array operations."""
    head = (
        "demo",
        "lines\nper block",
        "operations\nas written",
        "operations\ndone",
        "made\nready",
        "one\nworker",
        "floor",
        "times\nfloor",
        "two\nworkers",
        "floor",
        "times\nfloor",
        "floor of what\nis done",
        "times\nthat",
    )
    title = f"{DRAWS:,} futures by month with all measures; floor: as many plain operations on arrays of that shape"
    return title, head, [_many(name) for name in demos()]


def _many(name: str) -> tuple[str, ...]:
    loaded = load(demos()[name])
    draws = drawing(loaded, Settings(draws=DRAWS))
    case = prepared_model(loaded, draws.paths)
    ready = best(lambda: prepared_model(loaded, draws.paths))
    first = model.by_month(case.timeline, draws.block(0))
    count, done = as_written(case.prepared, first), left(case.prepared, first)
    row = [name, str(len(case.prepared.steps)), f"{count:.0f}", f"{done:.0f}", f"{ready:.2f} s"]
    for workers in (1, 2):
        whole = best(partial(outcomes_of, draws, case, workers=workers))
        least = floor(count, case.timeline.months, workers)
        row += [f"{whole:.2f} s", f"{least:.2f} s", f"{whole / least:.1f}"]
    least = floor(done, case.timeline.months, workers)
    return (*row, f"{least:.2f} s", f"{whole / least:.1f}")


def floor(count: float, months: int, workers: int) -> float:
    """Time [s] of `count` multiplications and additions of (block, months) arrays for every block of the draws."""
    blocks = -(-DRAWS // BLOCK)

    def one(number: int) -> float:
        size = min(BLOCK, DRAWS - number * BLOCK)
        left, right = np.full((size, months), 1.0001), np.full((size, months), 0.5)
        for place in range(round(count)):
            made = left * right if place % 2 else left + right
        return float(made[0, 0])

    return best(lambda: list(in_order(one, blocks, workers=workers)))


def where_time_goes() -> Shown:
    """Parts of ten thousand futures on one worker."""
    parts = {name: _parts(name) for name in demos()}
    rows = [(name, *(f"{seconds:.2f} s" for seconds in each.values())) for name, each in parts.items()]
    head = ("demo", *next(iter(parts.values())))
    return f"Where the time of {DRAWS:,} futures goes, one worker", head, rows


def _parts(name: str) -> dict[str, float]:
    loaded = load(demos()[name])
    draws = drawing(loaded, Settings(draws=DRAWS))
    case = prepared_model(loaded, draws.paths)
    numbers = range(draws.cube.blocks)
    columns = [model.by_month(case.timeline, draws.block(number)) for number in numbers]
    lines = [evaluate_block(case.prepared, block) for block in columns]
    cash = [np.ascontiguousarray(each["project_cash"]) for each in lines]
    return {
        "drawing": best(lambda: [draws.block(number) for number in numbers]),
        "lines": best(lambda: [evaluate_block(case.prepared, block) for block in columns]),
        "worth": best(lambda: [npv(flow, 0.07) for flow in cash]),
        "rate of return": best(lambda: [irr(flow, MONTHS) for flow in cash]),
        "cover": best(lambda: [(yearly_cover(each), full_years(each)) for each in lines]),
        "checks": best(lambda: [check.sides(each) for each in lines for check in case.checks]),
    }


def against_pyxirr() -> Shown:
    """Ten thousand rates of return of 26 yearly flows, against a loop over a compiled financial library."""
    rng = np.random.default_rng(1)
    flows = rng.normal(100.0, 40.0, (DRAWS, 26))
    flows[:, 0] = -rng.uniform(400.0, 900.0, DRAWS)
    ours = best(lambda: irr(flows, 1))
    theirs = best(lambda: [pyxirr.irr(row) for row in flows])
    looped = np.array([pyxirr.irr(row) for row in flows], dtype=np.float64)
    found = irr(flows, 1)
    single = found.status == 0
    gap = float(np.nanmax(np.abs(found.value[single] - looped[single])))
    return (
        f"{DRAWS:,} rates of return of 26 flows",
        ("all at once", "loop over pyxirr", "ratio", "largest difference", "rows with one rate"),
        [
            (
                f"{ours * 1000:.0f} ms",
                f"{theirs * 1000:.0f} ms",
                f"{theirs / ours:.1f}",
                f"{gap:.1e}",
                f"{single.sum():,}",
            )
        ],
    )


def cold_starts() -> Shown:
    """Commands from a cold start, with compiled modules on disk, as an installed program has them after its first start."""
    farm = "dairy_with_leftovers"
    asked = ("--help", "simulate --help", f"run --demo {farm}", f"simulate --demo {farm}", f"stress --demo {farm}")
    return "From a cold start", ("command", "time"), [(f"appraisal {words}", _cold(words)) for words in asked]


def _cold(words: str) -> str:
    command = [sys.executable, "-m", "appraisal", *words.split()]
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return f"{best(lambda: subprocess.run(command, capture_output=True, check=True, env=kept), 3):.2f} s"


MILLION = """
import json, re, resource, sys, time
from appraisal.demos import demos
from appraisal.risk.draws import Settings
from appraisal.risk.simulate import simulate
from appraisal.scenario.load import load

loaded = load(demos()["dairy_with_leftovers"])
start = time.perf_counter()
found = simulate(loaded, Settings(draws=int(sys.argv[1]), method=sys.argv[2]), workers=2)
seconds = time.perf_counter() - start
status = open("/proc/self/status").read()  # its peak begins anew with the program; that of getrusage is handed down
own = int(re.search(r"VmHWM:\\s+(\\d+) kB", status)[1]) / 1024
children = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
print(json.dumps([seconds, own, children, found.outcomes.bytes_per_draw, sum(found.checks.values())]))
"""


def million() -> Shown:
    """A hundred thousand and a million futures: time, and memory at its peak."""
    rows = []
    for draws, method in ((100_000, "sobol"), (1_000_000, "sobol"), (1_000_000, "latin")):
        done = subprocess.run(
            [sys.executable, "-c", MILLION, str(draws), method], capture_output=True, text=True, check=True
        )
        seconds, own, children, kept, failed = json.loads(done.stdout)
        rows.append(
            (
                f"{draws:,}",
                method,
                f"{seconds:.1f} s",
                f"{seconds / draws * 1e6:.0f} us",
                f"{own:.0f} MB",
                f"{children:.0f} MB",
                f"{own + 2 * children:.0f} MB",
                f"{kept:.0f}",
                str(failed),
            )
        )
    head = (
        "futures",
        "method",
        "time",
        "a future",
        "peak of\nthe parent",
        "peak of\na worker",
        "all three at\nthe very most",
        "bytes kept\na future",
        "checks\nfailed",
    )
    return "Many futures of dairy_with_leftovers, two workers", head, rows
