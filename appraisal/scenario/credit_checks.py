"""One tonne is sold once: overlapping claims are a fault, unless the scenario says that the programmes allow it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from appraisal.errors import Fault
from appraisal.scenario.model import Scenario
from appraisal.scenario.reference import row

MAIN = "credits"
WORDS = {
    "manure_methane": "methane of the manure store",
    "landfill_methane": "landfill methane of leftovers",
    "power": "power that the grid need not make",
    "fuel_and_gas": "fuel and gas that are replaced",
    "fertilizer": "fertilizer that is replaced",
}
ROUNDING = 1e-9


@dataclass(frozen=True)
class _Claim:
    """One claim on one reduction: its name, its share, its programme's kind, and whom it may stand beside."""

    name: str
    share: float
    kind: str
    beside: frozenset[str]

    def agrees(self, other: _Claim) -> bool:
        """Whether either names the other as allowed."""
        return other.name in self.beside or self.name in other.beside

    def shown(self) -> str:
        """Name and share in words."""
        return f"{self.name if self.name == MAIN else f'carbon_claim.{self.name}'} ({self.share:.0%})"


def one_tonne_sold_once(scenario: Scenario) -> list[Fault]:
    """Claims on the same reduction must not come to more than all of it."""
    return [fault for of in WORDS for fault in _overlap(of, list(_claims(scenario, of)))]


def known_neighbours(scenario: Scenario) -> list[Fault]:
    """`allowed_beside` names claims that exist."""
    known = {MAIN, *scenario.carbon_claim}
    return [
        Fault(
            f"carbon_claim.{name}.allowed_beside", "no such claim", got=f'"{other}"', allowed=" or ".join(sorted(known))
        )
        for name, claim in scenario.carbon_claim.items()
        for other in sorted(_names(claim.allowed_beside) - known)
    ]


def _overlap(of: str, claims: list[_Claim]) -> list[Fault]:
    rivals = [one for one in claims if any(one is not other and not one.agrees(other) for other in claims)]
    whole = sum(claim.share for claim in rivals)
    if whole <= 1 + ROUNDING:
        return []
    last = rivals[-1]
    rule = row("credit_programmes", last.kind)["cannot_stack_with"] if last.kind else ""
    names = " and ".join(claim.shown() for claim in rivals)
    return [
        Fault(
            f"carbon_claim.{last.name}",
            f"the same tonne is sold twice: {WORDS[of]} is claimed by {names}",
            got=f"{whole:.12g} share",
            allowed="at most 1 share",
            hint=f"lower the shares, drop a claim, or name the other in allowed_beside where both programmes' rules allow it; "
            f"such a programme excludes: {rule}",
        )
    ]


def _claims(scenario: Scenario, of: str) -> Iterator[_Claim]:
    main = scenario.credits
    counted = {
        "manure_methane": True,
        "landfill_methane": main.counts_landfill == "yes",
        "power": main.counts_power == "yes",
    }
    if main.price_per_t_co2e > 0 and counted.get(of, False):
        yield _Claim(MAIN, 1.0, "", frozenset())
    for name, claim in scenario.carbon_claim.items():
        if claim.of == of and claim.claimed_share > 0:
            yield _Claim(name, claim.claimed_share, claim.kind, frozenset(_names(claim.allowed_beside)))


def _names(text: str) -> set[str]:
    return {name for part in text.split(",") if (name := part.strip().removeprefix("carbon_claim."))}
