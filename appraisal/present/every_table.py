"""Every table of one scenario under its fixed name: what the folder of CSV files holds."""

from __future__ import annotations

from appraisal.present import design_sheet, future_tables, loan_tables, money_tables, report_bank, risk_tables, tables
from appraisal.present.assumption_book import book_table, counts, entries
from appraisal.present.grant_tables import grant_tables
from appraisal.present.partner_tables import partners_tables
from appraisal.present.tables import Table
from appraisal.risk.material import Material

OF_MANY_RUNS = (
    *("cover_in_three", "bad_cases", "breaks", "swings_by_a_tenth", "swings_by_range"),
    *("futures", "futures_events", "futures_by_year"),
)


def tables_of_many_runs(found: Material) -> tuple[Table, ...]:
    """Tables that take many runs: what a workbook can only hold as stored results."""
    made = every_table(found)
    return tuple(made[name] for name in OF_MANY_RUNS if name in made)


def every_table(found: Material) -> dict[str, Table]:
    """All tables of plant, money, risk, grant and assumptions, by fixed name."""
    appraisal, plan = found.appraisal, found.stress.plan
    made = {
        "plant": tables.plant_table(appraisal),
        "feeds": tables.feeds_table(appraisal),
        "farm_now": tables.farm_now_table(appraisal),
        "money_by_year": tables.money_table(appraisal),
        "sources_and_uses": tables.funding_table(appraisal),
        "loans": loan_tables.loans_table(appraisal),
        "cover": money_tables.cover_table(appraisal),
        "order_of_payments": loan_tables.order_table(appraisal),
        "cover_in_three": report_bank.cover_in_three(found),
        "income_signed_for": report_bank.signed_share(appraisal),
        "income_statement": money_tables.income_table(appraisal),
        "profit_to_cash": money_tables.profit_to_cash_table(appraisal),
        "balance_sheet": money_tables.balance_table(appraisal),
        "if_it_stops": money_tables.stop_table(appraisal),
        "measures": money_tables.views_table(appraisal),
        "unit_costs": money_tables.unit_cost_table(appraisal),
        "checks": money_tables.checks_table(appraisal),
        "findings": tables.findings_table(appraisal),
        "bad_cases": risk_tables.stress_table(found.stress),
        "breaks": risk_tables.break_table(
            found.loaded, found.breaks, plan_cover=plan.least_cover, plan_npv=plan.npv or 0.0
        ),
        "swings_by_a_tenth": risk_tables.swing_table(found.loaded, found.by_share),
    }
    if found.by_range is not None:
        made["swings_by_range"] = risk_tables.swing_table(found.loaded, found.by_range)
    if found.futures is not None:
        made["futures"] = future_tables.spread_table(found.futures)
        if found.futures.events:
            made["futures_events"] = future_tables.event_table(found.futures)
        made["futures_by_year"] = future_tables.fan_table(found.futures)
    made |= {f"design_{place}": table for place, table in enumerate(design_sheet.design_tables(appraisal), start=1)}
    made |= {f"partners_{place}": table for place, table in enumerate(partners_tables(appraisal), start=1)}
    made |= {f"grant_{name}": table for name, table in grant_tables(found).items()}
    return {**made, "assumption_book": book_table(found), "assumption_counts": counts(entries(found))}
