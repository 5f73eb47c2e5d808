"""The grant table of score lines: what a unit of grant brings, worked out from the amounts that the other tables show."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import Appraisal
from appraisal.present.emission_tables import footed
from appraisal.present.grant_money import funds
from appraisal.present.grant_tables_plant import given_out, hours_of_work, whole_treated
from appraisal.present.grant_tables_worth import capital_of, grants_of
from appraisal.present.money_tables import money
from appraisal.present.numbers import percent, rounded
from appraisal.present.tables import Table, units_of
from appraisal.present.years import in_full_year
from appraisal.risk.material import Planned

THOUSAND, NO_GRANT = 1000, "no grant"
Row = tuple[str, ...]


def score_lines(found: Planned) -> Table:
    """What a unit of grant brings, as programmes score it, worked out from the amounts that the other tables show."""
    appraisal, asked = found.appraisal, funds(found.appraisal)
    currency, year = units_of(appraisal).currency, appraisal.plant.year
    grants, spent = int(grants_of(appraisal)), int(capital_of(appraisal))
    unit, _, treated = whole_treated(appraisal)
    per = f"a full year, per {THOUSAND:,d} {currency} of grant"
    brought = (
        ("Energy sold or used beyond the plant", given_out(appraisal), "kWh"),
        ("Greenhouse gas avoided", int(footed(appraisal).avoided[year - 1]), "t CO2e"),
        ("Manure and feeds treated", treated, unit),
    )
    rows = (
        ("Grants over capital", percent(grants / spent) if spent else "no capital", "", f"{grants:,d} / {spent:,d}"),
        _over("Other capital for each unit of grant", spent - grants, f"{spent:,d} - {grants:,d}", by=grants,
              unit=f"{currency}/{currency}"),
        *(
            _over(f"{label} in {per}", THOUSAND * amount, f"{THOUSAND:,d} x {amount:,d}", by=grants, unit=of)
            for label, amount, of in brought
        ),
        _per_job(found, grants),
        _programme_payback(appraisal, int(asked.eligible.sum())),
    )  # fmt: skip
    title = f"Score lines, project year {year} as the full year, {currency}"
    return Table(title, ("score line", "amount", "unit", "worked out from"), rows)


def _over(label: str, amount: int, said: str, *, by: int, unit: str) -> Row:
    """An amount over the grants; said: how the amount came about."""
    if not by:
        return (label, NO_GRANT, "", "")
    return (label, rounded(amount / by), unit, f"({said}) / {by:,d}")


def _per_job(found: Planned, grants: int) -> Row:
    """The grant over jobs by the stated hours of a job."""
    hours, per_job = int(hours_of_work(found.appraisal).sum()), found.loaded.scenario.labour.job_hours_per_year
    if not hours:
        return ("Grant per job", "no hours stated", "", "")
    if not grants:
        return ("Grant per job", NO_GRANT, "", "")
    amount = money(grants * per_job / hours)
    return (
        "Grant per job",
        amount,
        units_of(found.appraisal).currency,
        f"{grants:,d} / ({hours:,d} / {per_job:,.0f} hours)",
    )


def _programme_payback(appraisal: Appraisal, eligible: int) -> Row:
    """The payback of farm-energy programmes, without credits and before running costs."""
    label = "Eligible cost over a year's energy and by-products"
    back = appraisal.money.ratios.regulatory_payback_years
    if not np.isfinite(back.value[0]):
        return (label, back.words[0], "", "")
    yearly = round(in_full_year(appraisal, "energy_and_by_products"))
    return (label, f"{float(back.value[0]):.1f}", "years", f"{eligible:,d} / {yearly:,d}")
