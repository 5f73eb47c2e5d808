"""What it costs to run: power, maintenance, feeds, and the named running costs. Costs are negative."""

from appraisal.lines.define import line


@line()
def inflation_index(project_inflation, years_on):
    """General rise of prices [1]

    Against month 0.
    """
    return (1 + project_inflation) ** years_on


@line(role="running_cost")
def plant_power_bought(power_bought, power_bought_price_per_kwh, bought_power_index):
    """Power bought for the plant [money/month]

    While the engine stands.
    """
    return -(power_bought * power_bought_price_per_kwh * bought_power_index)


@line(per="engine", role="running_cost")
def engine_upkeep(engine_power, engine_maintenance_per_kwh, inflation_index):
    """Engine maintenance [money/month]

    Gross kWh x price; a full-service price holds the overhauls.
    """
    return -(engine_power * engine_maintenance_per_kwh * inflation_index)


@line(per="engine", when={"engine_failure": "counted"}, role="running_cost")
def engine_failure_paid(engine_failure_begins, engine_failure_cost, inflation_index):
    """Failure of the engine [money/month]

    Repair or exchange, in the month in which it fails; what an insurance pays is off already.
    """
    return -(engine_failure_begins * engine_failure_cost * inflation_index)


@line(per="substrate", role="running_cost")
def substrate_haul(substrate_delivered, substrate_haul_cost_per_t, inflation_index):
    """Haul of the feed [money/month]

    As far as the plant pays it.
    """
    return -(substrate_delivered * substrate_haul_cost_per_t * inflation_index)


@line(per="substrate", when={"substrate_origin": "feed"}, role="running_cost")
def substrate_reject_disposal(
    substrate_delivered, substrate_reject_share, substrate_reject_cost_per_t, inflation_index
):
    """Disposal of rejects [money/month]

    Packaging and other rejects x cost per tonne.
    """
    return -(substrate_delivered * substrate_reject_share * substrate_reject_cost_per_t * inflation_index)


@line(per="running_cost", role="running_cost")
def running_cost_paid(
    running_cost_per_year,
    days,
    days_per_year,
    feeding,
    running_cost_per_t_fed,
    tonnes_fed,
    running_cost_per_kwh,
    power_gross,
    running_cost_per_kw_year,
    rated_power,
    running_cost_share_of_capital_per_year,
    building_cost,
    running_cost_escalation,
    years_on,
):
    """Running cost [money/month]

    Fixed part, parts per rated kW and of the capital, part per tonne fed and part per gross kWh, with its own yearly rise.
    """
    by_size = running_cost_per_kw_year * rated_power + running_cost_share_of_capital_per_year * building_cost
    amount = (
        (running_cost_per_year + by_size) * days / days_per_year * feeding
        + running_cost_per_t_fed * tonnes_fed
        + running_cost_per_kwh * power_gross
    )
    return -(amount * (1 + running_cost_escalation) ** years_on)
