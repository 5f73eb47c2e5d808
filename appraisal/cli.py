"""The command line. No arithmetic here, and no heavy import before a command needs it."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from appraisal import __version__
from appraisal.cli_common import demo_option, file_argument, json_option, reporting_faults, source
from appraisal.cli_explain import explain
from appraisal.cli_papers import changes, papers
from appraisal.cli_risk import compare, rank, simulate, stress

if TYPE_CHECKING:
    from appraisal.appraise import Appraisal
    from appraisal.present.page import Reader

FEW_DRIVERS = 3  # building costs, gas, price of energy: all ten would take half a second more


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="appraisal")
def main() -> None:
    """Does a biogas plant pay on this farm? A scenario file in, an appraisal out.

    Exit codes: 0 done, 1 not finished, 2 wrong use, 3 scenario not valid.
    """


@main.command()
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--units", type=click.Choice(["metric", "us"]), default="metric", show_default=True, help="Units shown.")
@click.option("--currency", default="EUR", show_default=True, help="Three letters.")
@click.option("--all", "everything", is_flag=True, help="Every input there is, not only what a family must give.")
@reporting_faults
def new(file: Path, units: str, currency: str, everything: bool) -> None:
    """Write a commented scenario file to start from."""
    from appraisal.scenario.starter import starter
    from appraisal.scenario.starter_short import starter_short
    from appraisal.whole_files import create

    if not re.fullmatch("[A-Z]{3}", currency):
        raise click.UsageError(f"{currency!r} is no currency: three capital letters are wanted, as EUR; nothing was written")
    text = starter if everything else starter_short
    written = text(currency=currency, display_units="us" if units == "us" else "metric")
    try:
        create(file, written.encode())
    except FileExistsError:
        raise click.UsageError(f"{file} exists; nothing was written") from None
    except OSError as error:
        raise click.UsageError(f"{file}: {error.strerror}; nothing was written") from None
    click.echo(
        f"{file} written: fill it in, then `appraisal check {file}` and `appraisal run {file}`. Its prices and sizes are "
        "invented, and with them the plan loses money: that says nothing about your farm."
    )


@main.command()
@file_argument
@demo_option
@click.option("--values", is_flag=True, help="List every value in use and where it comes from.")
@click.option("--ranges", is_flag=True, help="Offer ranges for values without one, to paste into the file.")
@click.option(
    "--estimate-class",
    type=click.Choice(["5", "4", "3", "2", "1"]),
    default="4",
    show_default=True,
    help="Of costs without a quote, for --ranges: 5 first look, 4 study, 3 quotes for the main parts, 1 contracts signed.",
)
@reporting_faults
def check(file: Path | None, demo: str | None, values: bool, ranges: bool, estimate_class: str) -> None:
    """Read a scenario and list every fault in it."""
    loaded = source(file, demo)
    origins = [assumption.origin for assumption in loaded.assumptions.values()]
    if values:
        from appraisal.present.values_text import values_text

        click.echo(values_text(loaded.assumptions.values()))
    if ranges:
        from appraisal.present.risk_offers import offers_text
        from appraisal.risk.offers import offers

        click.echo(offers_text(offers(loaded, estimate_class=estimate_class)))
    click.echo(
        f"{loaded.scenario.project.name}: valid. {origins.count('scenario')} values from the file, "
        f"{origins.count('reference')} from reference tables, {origins.count('default')} defaults, "
        f"{origins.count('computed')} worked out from others. "
        f"Fingerprint {loaded.fingerprint}."
    )


@main.command()
@file_argument
@demo_option
@json_option
@click.option("--workbook", type=click.Path(path_type=Path), help="Write a workbook of live formulas there too.")
@click.option("--monthly", is_flag=True, help="Show the first full year month by month, the worst month marked.")
@click.option("--reader", type=click.Choice(["family", "bank", "grant"]), help="Show only what this reader asks for.")
@click.option("--full", is_flag=True, help="Show everything: all years, the bank's and the grant office's tables, all findings.")
@reporting_faults
def run(
    file: Path | None,
    demo: str | None,
    as_json: bool,
    workbook: Path | None,
    monthly: bool,
    reader: Reader | None,
    full: bool,
) -> None:
    """Appraise a scenario: what it makes, earns and costs, and whether it carries its loan."""
    if full and reader is not None:
        raise click.UsageError("--full shows what all readers ask for: give it without --reader")
    from appraisal.appraise import appraise

    appraisal = appraise(source(file, demo))
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
    if full or reader is not None:
        from appraisal.present.page import page

        click.echo(page(appraisal, monthly=monthly, reader=reader), nl=False)
        return
    _print_short(appraisal, f"--demo {demo}" if file is None else str(file), monthly=monthly)


def _print_short(appraisal: Appraisal, command: str, *, monthly: bool) -> None:
    """The page for the family; `command` names the scenario as it was given."""
    from appraisal.present.short_page import short_page
    from appraisal.risk.drivers import standard_drivers
    from appraisal.risk.reverse import breaks_of_worth
    from appraisal.risk.swings import swings_to_quantiles

    loaded = appraisal.loaded
    moved = breaks_of_worth(loaded, standard_drivers(loaded)[:FEW_DRIVERS])
    swings = swings_to_quantiles(loaded) if loaded.scenario.range or loaded.scenario.wander else None
    click.echo(short_page(appraisal, command=command, breaks=moved, swings=swings, monthly=monthly), nl=False)


@main.command()
@click.argument("table", required=False)
@click.argument("row", required=False)
@reporting_faults
def reference(table: str | None, row: str | None) -> None:
    """Look at the published defaults: all tables, one TABLE, or one ROW with its sources."""
    from appraisal.present.reference_text import all_tables, one_row, one_table
    from appraisal.scenario.reference import UnknownName

    try:
        click.echo(all_tables() if table is None else one_table(table) if row is None else one_row(table, row))
    except UnknownName as error:
        raise click.UsageError(str(error)) from None


@main.command()
@click.argument("name", required=False)
@reporting_faults
def formulas(name: str | None) -> None:
    """Show every formula with its source and range of validity, or those of one line by NAME."""
    from appraisal.model import CATALOGUE
    from appraisal.present.formulas import UnknownFormulaError, one, page

    try:
        click.echo(page(CATALOGUE).rstrip() if name is None else one(CATALOGUE, name))
    except UnknownFormulaError as error:
        raise click.UsageError(str(error)) from None


@main.command()
@reporting_faults
def schema() -> None:
    """Print the JSON Schema of scenario files, for editors that check while you type."""
    import json

    from appraisal.scenario.schema import json_schema

    click.echo(json.dumps(json_schema(), indent=1))


@main.command()
@click.argument("file", required=False, type=click.Path(path_type=Path))
@click.option("--port", type=click.IntRange(1024, 65535), help="Of this computer; a free one near 8501 when left out.")
@click.option("--no-browser", is_flag=True, help="Print the address and open nothing.")
@reporting_faults
def dashboard(file: Path | None, port: int | None, no_browser: bool) -> None:
    """Open the screens for family, bank and grant office in a browser, on this computer only."""
    from appraisal.dashboard.launch import draft_of, serve
    from appraisal.scenario.load import load

    draft = None if file is None else draft_of(load(file), file)
    raise SystemExit(serve(draft, port=port, open_browser=not no_browser))


for _command in (explain, simulate, rank, stress, compare, papers, changes):
    main.add_command(_command)
