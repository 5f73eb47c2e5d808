"""From an appraisal to files on disk."""

from __future__ import annotations

from pathlib import Path

from appraisal.appraise import Appraisal
from appraisal.model import paths
from appraisal.reports.layout import Layout
from appraisal.reports.workbook import write_workbook
from appraisal.scenario.model import declared


def input_labels(appraisal: Appraisal) -> dict[str, tuple[str, str]]:
    """Label and unit of every input of a scenario by dotted path."""
    return {path: (item.label, item.unit) for pattern, item in declared().items() for path in paths(appraisal.structure, pattern)}


def export_workbook(appraisal: Appraisal, path: Path) -> Layout:
    """Write the traced workbook of one appraisal; raises OSError when the place cannot be written to."""
    return write_workbook(path, appraisal.plan, inputs=appraisal.inputs, stored=appraisal.values, timeline=appraisal.timeline,
                          labels=input_labels(appraisal))
