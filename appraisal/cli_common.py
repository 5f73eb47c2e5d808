"""What all commands share: which scenario is meant, and how faults are told. No heavy import."""

from __future__ import annotations

import errno
import functools
import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from appraisal.scenario.load import Loaded

NOT_FINISHED, NOT_VALID = 1, 3

file_argument = click.argument("file", required=False, type=click.Path(path_type=Path))
demo_option = click.option(
    "--demo", metavar="NAME", help="An invented farm that comes with the program, instead of FILE."
)
json_option = click.option(
    "--json", "as_json", is_flag=True, help="One JSON object on standard output and nothing else."
)


def reporting_faults(command: Callable[..., None]) -> Callable[..., None]:
    """Every fault of a scenario on standard error and code 3; what the system refuses, as a full disk, and code 1."""

    @functools.wraps(command)
    def run(*arguments: Any, **options: Any) -> None:
        from appraisal.errors import ScenarioError

        try:
            command(*arguments, **options)
        except ScenarioError as error:
            click.echo(str(error), err=True)
            count = len(error.faults)
            click.echo(f"{count} fault{'s' if count != 1 else ''}; nothing was computed.", err=True)
            sys.exit(NOT_VALID)
        except OSError as error:
            if error.errno == errno.EPIPE:  # the reader, such as `head`, has seen enough
                raise
            where = f"{error.filename}: " if error.filename else ""
            click.echo(f"Not finished: {where}{error.strerror or error}", err=True)
            sys.exit(NOT_FINISHED)

    return run


def source(file: Path | None, demo: str | None) -> Loaded:
    """The scenario meant by a FILE or by --demo NAME; raises UsageError when it is not exactly one of the two."""
    from appraisal.scenario.load import load

    if (file is None) == (demo is None):
        raise click.UsageError("give a scenario FILE, or --demo NAME")
    return load(demo_file(demo) if demo is not None else file or Path())


def load_all(paths: Iterable[Path]) -> list[Loaded]:
    """Several scenarios; raises ScenarioError with the faults of all their files."""
    from appraisal.errors import ScenarioError, together
    from appraisal.scenario.load import load

    plans: list[Loaded] = []
    refused: list[ScenarioError] = []
    for path in paths:
        try:
            plans.append(load(path))
        except ScenarioError as error:
            refused.append(error)
    if refused:
        raise together(refused)
    return plans


def demo_file(name: str) -> Path:
    """The file of a demo; raises UsageError with the names there are."""
    from appraisal.demos import demos

    known = demos()
    if name not in known:
        raise click.UsageError(f"no demo {name!r}; there are: {', '.join(known)}")
    return known[name]
