"""The commands that ask what could go wrong. No arithmetic here, and no heavy import before a command needs it."""

from __future__ import annotations

from pathlib import Path

import click

from appraisal.cli_common import demo_file, demo_option, file_argument, json_option, load_all, reporting_faults, source
from appraisal.cli_drawing import (
    drawing_options,
    print_either,
    progress_of,
    reporting_refusals,
    settings_of,
    workers_of,
)


@click.command()
@file_argument
@demo_option
@drawing_options(10_000)
@json_option
@reporting_faults
@reporting_refusals
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

    settings = settings_of(draws, seed, method, correlation)
    found = run(loaded, settings, workers=workers_of(workers), progress=progress_of("futures"))
    print_either(lambda: risk_page.simulation(found), lambda: risk_result.simulation(found), as_json=as_json)


@click.command()
@file_argument
@demo_option
@drawing_options(4096)
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
@reporting_refusals
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
        settings_of(draws, seed, method, correlation),
        by_share=None if by_percent is None else by_percent / 100,
        workers=workers_of(workers),
        progress=progress_of("futures"),
    )
    print_either(
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
@reporting_refusals
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
    print_either(
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
@click.option("--ways", "only_list", is_flag=True, help="List the ready-made ways of the first file, with figures, and stop.")
@drawing_options(4096)
@json_option
@reporting_faults
@reporting_refusals
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
    from appraisal.appraise import appraise
    from appraisal.present import risk_page, risk_result
    from appraisal.risk.alternatives import alternative, alternatives
    from appraisal.risk.compare import compare as run

    plans = load_all(paths)
    if only_list:
        found_ways = alternatives(plans[0])
        seen = {each.name: appraise(each.plan) for each in found_ways if each.plan is not None}
        print_either(
            lambda: risk_page.ways(appraise(plans[0]), found_ways, seen),
            lambda: risk_result.ways(found_ways, seen),
            as_json=as_json,
        )
        return
    others = [alternative(plans[0], name) for name in names]
    made = [each.plan for each in others if each.plan is not None]
    settings = settings_of(draws, seed, method, correlation)
    found = run([*plans, *made], settings, workers=workers_of(workers), progress=progress_of("futures"))
    print_either(lambda: risk_page.comparison(found, others), lambda: risk_result.comparison(found, others), as_json=as_json)
