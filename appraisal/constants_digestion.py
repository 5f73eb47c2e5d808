"""Fixed figures of digestion: name, value, unit, meaning, source, how it is known."""

from __future__ import annotations

from typing import Final

_GROWTH = "Chen and Hashimoto model, table kinetics"
_SLIDES = "read on slides by J. M. Triolo"

DIGESTION_CONSTANTS: Final[tuple[tuple[str, float, str, str, str, str], ...]] = (
    ("lagoon_floor_degc", 5, "degC", "Coldest that a covered pond is taken to get",
     "Climate Action Reserve US livestock protocol, table store_model, us_livestock_offset_floor_temperature",
     "memory, confirmed by calculation"),
    ("settled_grit_t_per_m3", 1.5, "t/m3", "Dry sand in a cubic metre of settled grit", "loose wet sand, practice",
     "from memory"),
    ("growth_slope", 0.013, "1/(day degC)", "Greatest growth rate, slope on temperature", f"{_GROWTH}, ch_mu_slope", _SLIDES),
    ("growth_intercept", -0.129, "1/day", "Greatest growth rate at 0 degC, by the straight line",
     f"{_GROWTH}, ch_mu_intercept", "from memory"),
    ("kinetic_cattle_a", 0.8, "1", "Kinetic term of cattle manure, a", f"{_GROWTH}, ch_k_cattle_a", "from memory"),
    ("kinetic_cattle_b", 0.0016, "1", "Kinetic term of cattle manure, b", f"{_GROWTH}, ch_k_cattle_b", "from memory"),
    ("kinetic_cattle_c", 0.06, "m3/kg", "Kinetic term of cattle manure, c", f"{_GROWTH}, ch_k_cattle_c", "from memory"),
    ("kinetic_swine_a", 0.6, "1", "Kinetic term of swine manure, a", f"{_GROWTH}, ch_k_swine_a", "from memory"),
    ("kinetic_swine_b", 0.0206, "1", "Kinetic term of swine manure, b", f"{_GROWTH}, ch_k_swine_b", "from memory"),
    ("kinetic_swine_c", 0.051, "m3/kg", "Kinetic term of swine manure, c", f"{_GROWTH}, ch_k_swine_c", _SLIDES),
)
