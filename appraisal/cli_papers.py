"""The commands that make papers and compare files. No arithmetic here, and no heavy import before a command needs it."""

from __future__ import annotations

from pathlib import Path

import click

from appraisal.cli_common import demo_option, file_argument, json_option, load_all, reporting_faults, source


@click.command()
@file_argument
@demo_option
@click.option(
    "--to", "folder", type=click.Path(path_type=Path, file_okay=False), required=True, help="Folder for the files."
)
@click.option("--date", help="Date on every page, as 2026-11-26; today when left out. The same date, the same bytes.")
@click.option("--replace", is_flag=True, help="Write over papers that stand there already.")
@click.option("--pdf/--no-pdf", "as_pdf", default=None, help="PDF beside Word; made when the extra `pdf` is installed.")
@reporting_faults
def papers(
    file: Path | None, demo: str | None, folder: Path, date: str | None, replace: bool, as_pdf: bool | None
) -> None:
    """Write all papers: reports for family and bank, grant tables, assumption book, workbook, CSV of every table."""
    import datetime

    from appraisal.errors import AppraisalError, ScenarioError

    loaded = source(file, demo)
    from appraisal.reports import papers as made
    from appraisal.reports.pdf import NEEDED, pdf_there
    from appraisal.risk.material import material

    if as_pdf and not pdf_there():
        raise click.UsageError(NEEDED)
    try:
        made.refuse_what_stands(folder, replace=replace)
        day = made.checked_date(date or datetime.date.today().isoformat())
        files = made.papers(
            material(loaded),
            date=day,
            as_pdf=pdf_there() if as_pdf is None else as_pdf,
            progress=lambda name: click.echo(f"making {name}", err=True),
        )
        made.write(files, folder, replace=replace)
    except ScenarioError:
        raise
    except AppraisalError as error:
        raise click.UsageError(str(error)) from None
    click.echo(f"{len(files)} files in {folder}: {', '.join(name for name in files if '/' not in name)}, and csv/.")
    if as_pdf is None and not pdf_there():
        click.echo(NEEDED)


@click.command()
@click.argument("old", type=click.Path(path_type=Path))
@click.argument("new", type=click.Path(path_type=Path))
@click.option("--to", "folder", type=click.Path(path_type=Path, file_okay=False), help="Write it as papers and CSV too.")
@click.option("--date", help="Date on every page of them, as 2026-11-26; today when left out.")
@click.option("--replace", is_flag=True, help="Write over papers that stand there already.")
@json_option
@reporting_faults
def changes(old: Path, new: Path, folder: Path | None, date: str | None, replace: bool, as_json: bool) -> None:
    """Say what changed from the OLD file to the NEW one, and what each change does to worth and cover."""
    import datetime

    from appraisal.cli_drawing import print_either
    from appraisal.errors import AppraisalError, ScenarioError
    from appraisal.present.changes_page import changes_page
    from appraisal.present.changes_result import changes_object
    from appraisal.risk.differences import differences

    try:
        found = differences(*load_all((old, new)))
        if folder is not None:
            from appraisal.reports import papers as made

            day = made.checked_date(date or datetime.date.today().isoformat())
            made.write(made.changes_papers(found, date=day), folder, replace=replace)
    except ScenarioError:
        raise
    except AppraisalError as error:
        raise click.UsageError(str(error)) from None
    print_either(lambda: changes_page(found), lambda: changes_object(found), as_json=as_json)
