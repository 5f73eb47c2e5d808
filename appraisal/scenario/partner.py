"""Several farms build one plant: what each puts in, takes out, and who answers for what."""

from __future__ import annotations

from appraisal.scenario.quantity import Section, number, text


class Partner(Section):
    """One farm or person with a part in a shared plant."""

    label: str = text(default="", label="Who it is", help="Shown in tables instead of the short name.")
    plant_share: float = number(
        "share", 0, 1, label="Part of the plant",
        help="Of own money, loans, grants and cash; the parts of all partners are 1 together.")
    brings: str = text(
        default="", label="Herds and feeds it brings", help="Short names from [herd] and [feed], separated by commas.")
    digestate_share: float = number(
        "share", 0, 1, default=0.0, label="Part of the digestate it takes",
        help="All partners at 0: each takes its part by the tonnes it brings.")


def brought_names(partner: Partner) -> tuple[str, ...]:
    """Short names of the herds and feeds that a partner brings."""
    return tuple(name.strip() for name in partner.brings.split(",") if name.strip())
