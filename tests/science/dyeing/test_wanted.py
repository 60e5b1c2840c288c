"""How much indigo a wanted colour takes."""

import numpy as np
import pytest

from bluewright.science.dyeing.scores import SIZE, UNKNOWNS, Learned, believed
from bluewright.science.dyeing.spectrum import lab_of_seen, usual_ground
from bluewright.science.dyeing.wanted import fixed_of_colour
from bluewright.science.media.cloth import FIXED_FRAC


@pytest.mark.parametrize("g_per_kg", [2.0, 8.0, 20.0])
def test_what_colours_so_is_found_again(g_per_kg: float) -> None:
    """There and back through the spectrum; also with a yield that a ladder found higher by one spread."""
    for shift in (0.0, 1.0):
        z = np.zeros((1, SIZE))
        z[0, UNKNOWNS.index("yield")] = shift
        held = believed(z, fibre="wool", after_dip="squeezed", run="well_run")
        lab = lab_of_seen(np.array([[g_per_kg]]), held, ground=usual_ground("wool"))[0, 0]
        learned = Learned(
            fibre="wool", unknowns=UNKNOWNS, mean_z=tuple(z[0]), covariance_z=((0.0,) * SIZE,) * SIZE, swatches=4
        )
        found = fixed_of_colour(tuple(lab), fibre="wool", learned=learned if shift else None)
        assert found == pytest.approx(g_per_kg / 1000.0, rel=0.03)


def test_a_medium_blue_on_cotton_takes_what_a_medium_or_deep_depth_does() -> None:
    """A lightness of about 40 is a medium to deep blue; the depths by name are those of the plan (from memory)."""
    found = fixed_of_colour((40.0, -3.0, -22.0), fibre="cotton")
    depths = FIXED_FRAC["cotton"]
    assert depths["light"].centre < found < depths["navy"].centre
