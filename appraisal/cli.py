"""The command line. No arithmetic here, and no heavy import before a command needs it."""

from __future__ import annotations

import functools
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from appraisal import __version__

if TYPE_CHECKING:
    from appraisal.scenario.load import Loaded

NOT_VALID = 3


def _reporting_faults(command: Callable[..., None]) -> Callable[..., None]:
    """Print every fault of a scenario on standard error and end with code 3, without a traceback."""

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

    return run


def _source(file: Path | None, demo: str | None) -> Loaded:
    from appraisal.demos import demos
    from appraisal.scenario.load import load

    if (file is None) == (demo is None):
        raise click.UsageError("give a scenario FILE, or --demo NAME")
    known = demos()
    if demo is not None and demo not in known:
        raise click.UsageError(f"no demo {demo!r}; there are: {', '.join(known)}")
    return load(known[demo] if demo is not None else file or Path())


_file = click.argument("file", required=False, type=click.Path(path_type=Path))
_demo = click.option("--demo", metavar="NAME", help="An invented farm that comes with the program, instead of FILE.")


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="appraisal")
def main() -> None:
    """Does a biogas plant pay on this farm? A scenario file in, an appraisal out.

    Exit codes: 0 done, 2 wrong use, 3 scenario not valid.
    """


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--units", type=click.Choice(["metric", "us"]), default="metric", show_default=True, help="Units shown.")
@click.option("--currency", default="EUR", show_default=True, help="Three letters.")
def new(file: Path, units: str, currency: str) -> None:
    """Write a commented scenario file to start from."""
    from appraisal.scenario.starter import starter

    try:
        with file.open("x", encoding="utf-8") as out:
            out.write(starter(currency=currency, display_units="us" if units == "us" else "metric"))
    except FileExistsError:
        raise click.UsageError(f"{file} exists; nothing was written") from None
    except OSError as error:
        raise click.UsageError(f"{file}: {error.strerror}") from None
    click.echo(f"{file} written: fill it in, then `appraisal check {file}` and `appraisal run {file}`.")


@main.command()
@_file
@_demo
@click.option("--values", is_flag=True, help="List every value in use and where it comes from.")
@_reporting_faults
def check(file: Path | None, demo: str | None, values: bool) -> None:
    """Read a scenario and list every fault in it."""
    loaded = _source(file, demo)
    origins = [assumption.origin for assumption in loaded.assumptions.values()]
    if values:
        from appraisal.present.values_text import values_text

        click.echo(values_text(loaded.assumptions.values()))
    click.echo(
        f"{loaded.scenario.project.name}: valid. {origins.count('scenario')} values from the file, "
        f"{origins.count('reference')} from reference tables, {origins.count('default')} defaults. "
        f"Fingerprint {loaded.fingerprint}."
    )


@main.command()
@_file
@_demo
@click.option("--json", "as_json", is_flag=True, help="One JSON object on standard output and nothing else.")
@click.option("--workbook", type=click.Path(path_type=Path), help="Write a workbook of live formulas there too.")
@_reporting_faults
def run(file: Path | None, demo: str | None, as_json: bool, workbook: Path | None) -> None:
    """Appraise a scenario: what it makes, earns and costs, and whether it carries its loan."""
    from appraisal.appraise import appraise

    appraisal = appraise(_source(file, demo))
    if workbook is not None:
        from appraisal.reports.export import export_workbook

        try:
            export_workbook(appraisal, workbook)
        except OSError as error:
            raise click.UsageError(f"{workbook}: {error.strerror}; nothing was written") from None
    if as_json:
        import json

        from appraisal.present.result import result

        click.echo(json.dumps(result(appraisal), indent=1, allow_nan=False))
        return
    from appraisal.present.page import page

    click.echo(page(appraisal), nl=False)


@main.command()
@click.argument("table", required=False)
@click.argument("row", required=False)
def reference(table: str | None, row: str | None) -> None:
    """Look at the published defaults: all tables, one TABLE, or one ROW with its sources."""
    from appraisal.present.reference_text import all_tables, one_row, one_table
    from appraisal.scenario.reference import UnknownName

    try:
        click.echo(all_tables() if table is None else one_table(table) if row is None else one_row(table, row))
    except UnknownName as error:
        raise click.UsageError(str(error)) from None


@main.command()
def schema() -> None:
    """Print the JSON Schema of scenario files, for editors that check while you type."""
    import json

    from appraisal.scenario.schema import json_schema

    click.echo(json.dumps(json_schema(), indent=1))
