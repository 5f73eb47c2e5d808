"""The farm's accounts without the plant: what it earns, owes and owns. Used only to show the whole farm's capacity to repay."""

from __future__ import annotations

from appraisal.scenario.quantity import Section, number


class WholeFarm(Section):
    """A year of the farm's accounts without the plant; leave it out and nothing is said about the whole farm."""

    net_income_per_year: float = number(
        "money/year", -1e8, 1e8, default=0.0, label="Net farm income", help="Accrual, after depreciation and interest.")
    off_farm_income_per_year: float = number(
        "money/year", 0, 1e8, default=0.0, label="Income from off the farm", help="Wages and other income of the family.")
    depreciation_per_year: float = number(
        "money/year", 0, 1e8, default=0.0, label="Depreciation", help="In the net income above, as a positive number.")
    interest_per_year: float = number(
        "money/year", 0, 1e8, default=0.0, label="Interest on term debts", help="In the net income above.")
    living_per_year: float = number("money/year", 0, 1e8, default=0.0, label="Family living", help="What the family takes out.")
    tax_per_year: float = number("money/year", 0, 1e8, default=0.0, label="Income taxes", help="Of the whole family.")
    principal_per_year: float = number(
        "money/year", 0, 1e8, default=0.0, label="Principal due on term debts", help="As scheduled.")
    debts_amount: float = number("money", 0, 1e10, default=0.0, label="Debts", help="Of the whole farm.")
    assets_amount: float = number("money", 0, 1e10, default=0.0, label="Assets", help="Of the whole farm.")
    current_debts_amount: float = number("money", 0, 1e10, default=0.0, label="Debts due within a year",
        help="Principal due within a year included.")
    current_assets_amount: float = number("money", 0, 1e10, default=0.0, label="Current assets",
        help="Cash, stocks, what customers owe.")
