"""The grant table of contracts: every income of the first full year, what of it is signed for, and until when."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.grant_tables_plant import of_year, whole_incomes
from appraisal.present.money_tables import money
from appraisal.present.naming import item
from appraisal.present.numbers import percent
from appraisal.present.tables import Table, units_of
from appraisal.present.words import BLANK
from appraisal.present.years import by_year
from appraisal.risk.material import Planned

SIGNED = {
    "power_sales": "power_income_signed",
    "gas_sales": "gas_income_signed",
    "heat_sales": "heat_income_signed",
    "tipping_fee": "fee_signed",
    "amount": "signed_part",
}  # end of a line's name -> end of the name of what is signed of it


def contracts(found: Planned) -> Table:
    """Cash income by kind, and what of it somebody has signed for; the paper is the applicant's to add."""
    appraisal = found.appraisal
    rows, incomes, signed = [], 0, 0
    for line, income in whole_incomes(appraisal).items():
        if not income:
            continue
        part, until = _signed(appraisal, line, income)
        rows.append(
            (_label(appraisal, line), money(income), money(part), _share(part, income), until, BLANK if part else "")
        )
        incomes, signed = incomes + income, signed + part
    rows.append(("all", money(incomes), money(signed), _share(signed, incomes), "", ""))
    head = (
        "income",
        "in the\nyear",
        "under signed\ncontracts",
        "part",
        "signed until\nproject year",
        "contract, with its date",
    )
    title = f"Income and contracts in project year {appraisal.plant.year}, {units_of(appraisal).currency}"
    return Table(title, head, tuple(rows))


def _signed(appraisal: Appraisal, line: str, income: int) -> tuple[int, str]:
    """What of an income is signed for in the first full year [money/year], and the last project year with any."""
    before, dot, last = line.rpartition(".")
    name = f"{before}{dot}{SIGNED.get(last, '')}"
    if name not in appraisal.values:
        return 0, ""
    years = np.flatnonzero(by_year(appraisal, name))
    exact, whole_of = of_year(appraisal, name), of_year(appraisal, line)
    part = income if exact == whole_of else round(exact)
    return part, str(int(years[-1]) + 1) if part else ""


def _label(appraisal: Appraisal, line: str) -> str:
    """What the income is, with the feed or contract it comes from."""
    node, parts = appraisal.plan.nodes[line], line.split(".")
    return f"{node.line.label}: {item(parts[1])}" if len(parts) > 1 else node.line.label


def _share(part: int, of: int) -> str:
    return percent(part / of) if of else ""
