"""Published upper bounds of how far building projects ran over cost, for a plant of ordinary and unusual parts."""

from __future__ import annotations

# Per cent over the estimate at an early stage. Mott MacDonald, Review of Large Public Procurement in the UK (2002), used by
# the HM Treasury Green Book guidance on optimism bias: non-standard and standard buildings (read).
COST_UPPER = (51.0, 24.0)


def mixed_uplift(unusual_share: float, upper: tuple[float, float]) -> float:
    """Upper bound for a project of which a share is unusual [per cent].

    unusual_share: part of the cost of unusual kind [share]; upper: bounds of unusual and ordinary projects [per cent].
    """
    unusual, ordinary = upper
    return unusual_share * unusual + (1.0 - unusual_share) * ordinary
