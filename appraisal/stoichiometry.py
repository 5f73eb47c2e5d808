"""Methane and carbon dioxide from a chemical formula: the ceiling of what a feed can give.

Buswell's equation as widened by Boyle to nitrogen and sulphur, for full conversion without new cells (Buswell and Mueller
1952, Industrial and Engineering Chemistry 44:550; Boyle 1976, in Microbial Energy Conversion; both from memory):

    C_c H_h O_o N_n S_s + (c - h/4 - o/2 + 3n/4 + s/2) H2O  ->  (c/2 + h/8 - o/4 - 3n/8 - s/4) CH4
        + (c/2 - h/8 + o/4 + 3n/8 + s/4) CO2 + n NH3 + s H2S

Volumes are those of an ideal gas at 0 degC and 101.325 kPa, 22.414 L/mol. Plain numbers in, plain numbers out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

LITRES_PER_MOL = 22.414  # ideal gas at 0 degC, 101.325 kPa
ATOMIC_MASS = {"c": 12.011, "h": 1.008, "o": 15.999, "n": 14.007, "s": 32.06}  # g/mol, IUPAC, from memory
WATER_MASS, OXYGEN_MASS = 18.015, 31.998  # g/mol


@dataclass(frozen=True)
class Formula:
    """How many atoms of carbon, hydrogen, oxygen, nitrogen and sulphur stand together [mol]; only their ratios matter."""

    c: float
    h: float
    o: float
    n: float = 0.0
    s: float = 0.0

    def mass(self) -> float:
        """Mass of the formula [g]."""
        return float(sum(ATOMIC_MASS[atom] * getattr(self, atom) for atom in ATOMIC_MASS))


@dataclass(frozen=True)
class Products:
    """What one formula becomes [mol]: the gases, and the water it takes up."""

    methane: float
    carbon_dioxide: float
    ammonia: float
    hydrogen_sulphide: float
    water_taken: float


FAT = Formula(57, 104, 6)  # triolein
PROTEIN = Formula(5, 7, 2, 1)
CARBOHYDRATE = Formula(6, 10, 5)  # starch and cellulose
GLYCEROL, SUGAR = Formula(3, 8, 3), Formula(6, 12, 6)


def products(formula: Formula) -> Products:
    """What a formula becomes when all of it is digested [mol]. Methane below 0 means that there is none."""
    c, h, o, n, s = formula.c, formula.h, formula.o, formula.n, formula.s
    tilt = h / 8 - o / 4 - 3 * n / 8 - s / 4
    return Products(c / 2 + tilt, c / 2 - tilt, n, s, c - h / 4 - o / 2 + 3 * n / 4 + s / 2)


def methane_nm3_per_t(formula: Formula) -> float:
    """Methane of full conversion [Nm3/t of the substance, the same as mL/g]; needs a mass above 0."""
    return products(formula).methane * LITRES_PER_MOL / formula.mass() * 1000


def methane_share(formula: Formula) -> float:
    """Methane in the dry gas [share], ammonia and hydrogen sulphide left out.

    Real gas from protein is richer (60 to 70 %), because ammonia in the liquid binds carbon dioxide.
    """
    made = products(formula)
    return made.methane / (made.methane + made.carbon_dioxide)


def oxygen_demand_kg_per_kg(formula: Formula) -> float:
    """Chemical oxygen demand [kg/kg]: oxygen to burn it to carbon dioxide, water, ammonia and hydrogen sulphide."""
    return 2 * products(formula).methane * OXYGEN_MASS / formula.mass()


def solids_per_gas(formula: Formula) -> float:
    """Solids gone per mass of dry methane and carbon dioxide [kg/kg]; below 1 where water is taken up."""
    made = products(formula)
    gas = made.methane * (ATOMIC_MASS["c"] + 4 * ATOMIC_MASS["h"]) + made.carbon_dioxide * (
        ATOMIC_MASS["c"] + 2 * ATOMIC_MASS["o"]
    )
    return formula.mass() / gas


def of_make_up(*, fat: float, protein: float, carbohydrate: float) -> Formula:
    """The formula of one gram with these shares by mass of fat, protein and carbohydrate [kg/kg, together 1]."""
    parts = ((fat, FAT), (protein, PROTEIN), (carbohydrate, CARBOHYDRATE))
    atoms = {
        atom: sum(share / formula.mass() * getattr(formula, atom) for share, formula in parts) for atom in ATOMIC_MASS
    }
    return Formula(**atoms)


def of_masses(formula: Formula) -> Formula:
    """The formula in mol of elements that were given by mass [kg, any scale]."""
    return replace(formula, **{atom: getattr(formula, atom) / mass for atom, mass in ATOMIC_MASS.items()})
