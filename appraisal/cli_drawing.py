"""What the commands of risk share: how futures are drawn, refusals, progress, and page or JSON."""

from __future__ import annotations

import functools
import sys
import time
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from appraisal.risk.draws import Settings

LONG_SECONDS = 3.0  # a run is long from here on, and says how far it is
TENTHS = 10
MOST_DRAWS = 10_000_000  # a million take some 0.2 GB for the program and minutes, as measured


def reporting_refusals(command: Callable[..., None]) -> Callable[..., None]:
    """Turn a question that cannot be answered into wrong use (code 2) with its reason."""

    @functools.wraps(command)
    def run(*arguments: Any, **options: Any) -> None:
        from appraisal.risk.points import RiskError

        try:
            command(*arguments, **options)
        except RiskError as error:
            raise click.UsageError(str(error)) from None
        except MemoryError:
            raise click.UsageError("there is not memory enough for so many futures: ask for fewer draws") from None

    return run


def drawing_options(draws: int) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """The options on how futures are drawn."""
    options = (
        click.option("--draws", type=click.IntRange(1, MOST_DRAWS), default=draws, show_default=True, help="Number of futures."),
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


def settings_of(draws: int, seed: int, method: str, correlation: str) -> Settings:
    """The settings that the options name."""
    from appraisal.risk.draws import JOININGS, Settings
    from appraisal.risk.points import METHODS

    return Settings(
        draws=draws,
        seed=seed,
        method=next(each for each in METHODS if each == method),
        joining=next(each for each in JOININGS if each == correlation),
    )


def workers_of(asked: int | None) -> int:
    """Processes asked for, or all that may be used."""
    from appraisal.risk.workers import usable_workers

    return asked or usable_workers()


def progress_of(what: str) -> Callable[[int, int], None]:
    """Tell on standard error how far a long run is, a line for every tenth."""
    start, told = time.monotonic(), [0]

    def tell(done: int, whole: int) -> None:
        tenth = done * TENTHS // whole
        if done < whole and tenth > told[0] and time.monotonic() - start > LONG_SECONDS:
            told[0] = tenth
            click.echo(f"{what}: {tenth * 100 // TENTHS} % done", err=True)

    return tell


def print_either(page: Callable[[], str], result: Callable[[], dict[str, Any]], *, as_json: bool) -> None:
    """Print a page, or one JSON object; only the one asked for is made."""
    if as_json:
        import json

        click.echo(json.dumps(result(), indent=1, allow_nan=False))
    else:
        click.echo(page(), nl=False)
    sys.stdout.flush()
