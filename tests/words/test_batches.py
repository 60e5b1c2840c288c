"""What many batches say, in words."""

import pytest

from bluewright.science.base.bands import Band
from bluewright.science.learn.mixed_record import CauseFound
from bluewright.words.batches import cause_said
from bluewright.words.reader import read_by


@pytest.mark.parametrize(("system", "says"), [("metric", "Temperature: 5 °C more"), ("us", "Temperature: 9 °F more")])
def test_a_step_of_warmth_is_a_difference(system: str, says: str) -> None:
    """5 C more is 9/5 as many degrees of Fahrenheit more, without the 32 between the two zeros."""
    warmer = CauseFound(
        cause="temp_c", is_="5", beside="", ratio_factor=Band(p5=1.0, p50=1.2, p95=1.4), more_chance=0.9, batches=9
    )
    with read_by(system=system):
        assert cause_said(warmer) == says
