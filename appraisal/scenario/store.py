"""The store for digestate, and the separator."""

from __future__ import annotations

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Lookup, Section, number, profile, text


class DigestateStore(Section):
    """Where digestate waits for the spreading season, and what it gives off there."""

    loss: str = text(
        default="", label="Methane loss of the store",
        help="A row of `appraisal reference project_losses` of the stage digestate store: open_store_long, open_store_short "
        "or gastight_store.")
    methane_loss_share: float = number(
        "share", 0, 1, default=0.0, lookup=Lookup(table="project_losses", column="mid", key="loss", scale=0.01),
        label="Methane that leaves the store",
        help="Of methane made. As before: none; an open store loses 1 to 15 % (from memory).")
    volume_m3: float = number(
        "m3", 0, 1e6, default=0.0, label="Volume of the store",
        help="To the rim; 0 is not stated, and nothing is held against it.")
    freeboard_share: float = number(
        "share", 0, 0.5, default=0.1, basis=PRACTICE, label="Volume that stays empty",
        help="Freeboard for storms, and what pumps cannot reach.")
    spread_share: list[float] = profile(
        "share", 0, 1, default=1.0, label="Part of the store spread in a month",
        help="Twelve months: 0 in closed months, 1 where the store is emptied (`appraisal reference closed_periods`).")
    open_area_m2: float = number(
        "m2", 0, 1e6, default=0.0, label="Open surface", help="Rain on it fills the store; 0 for a covered one.")


def _part(column: str) -> Lookup:
    return Lookup(table="separation", column=column, key="technique")


class Separation(Section):
    """A separator that parts digestate into liquid and solids. Its power stands in own_use."""

    technique: str = text(default="", label="Separator", help="A row of `appraisal reference separation`; empty is none.")
    mass_share: float = number("share", 0, 1, default=0.0, lookup=_part("solids_mass_share_mid"),
        label="Mass in the solids", help="Of the digestate.")
    ts_share: float = number("share", 0, 1, default=0.0, lookup=_part("solids_ts_share_mid"),
        label="Dry matter in the solids", help="Of the digestate's.")
    n_share: float = number("share", 0, 1, default=0.0, lookup=_part("solids_n_share_mid"),
        label="Nitrogen in the solids", help="Of the digestate's.")
    p_share: float = number("share", 0, 1, default=0.0, lookup=_part("solids_p_share_mid"),
        label="Phosphorus in the solids", help="Of the digestate's.")
    k_share: float = number("share", 0, 1, default=0.0, lookup=_part("solids_k_share_mid"),
        label="Potassium in the solids", help="Of the digestate's.")
    sold_share: float = number(
        "share", 0, 1, default=0.0, label="Solids that leave the farm", help="With their nutrients.")
    solids_price_per_t: float = number(
        "money/t", -100, 200, default=0.0, label="Price of solids", help="Negative: the farm pays to be rid of them.")
    bedding_share: float = number(
        "share", 0, 1, default=0.0, label="Solids used as bedding",
        help="They come back with the manure; screw-press solids of about 30 % dry matter, fresh or dried.")
    bedding_t_per_t: float = number(
        "t/t", 0, 3, default=0.3, basis=PRACTICE, label="Bought bedding that a tonne of solids replaces",
        help="Wet solids for dry straw: about as much as their dry matter.")
