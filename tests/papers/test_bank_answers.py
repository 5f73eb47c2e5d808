"""What a banker asks first, answered on the first page; and why good futures and a ruinous bad case may both be true."""

from __future__ import annotations

import re

import pytest

from appraisal.demos import demos
from appraisal.present.bank_answers import answers, case_beside_futures, together
from appraisal.present.blocks import Note, Points, Tabled
from appraisal.present.report_bank import bank_report
from appraisal.present.report_family import family_report
from tests.papers.material_of import material_of

CHEESE = "heat_for_the_cheese_dairy"
DATE = "2026-11-26"


def test_the_first_page_answers_how_much_on_what_terms_and_what_breaks_it() -> None:
    found = material_of(CHEESE)
    said = " ".join(answers(found))
    loan = next(iter(found.loaded.scenario.loan.values()))
    single = [each for each in found.stress.cases if each.least_cover is not None and each.case.name != "all_together"]
    worst = min(each.least_cover for each in single if each.least_cover is not None)
    assert f"{loan.rate:.1%} a year over {loan.years} years" in said and f"cover is then {worst:.2f}" in said
    for words in ("Least cover of debt service", "On signed contracts only", "Cover is down to", "If it stops", "futures"):
        assert words in said, words


def test_the_combined_downside_counts_its_cases() -> None:
    found = material_of(CHEESE)
    with_figures = [each for each in found.stress.cases if each.npv is not None and each.case.name != "all_together"]
    assert int(together(found).split()[0]) == len(with_figures) - 1  # of more and less inflation the milder one stays out


def test_the_loss_of_a_contract_stands_beside_the_futures_that_do_not_hold_it() -> None:
    found = material_of(CHEESE)
    (said,) = case_beside_futures(found)
    lost = next(each for each in found.stress.cases if each.case.name == "lost_whey")
    assert lost.npv is not None and f"{lost.npv:,.0f} GBP" in said and "80% of the feed still comes" in said
    for make in (bank_report, family_report):
        assert said in [block.text for block in make(found, date=DATE).blocks if isinstance(block, Note)]


@pytest.mark.parametrize("name", demos())
def test_no_path_and_no_standard_error_stand_in_the_family_paper(name: str) -> None:
    """Paths, dates as files write them and marks of the code are for those who edit the file."""
    blocks = family_report(material_of(name), date=DATE).blocks
    texts = [text for block in blocks if isinstance(block, Points) for text in block.items]
    texts += [cell for block in blocks if isinstance(block, Tabled) for row in block.table.rows for cell in row]
    odd = re.compile(r"[a-z]_[a-z]|`|\[judging\]|\+- |\b20\d\d-\d\d\b")
    assert [text for text in texts if odd.search(text)] == []
