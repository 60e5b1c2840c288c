"""Charts of colours with invented numbers, for the tests of drawing."""

from datetime import timedelta

from bluewright.charts.ab_plane import AbPlane
from bluewright.charts.colours import Chip
from bluewright.charts.control_chart import ControlChart, Session
from bluewright.charts.depth_ladder import DepthLadder, Rung
from bluewright.charts.dyed_swatches import DyedSwatches, Patch
from bluewright.charts.inputs import Span
from bluewright.charts.split_square import SplitSquare, Way
from tests.charts.samples import START


def chips(label: str = "linen") -> tuple[Chip, ...]:
    """A ladder of one, two, four and eight dips."""
    return (
        Chip(name=f"{label}, one dip", lab=(70.2, -5.1, -12.3), lab_sd=(1.0, 0.7, 0.9), said="pale greenish blue"),
        Chip(name=f"{label}, two dips", lab=(58.4, -4.4, -18.9), lab_sd=(1.0, 0.7, 0.9), said="medium blue"),
        Chip(name=f"{label}, four dips", lab=(44.9, -2.8, -22.4), lab_sd=(1.1, 0.8, 0.9), said="medium blue"),
        Chip(name=f"{label}, eight dips", lab=(31.7, -0.3, -22.0), lab_sd=(1.2, 0.9, 1.1), said="deep blue"),
    )


def plane_sample(label: str = "linen") -> AbPlane:
    return AbPlane(question="Which way do these blues lean?", answer="From greenish to plain blue.", chips=chips(label))


def ladder_sample(label: str = "linen") -> DepthLadder:
    depths = ((0.7, 0.8, 0.9), (1.8, 2.1, 2.4), (4.9, 5.6, 6.5), (13.0, 16.0, 20.0))
    rungs = tuple(
        Rung(x=2.0**k, chip=chip, depth=Span(low=low, mid=mid, high=high))
        for k, (chip, (low, mid, high)) in enumerate(zip(chips(label), depths, strict=True))
    )
    return DepthLadder(question="How deep does each dip take it?", answer="K/S doubles.", x_name="dips", rungs=rungs)


def square_sample(label: str = "linen") -> SplitSquare:
    _one, _two, four, eight = chips(label)
    return SplitSquare(
        question="How do these two differ?",
        answer="Darker, redder; another colour (CIEDE2000 12 (11 to 13)).",
        standard=four,
        sample=eight,
        ways=(
            Way(less="darker", more="lighter", by=Span(low=-15.8, mid=-13.2, high=-10.6)),
            Way(less="duller", more="brighter", by=Span(low=-2.9, mid=-0.6, high=1.8)),
            Way(less="greener", more="redder", by=Span(low=0.5, mid=2.4, high=4.2)),
        ),
    )


def control_sample(label: str = "photo of the shed") -> ControlChart:
    off = (0.6, 0.9, 0.7, 1.2, 1.0, 2.6, 0.8)
    return ControlChart(
        question="Does the card still come out as it was registered?",
        answer="Once it did not.",
        sessions=tuple(Session(time=START + timedelta(days=9 * k), de00=v, label=label) for k, v in enumerate(off)),
    )


def dyed_sample(label: str = "linen") -> DyedSwatches:
    lights = ((58.0, 70.2, 79.0), (45.0, 58.4, 69.0), (34.0, 44.9, 57.0), (22.0, 31.7, 44.0))
    return DyedSwatches(
        question="How does this cloth come out?",
        answer="Deep blue after eight dips.",
        patches=tuple(
            Patch(name=chip.name, lab=chip.lab, lightness=Span(low=low, mid=mid, high=high), note="12 apart")
            for chip, (low, mid, high) in zip(chips(label), lights, strict=True)
        ),
        wanted=(38.0, -1.5, -23.0),
        section=tuple(Span(low=0.9**k, mid=0.95**k, high=0.99**k) for k in range(13)),
        thickness="0.3 mm",
    )
