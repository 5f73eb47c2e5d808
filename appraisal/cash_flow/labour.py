"""Work: hours by task, calls at night, a stand-in; the family's hours shown both unpaid and at the hired wage."""

from appraisal.lines.define import line
from appraisal.lines.trace import total


@line(per="task")
def task_hours_all(
    task_hours_per_week,
    weeks_per_year,
    task_hours_per_year,
    days,
    days_per_year,
    feeding,
    task_hours_per_t_fed,
    tonnes_fed,
):
    """Hours of the task [hour/month]

    By week, by year and by tonne fed.
    """
    by_time = (task_hours_per_week * weeks_per_year + task_hours_per_year) * days / days_per_year * feeding
    return by_time + task_hours_per_t_fed * tonnes_fed


@line(per="task", when={"task_done_by": "hired"})
def task_hired_hours__hired(task_hours_all):
    """Hired hours of the task [hour/month]

    All of them.
    """
    return task_hours_all


@line(per="task", when={"task_done_by": "family"})
def task_hired_hours__family(task_hours_all):
    """Hired hours of the task [hour/month]

    None: the family does it.
    """
    return 0 * task_hours_all


@line()
def stand_in_hours(labour_family_hours_per_week, labour_stand_in_weeks_per_year, days, days_per_year, feeding):
    """Hours of a stand-in [hour/month]

    Somebody hired does the family's weekly hours while it is away.
    """
    return labour_family_hours_per_week * labour_stand_in_weeks_per_year * days / days_per_year * feeding


@line()
def night_hours(labour_night_calls_per_year, labour_night_call_hours, days, days_per_year, feeding):
    """Hours of calls at night [hour/month]

    The family gets up.
    """
    return labour_night_calls_per_year * labour_night_call_hours * days / days_per_year * feeding


@line()
def hired_hours(
    labour_hired_hours_per_week, weeks_per_year, days, days_per_year, feeding, each_task_hired_hours, stand_in_hours
):
    """Hired hours [hour/month]

    By week, tasks given to hired people, and the stand-in.
    """
    by_week = labour_hired_hours_per_week * weeks_per_year * days / days_per_year * feeding
    return by_week + total(each_task_hired_hours) + stand_in_hours


@line()
def family_hours(
    labour_family_hours_per_week,
    weeks_per_year,
    days,
    days_per_year,
    feeding,
    each_task_hours_all,
    each_task_hired_hours,
    night_hours,
    stand_in_hours,
):
    """Family hours [hour/month]

    By week, tasks the family does, and calls at night, less what a stand-in does.
    """
    by_week = labour_family_hours_per_week * weeks_per_year * days / days_per_year * feeding
    by_task = total(each_task_hours_all) - total(each_task_hired_hours)
    return by_week + by_task + night_hours - stand_in_hours


@line()
def wage_index(labour_escalation, years_on):
    """Rise of wages [1]

    Against month 0.
    """
    return (1 + labour_escalation) ** years_on


@line(role="running_cost")
def hired_labour(hired_hours, labour_hired_wage_per_hour, wage_index):
    """Hired labour [money/month]

    Hired hours x wage; family hours are shown apart and not paid here.
    """
    return -(hired_hours * labour_hired_wage_per_hour * wage_index)


@line()
def family_labour_at_hired_wage(family_hours, labour_hired_wage_per_hour, wage_index):
    """Family hours at the hired wage [money/month]

    What the family's unpaid hours would cost; in no total, shown beside the result.
    """
    return -(family_hours * labour_hired_wage_per_hour * wage_index)
