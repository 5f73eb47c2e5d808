"""Grants: how much, when they are paid, and the loan that carries them until then."""

import numpy as np

from appraisal.lines.define import line


@line(per="grant")
def grant_counts_from(eligible_cost, month_number, grant_eligible_from_month):
    """Cost the grant may count [money/month]

    Eligible cost paid from the eligible start on; what was paid before it is lost to the grant.
    """
    return eligible_cost * np.where(month_number >= grant_eligible_from_month, 1, 0)


@line(per="grant")
def grant_promised(grant_share_of_eligible, life_sum_grant_counts_from, grant_at_most):
    """Grant in all [money]

    Share of the eligible cost, at most the largest amount.
    """
    return np.minimum(grant_share_of_eligible * life_sum_grant_counts_from, grant_at_most)


@line(per="grant", when={"grant_paid": "at_once"}, roll="grant")
def grant_paid_so_far__at_once(grant_promised, month_number, grant_arrives_in_month):
    """Grant paid so far [money]

    All of it from its month of payment on.
    """
    return grant_promised * np.where(month_number >= grant_arrives_in_month, 1, 0)


@line(per="grant", when={"grant_paid": "by_claims"})
def grant_claimed(
    month_number, grant_first_claim_month, grant_claim_every_months, grant_arrives_in_month, rounding_tolerance
):
    """A claim is paid [1]

    1 in the months of the claims before the last.
    """
    since = month_number - grant_first_claim_month
    whole = np.floor(since / grant_claim_every_months + rounding_tolerance) * grant_claim_every_months
    return (
        np.where(np.equal(whole, since), 1, 0)
        * np.where(since >= 0, 1, 0)
        * np.where(month_number < grant_arrives_in_month, 1, 0)
    )


@line(per="grant", when={"grant_paid": "by_claims"})
def grant_earned_so_far(grant_share_of_eligible, cumulative_grant_counts_from, grant_counts_from, grant_promised):
    """Grant earned by payments made before this month [money]

    Share of the eligible cost paid so far, at most the grant in all.
    """
    return np.minimum(grant_share_of_eligible * (cumulative_grant_counts_from - grant_counts_from), grant_promised)


@line(per="grant", when={"grant_paid": "by_claims"}, roll="grant")
def grant_paid_so_far__by_claims(
    previous_grant_paid_so_far,
    grant_earned_so_far,
    grant_claimed,
    grant_retention_share,
    grant_promised,
    month_number,
    grant_arrives_in_month,
):
    """Grant paid so far [money]

    Claims pay what was earned less what is held back; all of it from the final payment on.
    """
    claims = np.maximum(previous_grant_paid_so_far, grant_earned_so_far * (1 - grant_retention_share) * grant_claimed)
    return np.where(month_number >= grant_arrives_in_month, grant_promised, claims)


@line(per="grant", role="grant")
def grant_received(grant_paid_so_far, previous_grant_paid_so_far):
    """Grant received [money/month]

    In the months in which it is paid.
    """
    return grant_paid_so_far - previous_grant_paid_so_far


@line(when={"funding_bridge": "until_grants"})
def bridge_owed(
    funding_bridge_share,
    life_sum_grants,
    cumulative_grants,
    cumulative_investment,
    life_sum_investment,
    rounding_tolerance,
):
    """Bridge loan owed [money]

    Part of the grants that the capital paid so far has earned and nobody has paid yet; nothing once the last grant is in.
    """
    spent = cumulative_investment / np.where(life_sum_investment < 0, life_sum_investment, -1)
    waiting = np.minimum(life_sum_grants * spent, life_sum_grants) - cumulative_grants
    to_come = life_sum_grants - cumulative_grants
    open_still = np.where(to_come > rounding_tolerance * life_sum_grants, 1, 0)
    return funding_bridge_share * np.maximum(waiting, 0) * open_still


@line(when={"funding_bridge": "until_grants"}, role="bridge")
def bridge_drawn(bridge_owed, previous_bridge_owed):
    """Bridge loan drawn or paid back [money/month]

    Change of what is owed; paid back when the grants arrive.
    """
    return bridge_owed - previous_bridge_owed


@line(when={"funding_bridge": "until_grants"}, role="bridge_interest")
def bridge_interest(previous_bridge_owed, funding_bridge_rate, months_per_year):
    """Interest on the bridge loan [money/month]

    A twelfth of the yearly rate on what was owed at the start of the month.
    """
    return -(previous_bridge_owed * funding_bridge_rate / months_per_year)


@line()
def bridge_cost_while_building(bridge_interest_paid, building):
    """Interest on the bridge loan while building [money/month]

    Before the first feeding; negative.
    """
    return bridge_interest_paid * building
