"""The whole farm with and without the plant: capacity to repay, debt over assets, current ratio."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from appraisal.lines.evaluate import MONTHS, year_sum
from appraisal.measures.arrays import FloatArray
from appraisal.measures.unit_cost import Ratio, ratio_of
from appraisal.measures.whole_farm import Capacity, FarmYear, repayment_capacity

Values = Mapping[str, FloatArray]


@dataclass(frozen=True, eq=False)
class FarmSide:
    """One side, without or with the plant: capacity [money/year], debts over assets and current ratio (draws,) [1]."""

    capacity: Capacity
    debt_to_assets: Ratio
    current_ratio: Ratio


def farm_view(values: Values, *, year: int) -> tuple[FarmSide, FarmSide]:
    """Without and with the plant.

    values: lines and inputs by full name. year: project year of the plant that is added, from 1; its debts and assets are those
    of the year's end. The plant's cash counts as current assets, next year's principal as due within a year.
    """
    farm = {
        name.removeprefix("whole_farm."): np.ravel(array)
        for name, array in values.items()
        if name.startswith("whole_farm.")
    }
    without = FarmYear(
        net_income=farm["net_income_per_year"],
        off_farm_income=farm["off_farm_income_per_year"],
        depreciation=farm["depreciation_per_year"],
        interest=farm["interest_per_year"],
        living=farm["living_per_year"],
        tax=farm["tax_per_year"],
        principal=farm["principal_per_year"],
    )
    of = {name: year_sum(values[name])[:, year - 1] for name in PLANT_FLOWS}
    together = FarmYear(
        net_income=without.net_income + of["profit_before_tax"],
        off_farm_income=without.off_farm_income,
        depreciation=without.depreciation - of["written_off"] - of["grants_earned"],
        interest=without.interest - of["interest_cost"],
        living=without.living,
        tax=without.tax - of["tax_cost"],
        principal=without.principal - of["principal_paid"],
    )
    last = year * MONTHS - 1
    debts, assets, cash = (values[name][:, last] for name in ("debts", "assets", "cash_held"))
    principal = year_sum(values["principal_paid"])
    soon = -principal[:, year] if year < principal.shape[1] else np.zeros(principal.shape[0])
    return (
        _side(without, farm, added=(0.0, 0.0, 0.0, 0.0)),
        _side(together, farm, added=(debts, assets, soon, cash)),
    )


PLANT_FLOWS = ("profit_before_tax", "written_off", "grants_earned", "interest_cost", "tax_cost", "principal_paid")
Added = tuple[float | FloatArray, float | FloatArray, float | FloatArray, float | FloatArray]


def _side(year: FarmYear, farm: Mapping[str, FloatArray], *, added: Added) -> FarmSide:
    names = ("debts_amount", "assets_amount", "current_debts_amount", "current_assets_amount")
    debts, assets, due, current = (np.atleast_1d(farm[name] + more) for name, more in zip(names, added, strict=True))
    return FarmSide(repayment_capacity(year), ratio_of(*_alike(debts, assets)), ratio_of(*_alike(current, due)))


def _alike(*arrays: FloatArray) -> list[FloatArray]:
    return [np.ascontiguousarray(array) for array in np.broadcast_arrays(*arrays)]
