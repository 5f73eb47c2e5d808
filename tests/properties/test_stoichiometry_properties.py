"""Laboratory and chemistry: weighing always narrows, carbon is kept, elements say the same by mass and by mol."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from appraisal.scenario.weighing import of_range, of_tests, weighed
from appraisal.stoichiometry import (
    ATOMIC_MASS,
    CARBOHYDRATE,
    FAT,
    PROTEIN,
    Formula,
    methane_nm3_per_t,
    methane_share,
    of_make_up,
    of_masses,
    oxygen_demand_kg_per_kg,
    products,
    solids_per_gas,
)

SHARES = st.tuples(*[st.floats(0, 1) for _ in range(3)]).filter(lambda parts: sum(parts) > 0.01)


@given(
    middle=st.floats(50, 900), below=st.floats(1, 40), above=st.floats(1, 90), mean=st.floats(50, 900), sd=st.floats(0.5, 150),
    tests=st.integers(1, 50), between=st.floats(0, 0.5))
def test_a_laboratory_result_always_narrows_the_range(
    middle: float, below: float, above: float, mean: float, sd: float, tests: int, between: float,
) -> None:
    table = of_range(middle=middle, low=middle - below, high=middle + above)
    lab = of_tests(mean=mean, sd=sd, tests=tests, between_share=between)
    both, more = weighed(table, lab), weighed(table, of_tests(mean=mean, sd=sd, tests=tests + 1, between_share=between))
    assert both.high() - both.low() < above + below
    assert both.sd < min(table.sd, lab.sd)
    assert min(middle, mean) - 1e-9 <= both.mean <= max(middle, mean) + 1e-9
    assert more.sd < both.sd


@given(SHARES)
def test_stoichiometry_keeps_carbon_and_lies_between_its_parts(parts: tuple[float, float, float]) -> None:
    fat, protein, carbohydrate = (part / sum(parts) for part in parts)
    mixed = of_make_up(fat=fat, protein=protein, carbohydrate=carbohydrate)
    made = products(mixed)
    assert mixed.mass() == pytest.approx(1, rel=1e-12)
    assert made.methane + made.carbon_dioxide == pytest.approx(mixed.c, rel=1e-12)
    assert methane_nm3_per_t(CARBOHYDRATE) * (1 - 1e-9) <= methane_nm3_per_t(mixed) <= methane_nm3_per_t(FAT) * (1 + 1e-9)
    assert methane_share(CARBOHYDRATE) - 1e-9 <= methane_share(mixed) <= methane_share(FAT) + 1e-9
    assert solids_per_gas(FAT) - 1e-9 <= solids_per_gas(mixed) <= solids_per_gas(CARBOHYDRATE) + 1e-9
    assert methane_nm3_per_t(mixed) == pytest.approx(350.2 * oxygen_demand_kg_per_kg(mixed), rel=1e-3)
    assert products(PROTEIN).ammonia == 1


@given(SHARES, st.floats(0.01, 1000))
def test_elements_by_mass_and_by_mol_say_the_same_in_any_scale(parts: tuple[float, float, float], scale: float) -> None:
    fat, protein, carbohydrate = (part / sum(parts) for part in parts)
    by_mol = of_make_up(fat=fat, protein=protein, carbohydrate=carbohydrate)
    masses = {atom: scale * mass * getattr(by_mol, atom) for atom, mass in ATOMIC_MASS.items()}
    by_mass = of_masses(Formula(**masses))
    assert methane_nm3_per_t(by_mass) == pytest.approx(methane_nm3_per_t(by_mol), rel=1e-9)
    assert methane_share(by_mass) == pytest.approx(methane_share(by_mol), rel=1e-9)
