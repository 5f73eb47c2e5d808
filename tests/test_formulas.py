"""The formula page: every line with unit, meaning and source; an equation that is the line; the command that shows it."""

from __future__ import annotations

import ast
import re

import numpy as np
import pytest
from click.testing import CliRunner

from appraisal.cli import main
from appraisal.constants import CONSTANTS
from appraisal.lines.define import Line
from appraisal.model import CATALOGUE
from appraisal.present import formulas

LINES = [line for variants in CATALOGUE.lines.values() for line in variants]
PHYSICS = [line for line in LINES if line.body.__module__.startswith("appraisal.technical_yield")]
PAGE = formulas.page(CATALOGUE)
# Powers and exponentials that are plain arithmetic of compounding and rest on no publication.
COMPOUNDING = {"grid_factor"}
# Relations known to come from publications, whatever their algebra.
PUBLISHED = {
    "ammonia_pka",
    "free_ammonia_share_low",
    "free_ammonia_share_high",
    "substrate_left_in_one_pass",
    "rate_factor",
    "growth_rate",
    "growth_conversion",
    "kinetic_term",
    "substrate_baseline_methane",
    "stored_gas_dry_share",
    "vapour_mass",
}


def named(line: Line) -> str:
    return f"{line.name}{'__' * bool(line.variant)}{line.variant}"


@pytest.mark.parametrize("line", PHYSICS, ids=named)
def test_every_line_of_the_physics_names_unit_and_meaning(line: Line) -> None:
    assert line.label.strip() and line.unit.strip() and len(line.meaning) >= len("None.")


def test_lines_that_rest_on_publications_name_their_source() -> None:
    """A power or an exponential is never plain bookkeeping; it, and what is listed above, must say where it comes from."""
    curved = [line for line in PHYSICS if re.search(r"\^|EXP\(", formulas.equation(line)) and line.name not in COMPOUNDING]
    listed = [line for line in PHYSICS if line.name in PUBLISHED and not formulas.equation(line).startswith("0 * ")]
    assert {line.name for line in listed} == PUBLISHED and len(curved) > 10
    assert [named(line) for line in curved + listed if formulas.source(line) == formulas.ARITHMETIC] == []


def bare(a, b):
    """Bare [1]

    A relation that names nothing.
    """
    return a**b


def sourced(a, b):
    """Sourced [1]

    A relation. Valid 0 to 50 degC.
    Source: somebody 1975.
    """
    return a**b + 0 * a


def test_a_line_without_a_source_is_seen() -> None:
    from appraisal.lines.define import read

    plain, good = (read(body, {}) for body in (bare, sourced))
    assert formulas.source(plain) == formulas.ARITHMETIC
    assert formulas.source(good) == "somebody 1975"
    assert formulas.parted(good)[2] == "0 to 50 degC"
    assert formulas.equation(plain) == "a^b"


def test_page_has_every_definition_once_in_the_chapter_of_its_module() -> None:
    chapters = dict(zip(*[iter(re.split(r"^## (.+)$", PAGE, flags=re.MULTILINE)[1:])] * 2, strict=True))
    for line in LINES:
        here = chapters[line.body.__module__.removeprefix("appraisal.")]
        assert here.count(f"**`{named(line)}`**") == 1, named(line)
    entries = [part for part in PAGE.split("\n\n") if part.startswith("**`")]
    assert len(entries) == len(LINES)
    assert all("  \nSource: " in entry and entry.count("\n") >= 3 for entry in entries)
    assert all(f"- `{constant.name}` = " in chapters["Constants"] for constant in CONSTANTS)


FUNCTIONS = {"IF": np.where, "MIN": np.minimum, "MAX": np.maximum, "INT": np.floor, "EXP": np.exp, "LN": np.log, "SQRT": np.sqrt}


def worked_out(text: str, names: dict[str, np.ndarray]) -> np.ndarray:
    """Value of an equation as printed, read by Python's own arithmetic."""
    text = re.sub(r"sum of (\w+)", r"(\1)", text).replace("^", "**")
    text = re.sub(r"(?<![<>=])=(?!=)", "==", text)
    with np.errstate(all="ignore"):
        return np.asarray(eval(compile(ast.parse(text, mode="eval"), "", "eval"), {**FUNCTIONS, **names}))


def test_printed_equations_give_what_the_lines_give() -> None:
    """Random numbers into both: brackets taken away must not change the value."""
    rng, compared = np.random.default_rng(5), 0
    for line in LINES:
        text = formulas.equation(line)
        if "INDEX" in text:
            continue
        names = {name: rng.uniform(0.2, 3, (1, 7)) for name in line.arguments}
        lists = [[array] if name.startswith(("each_", "all_")) else array for name, array in names.items()]
        with np.errstate(all="ignore"):
            want = np.asarray(line.body(*lists), dtype=float)
        np.testing.assert_allclose(worked_out(text, names).astype(float), want, rtol=1e-9, err_msg=named(line))
        compared += 1
    assert compared > 0.9 * len(LINES)


def test_command_shows_one_line_and_asks_back_for_an_unknown_name() -> None:
    runner = CliRunner()
    shown = runner.invoke(main, ["formulas", "free_ammonia_share_high"])
    assert shown.exit_code == 0 and "Emerson et al. 1975" in shown.output and "technical" not in shown.output
    assert "1 / (1 + acid_scale_base^(ammonia_pka - digester_ph_high))" in shown.output
    wrong = runner.invoke(main, ["formulas", "free_amonia_share_high"])
    assert wrong.exit_code == 2 and "did you mean" in wrong.output and "free_ammonia_share_high" in wrong.output
    assert runner.invoke(main, ["formulas"]).output == PAGE
