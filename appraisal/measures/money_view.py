"""Everything about the money beyond the headline, gathered for one or many cases."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from appraisal.measures.arrays import FloatArray
from appraisal.measures.bank_view import BankView, bank_view
from appraisal.measures.checks import Checked, checks
from appraisal.measures.farm_view import FarmSide, farm_view
from appraisal.measures.headline import full_years
from appraisal.measures.stopping import StopRule, stop_rule
from appraisal.measures.views import Ratios, UnitCosts, View, ratios, unit_costs, views

Values = Mapping[str, FloatArray]


@dataclass(frozen=True, eq=False)
class MoneyView:
    """Measures from every side, unit costs, ratios, a lender's measures, the stop rule, the whole farm, and the checks.

    farm: without and with the plant in the year asked for, None when the scenario gives no accounts of the farm.
    """

    views: tuple[View, ...]
    unit_costs: UnitCosts
    ratios: Ratios
    bank: BankView
    stop: StopRule
    farm: tuple[FarmSide, FarmSide] | None
    checks: tuple[Checked, ...]


def money_view(values: Values, *, year: int) -> MoneyView:
    """Work out all of it.

    values: lines and inputs by full name. year: project year in which the plant is added to the whole farm, from 1.
    """
    accounts = [array for name, array in values.items() if name.startswith("whole_farm.")]
    return MoneyView(
        views=views(values),
        unit_costs=unit_costs(values),
        ratios=ratios(values),
        bank=bank_view(values, full=full_years(values)),
        stop=stop_rule(values),
        farm=farm_view(values, year=year) if any(array.any() for array in accounts) else None,
        checks=checks(values),
    )
