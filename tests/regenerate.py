"""Writes the generated parts of README.md and DEVELOPERS.md, and the formula page: `python -m tests.regenerate`.

A test keeps them current.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from appraisal.demos import demos
from appraisal.lines.line_map import line_map
from appraisal.model import CATALOGUE
from appraisal.present import formulas
from appraisal.present.words import cautions
from appraisal.scenario.load import load

ROOT = Path(__file__).parents[1]


def parts() -> Mapping[str, Mapping[str, str]]:
    """Generated text by file and marker."""
    farms = "\n".join(f"| `{name}` | {load(path).scenario.project.note} |" for name, path in demos().items())
    return {
        "README.md": {
            "demos": f"| demo | farm |\n|---|---|\n{farms}",
            "cautions": "\n".join(f"- {sentence}" for sentence in cautions("readme").sentences),
        },
        "DEVELOPERS.md": {"lines": line_map(CATALOGUE)},
    }


def pages() -> Mapping[str, str]:
    """Files that are generated whole."""
    return {"appraisal/present/formulas.md": formulas.page(CATALOGUE)}


def renewed(text: str, generated: Mapping[str, str]) -> str:
    """The text with every generated part put between its markers."""
    for name, body in generated.items():
        head, start, rest = text.partition(f"<!-- {name} -->\n")
        _, end, tail = rest.partition(f"<!-- end {name} -->")
        assert start and end, f"marker {name} is missing"
        text = f"{head}{start}{body}\n{end}{tail}"
    return text


if __name__ == "__main__":
    for file, generated in parts().items():
        path = ROOT / file
        path.write_text(renewed(path.read_text(encoding="utf-8"), generated), encoding="utf-8")
    for file, whole in pages().items():
        (ROOT / file).write_text(whole, encoding="utf-8")
