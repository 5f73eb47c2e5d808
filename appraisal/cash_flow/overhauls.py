"""Overhauls, paid in the month in which the run hours fall due. A full-service contract holds them already."""

from appraisal.lines.define import line


@line(per="engine", when={"engine_maintenance": "routine"}, role="overhaul")
def engine_overhaul(engine_majors_due, engine_major_cost, engine_top_ends_due, engine_top_end_cost, inflation_index):
    """Overhauls [money/month]

    Major and top-end overhauls due x their cost in that year's money.
    """
    return -((engine_majors_due * engine_major_cost + engine_top_ends_due * engine_top_end_cost) * inflation_index)
