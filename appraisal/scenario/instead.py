"""What the family could do in place of the plant, or beside it: figures that only ready-made comparisons use."""

from __future__ import annotations

from appraisal.scenario.quantity import Section, number


class Instead(Section):
    """Other ways for the same farm; the plan itself never uses these figures."""

    rent_per_year: float = number("money/year", 0, 1e8, default=0.0, label="Rent if somebody else builds on our yard",
        help="As the builder offers it, in month 0's money; 0: nobody has offered one.")
    rent_digestate_value_per_year: float = number(
        "money/year", 0, 1e8, default=0.0, label="Worth of digestate that comes back to us then",
        help="Fertilizer saved beyond what the manure saved before; 0 is the cautious figure.")
    cover_cost: float = number("money", 0, 1e9, default=0.0, label="Cost of only covering the store, with a flare",
        help="With contingency, in month 0's money; 0: no quote.")
    cover_income_per_year: float = number("money/year", 0, 1e8, default=0.0, label="Income from only covering and flaring",
        help="Credits for methane burnt, and rain kept off; as the buyer or adviser says.")
    cover_upkeep_per_year: float = number("money/year", 0, 1e8, default=0.0, label="Upkeep of cover and flare",
        help="Repair, insurance, reports, rain pumped off.")
    separator_cost: float = number("money", 0, 1e9, default=0.0, label="Cost of only a separator for the manure",
        help="With contingency, in month 0's money; 0: no quote.")
    separator_saving_per_year: float = number(
        "money/year", 0, 1e8, default=0.0, label="Saved by only a separator",
        help="Bedding not bought and hauling saved.")
    separator_upkeep_per_year: float = number("money/year", 0, 1e8, default=0.0, label="Upkeep of the separator",
        help="Screens, power, labour.")
    upgrading_cost: float = number("money", 0, 1e9, default=0.0, label="Cost of selling gas where the plan sells power",
        help="Upgrading and grid connection, with contingency, in place of all capital of the category engine; 0: no quote. "
        "Price and machine stand in [upgrading].")
