"""From an appraisal to files on disk."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from appraisal.appraise import Appraisal
from appraisal.model import paths
from appraisal.present.tables import Table
from appraisal.reports.workbook import workbook
from appraisal.scenario.model import declared
from appraisal.whole_files import create


def input_labels(appraisal: Appraisal) -> dict[str, tuple[str, str]]:
    """Label and unit of every input of a scenario by dotted path."""
    return {
        path: (item.label, item.unit)
        for pattern, item in declared().items()
        for path in paths(appraisal.structure, pattern)
    }


def workbook_bytes(appraisal: Appraisal, *, runs: Sequence[Table] = (), date: str = "") -> bytes:
    """The workbook of one appraisal, the same bytes for the same appraisal and date.

    runs: tables of results of many runs (bad cases, break-even, chances), stored on a sheet of their own.
    date: ISO, for the foot of every page; none when left out.
    """
    content, _ = workbook(
        appraisal.plan,
        inputs=appraisal.inputs,
        stored=appraisal.values,
        timeline=appraisal.timeline,
        labels=input_labels(appraisal),
        paper=appraisal,
        runs=runs,
        date=date,
    )
    return content


def export_workbook(appraisal: Appraisal, path: Path, *, runs: Sequence[Table] = ()) -> None:
    """Write the workbook of one appraisal to a new file, whole or not at all; raises OSError when that cannot be done."""
    create(path, workbook_bytes(appraisal, runs=runs))
