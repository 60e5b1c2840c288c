"""PHREEQC (U.S. Geological Survey, database Amm.dat) as a second opinion on doses; asked live, in tests only.

The liquor of comparison: in a kilogram of water 10 mmol lactate and 3.2 mmol of carbonate, closed, brought to pH 5.2
by potassium. Lactate is not in the database and is defined with the curve of Nims & Smith 1936; CaOH+ has no heat
there, and gets 64 kJ/mol, without which lime at 0 C is wrong twofold.
"""

import math
from functools import cache

import phreeqc

SPECIES = """
SOLUTION_MASTER_SPECIES
    Lac Lac- 0 89.07 89.07
SOLUTION_SPECIES
    Lac- = Lac-
        log_k 0
    Lac- + H+ = HLac
        -analytic -4.8607 0.014776 1286.49
    Ca+2 + H2O = CaOH+ + H+
        log_k -12.78
        delta_h 64 kJ
PHASES
    Fix_H+
        H+ = H+
        log_k 0
    Slaked_lime
        Ca(OH)2 + 2 H+ = Ca+2 + 2 H2O
        log_k 22.804
        delta_h -128.62 kJ
SELECTED_OUTPUT
    -reset false
    -pH true
    -equilibrium_phases Fix_H+ Calcite Slaked_lime
END
"""

LIQUOR = """
SOLUTION 1
    temp {temp_c}
    pH 5.2
    units mmol/kgw
    Lac 10
    C(4) 3.2
    Ca {calcium_mmol}
    K 10 charge
"""


@cache
def engine() -> phreeqc.Phreeqc:
    made = phreeqc.Phreeqc()
    made.LoadBuiltInDatabase("Amm.dat")
    run(made, SPECIES)
    return made


def run(made: phreeqc.Phreeqc, text: str) -> None:
    made.RunString(text)
    assert not made.GetErrorString(), made.GetErrorString()


def mol_to_ph(titrant: str, *, ph: float, temp_c: float, calcite: bool = False, calcium_mmol: float = 0.0) -> float:
    """Moles of the titrant (a formula) that bring a kilogram of the liquor of comparison to `ph`."""
    chalk = "    Calcite 0 0\n" if calcite else ""
    made = engine()
    run(
        made,
        LIQUOR.format(temp_c=temp_c, calcium_mmol=calcium_mmol)
        + f"EQUILIBRIUM_PHASES 1\n    Fix_H+ {-ph} {titrant} 100\n        -force_equality\n{chalk}END\n",
    )
    return 100.0 - last(made.GetSelectedOutput(), "Fix_H+")


def ph_of(solution: str) -> float:
    """pH of a solution block."""
    made = engine()
    run(made, f"{solution}\nEND\n")
    return last(made.GetSelectedOutput(), "pH")


def lime_dissolved_mol(temp_c: float) -> tuple[float, float]:
    """Moles of slaked lime that dissolve in a kilogram of water, and the pH then."""
    made = engine()
    run(made, f"SOLUTION 1\n    temp {temp_c}\n    pH 7\nEQUILIBRIUM_PHASES 1\n    Slaked_lime 0 1\nEND\n")
    rows = made.GetSelectedOutput()
    return 1.0 - last(rows, "Slaked_lime"), last(rows, "pH")


def last(rows: dict[str, list[float]], column: str) -> float:
    value = float(rows[column][-1])
    assert math.isfinite(value)
    return value
