"""Working capital: customers pay later than they buy, the plant pays its bills later than it runs them up. Time, not cost."""

from appraisal.lines.define import line


@line()
def receivables(cash_income, funding_customer_days, days, last_month):
    """Owed by customers [money]

    Income of the month x days until it is paid over the days of the month; all is paid at the end of the project.
    """
    return cash_income * funding_customer_days / days * (1 - last_month)


@line()
def payables(running_costs, funding_supplier_days, days, last_month):
    """Owed to suppliers [money]

    Running costs of the month x days until they are paid over the days of the month; all is paid at the end.
    """
    return -(running_costs * funding_supplier_days / days * (1 - last_month))


@line(role="working_capital")
def working_capital_moved(receivables, previous_receivables, payables, previous_payables):
    """Paid later than earned, less paid later than owed [money/month]

    Rise of what suppliers are owed less rise of what customers owe; over the project it adds to nothing.
    """
    return (previous_receivables - receivables) - (previous_payables - payables)
