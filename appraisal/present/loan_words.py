"""How large a loan the plan carries, in words."""

from __future__ import annotations

from appraisal.present.risk_words import units_of
from appraisal.present.words import Passage
from appraisal.risk.drivers import LOANS
from appraisal.risk.reverse import Break
from appraisal.scenario.load import Loaded


def largest_loan(found: tuple[Break, ...], loaded: Loaded) -> Passage | None:
    """The largest loans, all in their planned proportion, with which least cover meets its target; None without stated loans."""
    each = next((each for each in found if each.driver.patterns[0] in LOANS and each.measure == "least_cover"), None)
    loans = loaded.scenario.loan.values()
    if each is None or not loans or any(loan.size != "amount" for loan in loans):
        return None
    units, planned = units_of(loaded), sum(loan.amount for loan in loans)
    if each.move is None:
        low, high = (planned * (1 + end) for end in each.tried)
        told = f"No loan of {units.money(low)} to {units.money(high)} brings the least cover to {each.limit:.2f}."
    else:
        told = (
            f"Loans of {units.money(planned * (1 + each.move))} in all bring the least cover to {each.limit:.2f}; "
            f"{units.money(planned)} are planned. The rest is own money."
        )
    return Passage("The largest loan", (told,))
