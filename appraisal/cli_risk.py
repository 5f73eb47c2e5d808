"""The commands that ask what could go wrong. No arithmetic here, and no heavy import before a command needs it."""

from __future__ import annotations

import functools
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from appraisal.cli_common import demo_file, demo_option, file_argument, json_option, reporting_faults, source

if TYPE_CHECKING:
    from appraisal.risk.draws import Settings

LONG_SECONDS = 3.0  # a run is long from here on, and says how far it is
TENTHS = 10


def _reporting_refusals(command: Callable[..., None]) -> Callable[..., None]:
    """Turn a question that cannot be answered into wrong use (code 2) with its reason."""

    @functools.wraps(command)
    def run(*arguments: Any, **options: Any) -> None:
        from appraisal.risk.points import RiskError

        try:
            command(*arguments, **options)
        except RiskError as error:
            raise click.UsageError(str(error)) from None

    return run


def _drawing(draws: int) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """The options on how futures are drawn."""
    options = (
        click.option("--draws", type=click.IntRange(1), default=draws, show_default=True, help="Number of futures."),
        click.option(
            "--seed", type=click.IntRange(0), default=1, show_default=True, help="The same seed, the same bytes."
        ),
        click.option(
            "--method",
            type=click.Choice(["sobol", "latin", "plain"]),
            default="sobol",
            show_default=True,
            help="Scrambled Sobol points, Latin hypercubes (held whole in memory) or plain random numbers.",
        ),
        click.option(
            "--correlation",
            type=click.Choice(["copula", "iman_conover"]),
            default="copula",
            show_default=True,
            help="Normal copula, or reordering after Iman and Conover (held whole in memory).",
        ),
        click.option("--workers", type=click.IntRange(1), help="Processes; all processors when left out. Same result."),
    )

    def add(command: Callable[..., None]) -> Callable[..., None]:
        for option in reversed(options):
            command = option(command)
        return command

    return add


def _settings(draws: int, seed: int, method: str, correlation: str) -> Settings:
    from appraisal.risk.draws import JOININGS, Settings
    from appraisal.risk.points import METHODS

    return Settings(
        draws=draws,
        seed=seed,
        method=next(each for each in METHODS if each == method),
        joining=next(each for each in JOININGS if each == correlation),
    )


def _workers(asked: int | None) -> int:
    from appraisal.risk.workers import usable_workers

    return asked or usable_workers()


def _progress(what: str) -> Callable[[int, int], None]:
    """Tell on standard error how far a long run is, a line for every tenth."""
    start, told = time.monotonic(), [0]

    def tell(done: int, whole: int) -> None:
        tenth = done * TENTHS // whole
        if done < whole and tenth > told[0] and time.monotonic() - start > LONG_SECONDS:
            told[0] = tenth
            click.echo(f"{what}: {tenth * 100 // TENTHS} % done", err=True)

    return tell


def _print(page: Callable[[], str], result: Callable[[], dict[str, Any]], *, as_json: bool) -> None:
    if as_json:
        import json

        click.echo(json.dumps(result(), indent=1, allow_nan=False))
    else:
        click.echo(page(), nl=False)
    sys.stdout.flush()


@click.command()
@file_argument
@demo_option
@_drawing(10_000)
@json_option
@reporting_faults
@_reporting_refusals
def simulate(
    file: Path | None,
    demo: str | None,
    draws: int,
    seed: int,
    method: str,
    correlation: str,
    workers: int | None,
    as_json: bool,
) -> None:
    """Run thousands of futures: how often it pays, how often it carries its loan."""
    loaded = source(file, demo)
    from appraisal.present import risk_page, risk_result
    from appraisal.risk.simulate import simulate as run

    settings = _settings(draws, seed, method, correlation)
    found = run(loaded, settings, workers=_workers(workers), progress=_progress("futures"))
    _print(lambda: risk_page.simulation(found), lambda: risk_result.simulation(found), as_json=as_json)


@click.command()
@file_argument
@demo_option
@_drawing(4096)
@click.option(
    "--by",
    "by_percent",
    type=click.FloatRange(0, 100, min_open=True, max_open=True),
    metavar="PERCENT",
    help="Move every input by so many per cent, not to its own P10 and P90.",
)
@click.option("--table", "pair", nargs=2, metavar="INPUT INPUT", help="A table of two inputs by their paths.")
@click.option("--engine", metavar="NAME", help="That engine in other sizes.")
@click.option("--engine-cost", multiple=True, metavar="ITEM", help="A capital item that grows with that engine.")
@json_option
@reporting_faults
@_reporting_refusals
def rank(
    file: Path | None,
    demo: str | None,
    draws: int,
    seed: int,
    method: str,
    correlation: str,
    workers: int | None,
    by_percent: float | None,
    pair: tuple[str, str] | None,
    engine: str | None,
    engine_cost: tuple[str, ...],
    as_json: bool,
) -> None:
    """Rank the assumptions: which one decides."""
    if engine_cost and engine is None:
        raise click.UsageError("--engine-cost needs --engine NAME")
    loaded = source(file, demo)
    from appraisal.present import risk_page, risk_result
    from appraisal.risk.grids import engine_sizes, grid
    from appraisal.risk.rank import rank as run

    table = grid(loaded, *pair) if pair else None
    sizes = engine_sizes(loaded, engine, priced_by=engine_cost) if engine else None
    found = run(
        loaded,
        _settings(draws, seed, method, correlation),
        by_share=None if by_percent is None else by_percent / 100,
        workers=_workers(workers),
        progress=_progress("futures"),
    )
    _print(
        lambda: risk_page.ranking(found, grid=table, sizes=sizes),
        lambda: risk_result.ranking(found, grid=table, sizes=sizes),
        as_json=as_json,
    )


@click.command()
@file_argument
@demo_option
@click.option("--driver", "paths", multiple=True, metavar="INPUT", help="One more input to move until the plan breaks.")
@json_option
@reporting_faults
@_reporting_refusals
def stress(file: Path | None, demo: str | None, paths: tuple[str, ...], as_json: bool) -> None:
    """Put the plan to bad cases, and look for the break: how far each driver may move."""
    loaded = source(file, demo)
    from appraisal.present import risk_page, risk_result
    from appraisal.risk.drivers import driver_of, standard_drivers
    from appraisal.risk.reverse import breaks
    from appraisal.risk.stress import stress_test
    from appraisal.risk.worsening import worsening

    drivers = [*standard_drivers(loaded), *(driver_of(loaded, path) for path in paths)]
    found, broken = stress_test(loaded), breaks(loaded, drivers)
    together = worsening(loaded) if loaded.scenario.range else ()
    _print(
        lambda: risk_page.stress(found, broken, together),
        lambda: risk_result.stress(found, broken, together),
        as_json=as_json,
    )


@click.command()
@click.argument("files", nargs=-1, type=click.Path(path_type=Path))
@click.option(
    "--demo", "demo_names", multiple=True, metavar="NAME", help="An invented farm, beside or instead of FILES."
)
@click.option(
    "--with", "names", multiple=True, metavar="NAME", help="A ready-made other way for the first file; --ways lists them."
)
@click.option("--ways", "only_list", is_flag=True, help="List the ready-made ways of the first file, and stop.")
@_drawing(4096)
@json_option
@reporting_faults
@_reporting_refusals
def compare(
    files: tuple[Path, ...],
    demo_names: tuple[str, ...],
    names: tuple[str, ...],
    only_list: bool,
    draws: int,
    seed: int,
    method: str,
    correlation: str,
    workers: int | None,
    as_json: bool,
) -> None:
    """Hold plans or ready-made other ways against the first plan, line by line and over common futures."""
    paths = [*files, *(demo_file(name) for name in demo_names)]
    if not paths or (len(paths) + len(names) < 2 and not only_list):
        raise click.UsageError("give two scenario FILES at least, --demo NAME for some of them, or --with NAME")
    from appraisal.present import risk_page, risk_result
    from appraisal.risk.alternatives import alternative, alternatives
    from appraisal.risk.compare import compare as run
    from appraisal.scenario.load import load

    plans = [load(path) for path in paths]
    if only_list:
        found_ways = alternatives(plans[0])
        _print(lambda: risk_page.ways(plans[0], found_ways), lambda: risk_result.ways(found_ways), as_json=as_json)
        return
    others = [alternative(plans[0], name) for name in names]
    made = [each.plan for each in others if each.plan is not None]
    settings = _settings(draws, seed, method, correlation)
    found = run([*plans, *made], settings, workers=_workers(workers), progress=_progress("futures"))
    _print(lambda: risk_page.comparison(found, others), lambda: risk_result.comparison(found, others), as_json=as_json)
