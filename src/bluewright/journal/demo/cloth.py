"""The cloth of the invented season: six pieces, their dips in its two vats, finish, swatches and home tests."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Final

from bluewright.journal.actions.keeping import keep
from bluewright.journal.demo.dyed_truth import CLASS_LINEN, READ_SD, SHAWL_WOOL, readings
from bluewright.journal.models import Dip, Garden, HomeTest, Jar, Piece, Swatch, Vat, WorkNote

LINEN: Final = readings(CLASS_LINEN, (3, 6), place=4)
HANK: Final = readings(SHAWL_WOOL, (4,), place=5)
"""Colours of pieces by their dips, by the season's own rules."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PiecePlan:
    """A piece, by hours since its vat was set."""

    name: str
    fibre: str
    mass_g: float
    vat: str
    jar: str
    """Whose blue was in that vat."""
    into_book_h: float
    scour: str
    wanted: int | None
    dips: tuple[tuple[float, float], ...] = ()
    """When it went in, and for how many minutes."""
    dip_min: float = 5.0
    air_min: float = 20.0
    finish: str = ""
    finished_h: float = 0.0
    after_g: float | None = None
    lab: tuple[float, float, float] | None = None
    """Of its swatch, measured beside the card a day after its finish."""
    ground: tuple[float, float, float] | None = None
    tests: tuple[tuple[str, float, float, str], ...] = ()
    """Which, the grade by eye, hours, how."""
    worked_min: float = 0.0
    note: str = ""


PIECES: Final = (
    PiecePlan(
        name="Table runner", fibre="linen", mass_g=180.0, vat="Class vat", jar="Jar 2", into_book_h=2.0, scour="boiled",
        wanted=6, dips=((25.0, 5.0), (25.6, 5.0), (26.2, 6.0), (26.9, 5.0), (27.5, 5.0), (28.2, 7.0)), finish="soaped",
        finished_h=46.0, after_g=182.0, lab=LINEN[6], ground=CLASS_LINEN.ground,
        tests=(
            ("dry_rub", 4.0, 222.0, "10 strokes, a week after the finish"),
            ("wet_rub", 3.0, 222.1, "10 strokes, a week after the finish"),
            ("wash", 4.5, 223.0, "soap, 40 °C, half an hour in a jar"),
        ),
        worked_min=95.0, note="dyed with the class, each took a dip",
    ),
    PiecePlan(
        name="Napkins, four", fibre="linen", mass_g=240.0, vat="Class vat", jar="Jar 2", into_book_h=70.0,
        scour="boiled", wanted=3, dips=((101.5, 5.0), (102.1, 5.0), (102.7, 5.0)), finish="soaped", finished_h=105.0,
        after_g=243.0, lab=LINEN[3], ground=CLASS_LINEN.ground, worked_min=50.0,
    ),
    PiecePlan(
        name="Cotton bag", fibre="cotton", mass_g=150.0, vat="Class vat", jar="Jar 2", into_book_h=140.0,
        scour="soda_soap", wanted=5, dips=((169.0, 5.0), (169.6, 5.0), (170.3, 5.0), (270.5, 6.0)),
        note="the vat had gone pale after the third dip: sharpened, then on",
    ),
    PiecePlan(
        name="First hank", fibre="wool", mass_g=100.0, vat="The crock", jar="Jar 4", into_book_h=190.0, scour="soap",
        wanted=4, dip_min=15.0, dips=((217.0, 15.0), (217.9, 15.0), (240.0, 18.0), (241.0, 15.0)), finish="rinsed",
        finished_h=264.0, after_g=101.0, lab=HANK[4],
        tests=(("dry_rub", 4.5, 440.0, "10 strokes"), ("wet_rub", 3.5, 440.1, "10 strokes")), worked_min=70.0,
    ),
    PiecePlan(
        name="Silk scrap", fibre="silk", mass_g=20.0, vat="The crock", jar="Jar 4", into_book_h=238.0, scour="soap",
        wanted=1, dip_min=10.0, dips=((240.1, 10.0),), finish="rinsed", finished_h=264.0,
        note="to see what one dip does",
    ),
    PiecePlan(
        name="Shawl yarn", fibre="wool", mass_g=300.0, vat="The crock", jar="Jar 4", into_book_h=560.0, scour="soap",
        wanted=6, dip_min=15.0, note="waits for the crock to wake",
    ),
)  # fmt: skip


def write_cloth(of: Garden, *, jars: Mapping[str, tuple[Jar, float]], now: datetime, by: Any, seed: int) -> None:
    """Write the pieces with all that was done to them up to `now`; the vats are written already."""
    vats = {vat.name: vat for vat in Vat.objects.filter(garden=of)}
    for place, told in enumerate(PIECES):
        vat, jar = vats[told.vat], jars[told.jar][0]
        piece = _piece(of, told, vat.started_at, by=by, seed=seed + place)
        for hour, minutes in told.dips:
            began = vat.started_at + timedelta(hours=hour)
            if began + timedelta(minutes=minutes) <= now:
                keep(Dip(piece=piece, vat=vat, began_at=began, ended_at=began + timedelta(minutes=minutes)), by=by)
        if told.lab is not None:
            _swatch(piece, told, jar, at=vat.started_at + timedelta(hours=told.finished_h + 24), by=by)
        for kind, grade, hour, how in told.tests:
            done_at = vat.started_at + timedelta(hours=hour)
            keep(HomeTest(piece=piece, kind=kind, grade=grade, grade_sd=0.5, done_at=done_at, how=how), by=by)
        if told.worked_min:
            began = vat.started_at + timedelta(hours=told.dips[0][0])
            row = WorkNote(
                garden=of, piece=piece, kind="dyeing", began_at=began, spent_min=told.worked_min,
                spent_typed=f"{told.worked_min:g} min",
            )  # fmt: skip
            keep(row, by=by)


def _piece(of: Garden, told: PiecePlan, start: datetime, *, by: Any, seed: int) -> Piece:
    begun = start + timedelta(hours=told.into_book_h)
    l_star, a_star, b_star = told.ground or (None, None, None)
    row = Piece(
        garden=of, name=told.name, fibre=told.fibre, mass_g=told.mass_g, mass_typed=f"{told.mass_g:g} g",
        begun_at=begun, scour=told.scour, scoured_at=begun + timedelta(hours=3), wanted_dips=told.wanted,
        dip_min=told.dip_min, air_min=told.air_min, finish=told.finish,
        finished_at=start + timedelta(hours=told.finished_h) if told.finish else None, after_g=told.after_g,
        after_typed="" if told.after_g is None else f"{told.after_g:g} g", ground_l_star=l_star, ground_a_star=a_star,
        ground_b_star=b_star, note=told.note, seed=seed,
    )  # fmt: skip
    return keep(row, by=by)


def _swatch(piece: Piece, told: PiecePlan, jar: Jar, *, at: datetime, by: Any) -> None:
    assert told.lab is not None  # the caller asked
    l_star, a_star, b_star = told.lab
    l_sd, a_sd, b_sd = READ_SD
    row = Swatch(
        garden=piece.garden, piece=piece, jar=jar, name=told.name, of="cloth", fibre=told.fibre, dips=len(told.dips),
        measured_at=at, how="card", l_star=l_star, a_star=a_star, b_star=b_star, l_sd=l_sd, a_sd=a_sd, b_sd=b_sd,
    )  # fmt: skip
    keep(row, by=by)
