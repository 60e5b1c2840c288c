"""How much indigo is on cloth of a wanted colour, in the middle of what is believed: to weigh out a job by a swatch."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.colour.differences import ciede2000
from bluewright.science.dyeing.scores import SIZE, Learned, believed
from bluewright.science.dyeing.spectrum import Lab, ground_of_lab, lab_of_seen, usual_ground
from bluewright.science.media.cloth import Fibre

_G_PER_KG: Final[Floats] = np.geomspace(0.05, 100.0, 500)


def fixed_of_colour(wanted: Lab, *, fibre: Fibre, ground: Lab | None = None, learned: Learned | None = None) -> float:
    """Pure indigo on cloth of that colour (CIELAB, D65), as a share of its dry mass.

    The amount whose colour by `spectrum` comes nearest by CIEDE2000, every unknown at its middle: as believed at first,
    or as own ladders taught. As if the fibre were dyed through evenly: a ring of blue takes less for the same colour.
    Raises InputError for what was learned on another fibre, or a ground that is no undyed cloth.
    """
    middle = np.zeros((1, SIZE)) if learned is None else np.array([learned.mean_z])
    held = believed(middle, fibre=fibre, after_dip="squeezed", run="well_run")
    under = usual_ground(fibre) if ground is None else ground_of_lab(ground)
    colours = lab_of_seen(_G_PER_KG[None, :], held, ground=under)[0]
    return float(_G_PER_KG[np.argmin(ciede2000(colours, np.array(wanted)))]) / 1000.0
