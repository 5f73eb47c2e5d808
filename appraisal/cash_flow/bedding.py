"""Separated solids: bedding the farm no longer buys, and solids sold."""

import numpy as np

from appraisal.lines.define import line


@line(role="evidenced_saving")
def bedding_saved(
    solids_for_bedding,
    separation_bedding_t_per_t,
    farm_now_bedding_t,
    farm_now_bedding_bill,
    days,
    days_per_year,
    inflation_index,
):
    """Bedding saved [money/month]

    The part of the bedding bill whose bedding the solids replace; never more than the bill of the month.
    """
    bought = farm_now_bedding_t * days / days_per_year
    some = bought > 0
    share = np.where(some, solids_for_bedding * separation_bedding_t_per_t / np.where(some, bought, 1), 0)
    return np.minimum(share, 1) * farm_now_bedding_bill * days / days_per_year * inflation_index


@line(role="cash_income")
def solids_sales(solids_sold, separation_solids_price_per_t, inflation_index):
    """Solids sold [money/month]

    Solids that leave the farm x price; a negative price is a cost.
    """
    return solids_sold * separation_solids_price_per_t * inflation_index
