"""The result as one plain mapping, in SI and project years: what `--json` prints. Pure functions of an appraisal."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

import numpy as np

from appraisal import __version__
from appraisal.appraise import Appraisal
from appraisal.measures.arrays import Measured
from appraisal.measures.headline import VIEW, Headline
from appraisal.present.design_sheet import design_months
from appraisal.present.emission_tables import emissions_object
from appraisal.present.measure_units import measure_units
from appraisal.present.money_result import money_object
from appraisal.present.partner_tables import partners_object
from appraisal.present.years import by_year

SCHEMA = 1
TOTALS = ("cash_available_for_debt_service", "debt_service", "net_cash")


def result(appraisal: Appraisal) -> dict[str, Any]:
    """The agreed object: schema, version, scenario, plant, yearly, measures, cautious, the money, units, emissions,
    design_months, findings.

    Gas in Nm3, energy in kWh, mass in t or kg, money in the scenario's currency, inflow positive. A measure that is
    missing is null beside its status in words.
    """
    project = appraisal.loaded.scenario.project
    return {
        "schema": SCHEMA,
        "version": __version__,
        "scenario": {
            "name": project.name,
            "currency": project.currency,
            "display_units": project.display_units,
            "fingerprint": appraisal.loaded.fingerprint,
            "first_month": project.first_month,
        },
        "plant": asdict(appraisal.plant),
        "yearly": yearly(appraisal),
        "measures": {"view": VIEW, **measures(appraisal.headline)},
        "cautious": cautious(appraisal),
        **money_object(appraisal),
        "units": measure_units(project.currency),
        "partners": partners_object(appraisal),
        "emissions": emissions_object(appraisal),
        "design_months": design_months(appraisal),
        "lines": {
            name: {"label": node.label, "unit": node.line.unit, "sheet": node.line.sheet}
            for name, node in appraisal.plan.nodes.items()
            if node.line.role
        },
        "findings": [asdict(finding) for finding in appraisal.findings],
    }


def money_lines(appraisal: Appraisal) -> tuple[str, ...]:
    """Full names of all lines that are money and counted in a total, in sheet order."""
    return tuple(name for name, node in appraisal.plan.nodes.items() if node.line.role)


def yearly(appraisal: Appraisal) -> list[dict[str, Any]]:
    """One mapping a project year: every money line, the totals, and the cover with its status."""
    cover = appraisal.headline.cover
    words = np.array(cover.words).reshape(cover.value.shape)[0]
    sums = {name: by_year(appraisal, name) for name in (*money_lines(appraisal), *TOTALS)}
    tax = by_year(appraisal, "taxes")
    return [
        {
            "year": year + 1,
            **{name: float(row[year]) for name, row in sums.items()},
            "tax": float(tax[year]),
            "dscr": {"value": number(cover.value[0, year]), "status": str(words[year])},
        }
        for year in range(appraisal.timeline.years)
    ]


def cautious(appraisal: Appraisal) -> dict[str, Any] | None:
    """The measures with the declared gas cut, null when no operating limit says stop and ask."""
    second = appraisal.cautious
    if second is None:
        return None
    return {
        "because": list(second.because),
        "gas_cut_share": second.gas_cut_share,
        "reason": second.reason,
        **measures(second.headline),
    }


def measures(head: Headline) -> Mapping[str, Any]:
    """The headline measures of one case."""
    least = head.dscr_min
    return {
        "npv": float(head.npv[0]),
        **{
            name: measured(getattr(head, name))
            for name in (
                "irr",
                "mirr",
                "payback_years",
                "discounted_payback_years",
                "levelised_cost_per_kwh",
                "benefit_cost_ratio",
            )
        },
        "dscr_min": {**measured(least), "year": None if number(least.year[0]) is None else int(least.year[0])},
        "dscr_average": {"value": number(least.average[0]), "status": least.words[0]},
    }


def measured(measure: Measured) -> dict[str, Any]:
    """Value and status of the first draw."""
    return {"value": number(measure.value[0]), "status": measure.words[0]}


def number(value: float) -> float | None:
    """A finite number, or None where there is none."""
    return float(value) if np.isfinite(value) else None
