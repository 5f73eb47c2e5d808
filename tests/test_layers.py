"""Imports run only downwards: every import of every module is read and held against the order of the house."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "appraisal"
LAYERS: tuple[tuple[str, ...], ...] = (
    ("errors", "constants_digestion", "constants_emissions", "constants_gas", "constants", "demos", "stoichiometry",
     "whole_files"),
    ("scenario",),
    ("lines",),
    ("timeline",),
    ("technical_yield",),
    ("cash_flow",),
    ("measures",),
    ("model",),
    ("appraise",),
    ("risk",),
    ("present",),
    ("reports",),
    ("dashboard",),
    ("cli", "cli_common", "cli_drawing", "cli_explain", "cli_papers", "cli_risk"),
    ("__main__",),
)
LEVEL = {name: level for level, names in enumerate(LAYERS) for name in names}


def room(module: str) -> str | None:
    """The part of the house a dotted module name stands in; None for the package's own version line and other packages."""
    parts = module.split(".")
    return parts[1] if parts[0] == "appraisal" and len(parts) > 1 else None


def imports(text: str) -> Iterator[str]:
    """Dotted names of everything a module imports, inside functions too."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "relative imports are not used"
            yield node.module or ""
            if node.module == "appraisal":
                yield from (f"appraisal.{alias.name}" for alias in node.names if alias.name != "__version__")


def upward(own: str, text: str) -> list[str]:
    """Imports of a module in part `own` that go up the house."""
    found = [(name, room(name)) for name in imports(text)]
    return [name for name, target in found if target is not None and LEVEL[target] > LEVEL[own]]


def modules() -> Iterator[tuple[str, Path]]:
    for path in sorted(PACKAGE.rglob("*.py")):
        part = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
        if part != "__init__":
            yield part, path


@pytest.mark.parametrize(("part", "path"), [pytest.param(p, f, id=str(f.relative_to(PACKAGE))) for p, f in modules()])
def test_imports_run_downwards(part: str, path: Path) -> None:
    assert upward(part, path.read_text(encoding="utf-8")) == []


def test_an_upward_import_is_caught() -> None:
    assert upward("cash_flow", "def f():\n    from appraisal.measures.headline import headline\n") == [
        "appraisal.measures.headline"
    ]
    assert upward("scenario", "import appraisal.model") == ["appraisal.model"]
    assert upward("technical_yield", "from appraisal import model") == ["appraisal.model"]


def test_every_part_of_the_package_has_a_layer() -> None:
    assert {part for part, _ in modules()} == set(LEVEL)
