"""What it costs to take hydrogen sulphide out of the gas. Costs are negative."""

from appraisal.lines.define import line


@line(when={"cleaning_iron": "yes"}, role="running_cost")
def iron_bought(iron_dosed, cleaning_iron_price_per_kg, inflation_index):
    """Iron for gas cleaning [money/month]

    Iron x its price.
    """
    return -(iron_dosed * cleaning_iron_price_per_kg * inflation_index)


@line(when={"cleaning_carbon": "yes"}, role="running_cost")
def carbon_bought(carbon_used, cleaning_carbon_price_per_kg, inflation_index):
    """Carbon for gas cleaning [money/month]

    Carbon used up x its price.
    """
    return -(carbon_used * cleaning_carbon_price_per_kg * inflation_index)


@line(role="running_cost")
def cleaning_upkeep(cleaning_upkeep_per_year, days, days_per_year, feeding, inflation_index):
    """Upkeep of gas cleaning [money/month]

    Blower, probes, dosing pump and whatever is not priced per kg.
    """
    return -(cleaning_upkeep_per_year * days / days_per_year * feeding * inflation_index)
