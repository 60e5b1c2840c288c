"""The dangers of laboratory ways, said beside the answer. They defer to labels, local rules and licensed practice."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from bluewright.science.assay.priors import Solvent
from bluewright.science.base.cautions import Caution, caution

LABORATORY: Final = "Laboratory only, with its hood, gloves, goggles and waste: never in a kitchen. "

SOLVENTS: Final[Mapping[Solvent, tuple[str, str]]] = {
    "dmf": (
        "lab-dmf",
        LABORATORY + "Dimethylformamide may harm an unborn child, and goes in through skin and as vapour when warm. Go "
        "by its safety data sheet and your local rules.",
    ),
    "dmso": (
        "dmso",
        "Dimethyl sulphoxide carries what is dissolved in it through the skin, and through many gloves: wear the ones "
        "its safety data sheet names, and keep it off food and kitchen things.",
    ),
    "chloroform": (
        "lab-chloroform",
        LABORATORY + "Chloroform is poisonous, is believed to cause cancer, makes drowsy, and becomes phosgene in a "
        "flame or in light. Go by its safety data sheet and your local rules.",
    ),
    "pyridine": (
        "lab-pyridine",
        LABORATORY + "Pyridine is poisonous and catches fire easily; its vapour is harmful long before it is "
        "unbearable. Go by its safety data sheet and your local rules.",
    ),
    "sulphuric_acid": (
        "lab-sulphuric",
        LABORATORY + "Hot concentrated sulphuric acid burns at once and destroys eyes. Never pour water into it: the "
        "cooled acid goes into plenty of cold water, slowly. Go by its label and your local rules.",
    ),
    "other": (
        "lab-solvent",
        "Read the safety data sheet of the solvent before you open it; most that dissolve indigo are for a laboratory.",
    ),
}  # fmt: skip
"""By solvent: code and text."""


def solvent_cautions(solvent: Solvent) -> tuple[Caution, ...]:
    """What a solvent can do to someone."""
    code, text = SOLVENTS[solvent]
    return (caution(code, text),)
