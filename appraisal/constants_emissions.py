"""Fixed figures of nutrients and greenhouse gases: name, value, unit, meaning, source, how it is known."""

from __future__ import annotations

from typing import Final

_CONFIRMED = "memory, confirmed by calculation"
_US = "Climate Action Reserve US livestock protocol, table store_model, set us_livestock_offset"
_IPCC = "IPCC 2019 Refinement, Vol 4 Ch 10, Annex 10A.3, table store_model, set ipcc_2019_annex"

EMISSION_CONSTANTS: Final[tuple[tuple[str, float, str, str, str, str], ...]] = (
    ("p2o5_per_p", 2.2914, "kg/kg", "Phosphate P2O5 per kg of the element P", "atomic masses", "computed"),
    ("k2o_per_k", 1.2046, "kg/kg", "Potash K2O per kg of the element K", "atomic masses", "computed"),
    ("ways_of_a_load", 2, "1", "A load goes there and the truck comes back", "arithmetic", "definition"),
    ("n2o_per_n", 44 / 28, "t/t", "Nitrous oxide per unit of its nitrogen", "molar masses 44/28", "computed"),
    ("methane_per_carbon", 16 / 12, "t/t", "Methane per unit of its carbon", "molar masses 16/12", "computed"),
    ("store_gas_constant", 1.987, "cal/(mol K)", "Gas constant of the store model", "table store_model", _CONFIRMED),
    ("us_store_activation", 15175, "cal/mol", "Activation energy", _US, _CONFIRMED),
    ("us_store_reference_k", 303.16, "K", "Reference temperature", _US, _CONFIRMED),
    ("us_store_ceiling_degc", 29.5, "degC", "Warmer months count as this", _US, _CONFIRMED),
    ("us_store_design_share", 0.8, "share", "Solids that the method lets react", _US, "memory"),
    ("us_store_methane_kg_per_m3", 0.68, "kg/m3", "Methane density of the method, 60 degF", _US, _CONFIRMED),
    ("ipcc_2019_store_activation", 19347, "cal/mol", "Activation energy", _IPCC, "read second-hand"),
    ("ipcc_2019_store_reference_k", 308.16, "K", "Reference temperature", _IPCC, "read second-hand"),
    ("ipcc_2019_store_ceiling_degc", 35, "degC", "The factor is 1 at the reference temperature", _IPCC, "computed"),
    ("ipcc_2019_store_design_share", 1, "share", "Solids that the method lets react", _IPCC, "memory"),
    ("ipcc_2019_store_methane_kg_per_m3", 0.67, "kg/m3", "Methane density near 20 degC", _IPCC, "memory"),
)
