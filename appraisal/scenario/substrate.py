"""What manure and outside feeds have in common: the contents of a tonne, and the gas it can give."""

from __future__ import annotations

from typing import Literal

from appraisal.scenario.farm import PRACTICE
from appraisal.scenario.quantity import Lookup, Section, choice, count, number, text


def of_row(column: str, scale: float = 1.0) -> Lookup:
    """A default from the row of table feedstocks that the item names in `like`."""
    return Lookup(table="feedstocks", column=column, key="like", scale=scale)


class Substrate(Section):
    """Fields that manure and outside feeds share: what is in a tonne, and the gas it can give."""

    like: str = text(default="", label="Most like, in the library",
        help="The row of the library (`appraisal reference feedstocks`) that fills in what is not given here.")
    potential_kind: Literal["ultimate", "ordinary_test", "achieved"] = choice(
        "ultimate", "ordinary_test", "achieved", default="ordinary_test", label="Kind of methane potential",
        help="ultimate: all the feed can ever give; ordinary_test: from a 30 to 60 day laboratory test; achieved: yield per "
        "tonne already reached at a plant, never multiplied by a conversion again.")
    ts_share: float = number(
        "share", 0.001, 1, lookup=of_row("ts_pct", 0.01), label="Dry matter", help="Dry matter over fresh mass.")
    vs_share_of_ts: float = number(
        "share", 0.05, 1, lookup=of_row("vs_pct_of_ts", 0.01), label="Volatile solids in the dry matter",
        help="What burns off over dry matter; the rest is ash, sand and salt.")
    potential_from: Literal["own", "table", "lab_and_table"] = choice(
        "own", "table", "lab_and_table", default="own", label="Where the methane potential comes from",
        help="own: the figure below, or the middle of the reference row where it is left out; table: the middle of the row "
        "and no other; lab_and_table: the laboratory result below weighed against the row.")
    potential_nm3_per_t_vs: float = number(
        "Nm3/t VS", 0, 1100, lookup=of_row("bmp_mid"), label="Methane potential",
        help="Methane, not biogas, per tonne of volatile solids.")
    lab_mean_nm3_per_t_vs: float = number(
        "Nm3/t VS", 0, 1100, default=0.0, label="Laboratory result: mean",
        help="Mean of all tests of your own feed, by ordinary tests. Used only when the potential is from lab_and_table.")
    lab_sd_nm3_per_t_vs: float = number(
        "Nm3/t VS", 0, 500, default=0.0, label="Laboratory result: standard deviation of one test",
        help="Spread of the single tests around their mean, not of the mean; of one test what the laboratory states.")
    lab_tests: int = count("1", 0, 1000, default=0, label="Laboratory result: number of tests",
        help="Samples taken on different days, not repeats of one bottle.")
    lab_between_share: float = number(
        "share", 0, 0.5, default=0.1, basis="from memory: ring tests of laboratories differ by about a tenth",
        label="Spread between laboratories", help="Stays however often one laboratory tests; of the mean.")
    achieved_nm3_per_t: float = number(
        "Nm3/t", 0, 900, default=0.0, label="Achieved methane yield",
        help="Methane per tonne fresh at a working plant; used only when the kind of potential is `achieved`.")
    methane_share_from: Literal["own", "composition"] = choice(
        "own", "composition", default="own", label="Where the methane share comes from",
        help="own: the figure below, or the reference row; composition: by stoichiometry from the composition below.")
    methane_share: float = number(
        "share", 0.3, 0.8, lookup=of_row("ch4_pct", 0.01), label="Methane in this feed's gas", help="Of dry gas.")
    composition: Literal["table", "make_up", "elements_by_mass", "elements_by_mol"] = choice(
        "table", "make_up", "elements_by_mass", "elements_by_mol", default="table",
        label="What the volatile solids are made of",
        help="table: the shares of the reference row, for a question only; make_up: your own shares of fat, protein and "
        "carbohydrate; elements_by_mass, elements_by_mol: your own elements. A potential above what your own composition "
        "can give is a fault.")
    n_kg_per_t: float = number("kg/t", 0, 100, lookup=of_row("n_kg_t"), label="Nitrogen",
        help="Total N per tonne fresh.")
    p_kg_per_t: float = number(
        "kg/t", 0, 50, lookup=of_row("p_kg_t"), label="Phosphorus", help="Element P: P2O5 divided by 2.2914.")
    k_kg_per_t: float = number(
        "kg/t", 0, 100, lookup=of_row("k_kg_t"), label="Potassium", help="Element K: K2O divided by 1.2046.")
    fat_share_of_vs: float = number(
        "share", 0, 1, default=0.05, basis=PRACTICE, lookup=of_row("fat_share_vs"), label="Fat in the volatile solids",
        help="For the finding on fat; most rows are from memory.")
    protein_share_of_vs: float = number(
        "share", 0, 1, default=0.2, basis=PRACTICE, lookup=of_row("protein_share_vs"),
        label="Protein in the volatile solids", help="Organic nitrogen x 6.25; most rows are from memory.")
    carbohydrate_share_of_vs: float = number(
        "share", 0, 1, default=0.75, basis=PRACTICE, lookup=of_row("carbohydrate_share_vs"),
        label="Carbohydrate in the volatile solids",
        help="The rest: starch, sugar, fibre, acids. Glycerine gives more than it: enter that by its elements.")
    carbon_parts: float = number("1", 0, 1e6, default=0.0, label="Carbon in the volatile solids, by elements",
        help="In any scale, by mass or by mol as the composition says, without ash.")
    hydrogen_parts: float = number("1", 0, 1e6, default=0.0, label="Hydrogen in the volatile solids, by elements",
        help="In the scale of the carbon.")
    oxygen_parts: float = number("1", 0, 1e6, default=0.0, label="Oxygen in the volatile solids, by elements",
        help="In the scale of the carbon; often found as the rest.")
    nitrogen_parts: float = number("1", 0, 1e6, default=0.0, label="Nitrogen in the volatile solids, by elements",
        help="In the scale of the carbon.")
    sulphur_parts: float = number("1", 0, 1e6, default=0.0, label="Sulphur in the volatile solids, by elements",
        help="In the scale of the carbon.")
    carbon_share_of_vs: float = number(
        "share", 0.3, 0.9, default=0.5, basis=PRACTICE, lookup=of_row("carbon_share_vs"),
        label="Carbon in the volatile solids", help="For carbon to nitrogen: sugars 0.44, manure 0.52, fat 0.77.")
    s_kg_per_t: float = number(
        "kg/t", 0, 20, default=0.3, basis=PRACTICE, lookup=of_row("s_kg_t"), label="Sulphur",
        help="Element S: SO3 divided by 2.5. Part of it becomes hydrogen sulphide.")
    handling: Literal["pumped", "solid_feeder", "macerated", "macerated_12mm", "depackaged", "finely_ground"] = choice(
        "pumped", "solid_feeder", "macerated", "macerated_12mm", "depackaged", "finely_ground", default="pumped",
        label="How it is brought into the tank",
        help="For its power, where own use is counted by consumer; all but solid_feeder and finely_ground are pumped too.")
    ammonium_share: float = number(
        "share", 0, 1, lookup=of_row("nh4_share"), label="Ammonium part of the nitrogen", help="Before digestion.")
    rate_per_day: float = number(
        "1/day", 0.005, 3, lookup=of_row("k_first_order_per_day"), label="First-order rate constant at 37 degC",
        help="How fast the feed gives its gas; most published constants are recalled from memory: treat as uncertain.")
    haul_cost_per_t: float = number(
        "money/t", 0, 500, default=0.0, label="Haul paid by the plant", help="Zero when the supplier brings it.")
