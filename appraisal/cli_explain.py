"""The command that says how a figure was made."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from appraisal.cli_common import NOT_VALID, demo_option, json_option, reporting_faults, source


@click.command()
@click.argument("words", nargs=-1, required=True, metavar="[FILE] LINE")
@demo_option
@click.option("--year", type=int, help="Project year, from 1; the first full year when left out.")
@click.option("--all", "every", is_flag=True, help="List every input below it, not only the nearest.")
@json_option
@reporting_faults
def explain(words: tuple[str, ...], demo: str | None, year: int | None, every: bool, as_json: bool) -> None:
    """How was a figure made? LINE of a scenario FILE: meaning, equation, what went in, down to the inputs.

    Lines have names as `appraisal formulas` lists them, those of an item its full name: `power_sales`,
    `substrate.milkers.manure`. Inputs have their dotted paths: `judging.discount_rate`.
    """
    from appraisal.appraise import appraise
    from appraisal.present.explanation import UnknownLineError, explanation
    from appraisal.present.explanation_text import explanation_object, explanation_page

    *files, name = words
    if len(files) > 1:
        raise click.UsageError("give one scenario FILE and one LINE, or --demo NAME and one LINE")
    appraisal = appraise(source(Path(files[0]) if files else None, demo))
    try:
        told = explanation(appraisal, name, year=appraisal.plant.year if year is None else year)
    except UnknownLineError as error:
        click.echo(str(error), err=True)
        sys.exit(NOT_VALID)
    if as_json:
        import json

        click.echo(json.dumps(explanation_object(told), indent=1, allow_nan=False))
    else:
        click.echo(explanation_page(told, every=every), nl=False)
