"""What a lender counts as signed."""

from __future__ import annotations

import numpy as np

from appraisal.appraise import appraise
from appraisal.demos import demos
from appraisal.scenario.load import loads


def test_signed_heat_counts_for_the_lender_until_its_term_ends() -> None:
    """Fifteen years of 12 months from the first feeding; without a signature none of it counts."""
    text = demos()["heat_for_the_cheese_dairy"].read_text(encoding="utf-8")
    signed, not_signed = (
        appraise(loads(text.replace('sold_signed = "yes"', f'sold_signed = "{said}"'))) for said in ("yes", "no")
    )
    sold = signed.values["heat_sales"][0]
    begins = int(np.flatnonzero(signed.values["feeding"][0])[0])
    more = signed.values["signed_income"][0] - not_signed.values["signed_income"][0]
    assert sold[begins : begins + 180].sum() > 10_000
    np.testing.assert_allclose(more[: begins + 180], sold[: begins + 180], atol=1e-6)
    assert not more[begins + 180 :].any() and sold[begins + 180 :].any()
    assert signed.headline.npv[0] == not_signed.headline.npv[0]
