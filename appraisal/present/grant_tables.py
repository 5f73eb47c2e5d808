"""All grant tables under their fixed names, which are also the names of files and sheets."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from appraisal.present import grant_tables_case as case
from appraisal.present import grant_tables_contracts as contracts
from appraisal.present import grant_tables_factors as factors
from appraisal.present import grant_tables_land as land
from appraisal.present import grant_tables_money as money
from appraisal.present import grant_tables_plant as plant
from appraisal.present import grant_tables_scores as scores
from appraisal.present import grant_tables_worth as worth
from appraisal.present.tables import Table
from appraisal.risk.material import Material

TABLES: Mapping[str, Callable[[Material], Table]] = {
    "applicant": case.applicant,
    "budget": money.budget,
    "budget_by_category": money.budget_by_category,
    "who_pays": money.who_pays,
    "funding_match": money.funding_match,
    "grant_rules": money.grant_rules,
    "claims_and_cash": money.claims_and_cash,
    "energy": plant.energy,
    "energy_history": plant.energy_history,
    "greenhouse_gases": plant.greenhouse_gases,
    "greenhouse_gases_by_year": plant.greenhouse_gases_by_year,
    "emission_factors": factors.emission_factors,
    "tonnes": plant.tonnes,
    "nutrients": land.nutrients,
    "land": land.land,
    "waste": plant.waste,
    "contracts": contracts.contracts,
    "jobs": plant.jobs,
    "milestones": case.milestones,
    "risk_register": case.risk_register,
    "economics": worth.economics,
    "smallest_grant": worth.smallest_grant,
    "score_lines": scores.score_lines,
    "assumptions": case.assumptions,
}


def grant_tables(found: Material) -> dict[str, Table]:
    """Every grant table by its fixed name, in the order of a request."""
    return {name: make(found) for name, make in TABLES.items()}
