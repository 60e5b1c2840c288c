"""The vats of the invented season: one of fructose in use, and a fermented one that fell asleep."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Final

from bluewright.journal.actions.keeping import keep
from bluewright.journal.actions.vats import Added, add, make_vat
from bluewright.journal.models import Garden, Jar, Vat, VatAddition, VatReading

MADE_AT_H: Final = 9


@dataclass(frozen=True, slots=True, kw_only=True)
class VatPlan:
    """A vat: what went in and what was seen, by hours since it was made."""

    name: str
    kind: str
    fibre: str
    days_ago: int
    volume_l: float
    jar: str
    share: float
    """Of the jar's pigment that went in."""
    made_of: tuple[tuple[str, float], ...]
    """What else, grams."""
    added: tuple[tuple[float, str, float], ...] = ()
    looks: tuple[tuple[float, dict[str, Any]], ...] = ()
    hold_c: float | None = None
    room_c: float = 17.0
    note: str = ""


VATS: Final = (
    VatPlan(
        name="Class vat", kind="fructose", fibre="linen", days_ago=12, volume_l=6.0, jar="Jar 2", share=0.3,
        made_of=(("fructose", 18.0), ("slaked_lime", 14.0)),
        added=((98.0, "fructose", 4.0), (98.0, "slaked_lime", 2.5)),
        looks=(
            (1.0, {"ph": 11.3, "temp_c": 46.0, "liquor_look": 0, "film": 0}),
            (3.5, {"temp_c": 41.0, "liquor_look": 2, "film": 1, "grains_seen": 1}),
            (24.0, {"ph": 11.1, "temp_c": 20.0, "liquor_look": 3, "film": 2, "strip_s": 38.0}),
            (72.0, {"temp_c": 18.0, "liquor_look": 2, "film": 1, "strip_s": 17.0}),
            (96.0, {"ph": 10.6, "temp_c": 18.0, "liquor_look": 1, "film": 1, "strip_s": 6.0}),
            (101.0, {"temp_c": 44.0, "liquor_look": 2, "film": 1, "strip_s": 22.0}),
            (168.0, {"ph": 10.7, "liquor_look": 3, "film": 2, "strip_s": 31.0}),
            (270.0, {"ph": 10.4, "temp_c": 18.0, "liquor_look": 1, "film": 1, "strip_s": 7.0}),
        ),
        note="made with the class; lives in a lidded bucket by the sink",
    ),
    VatPlan(
        name="The crock", kind="ferment", fibre="wool", days_ago=26, volume_l=12.0, jar="Jar 4", share=0.5,
        made_of=(("bran", 6.0), ("madder", 6.0), ("soda_ash", 30.0)), added=((420.0, "soda_ash", 12.0),), hold_c=33.0,
        looks=(
            (48.0, {"ph": 9.4, "temp_c": 34.0, "liquor_look": 0, "film": 0}),
            (120.0, {"ph": 9.2, "temp_c": 33.0, "liquor_look": 1, "film": 1, "grains_seen": 2}),
            (216.0, {"ph": 9.0, "liquor_look": 2, "film": 2, "grains_seen": 1, "strip_s": 15.0}),
            (410.0, {"ph": 8.7, "liquor_look": 2, "film": 1, "strip_s": 12.0}),
            (500.0, {"ph": 10.2, "temp_c": 32.0, "liquor_look": 1, "film": 0, "strip_s": 5.0}),
            (596.0, {"ph": 10.1, "temp_c": 32.0, "liquor_look": 0, "film": 0, "grains_seen": 2, "strip_s": 3.0}),
        ),
        note="too much soda at once: it has been quiet since",
    ),
)  # fmt: skip


def write_vats(of: Garden, *, jars: Mapping[str, tuple[Jar, float]], now: datetime, by: Any, seed: int) -> None:
    """Write the vats; `jars` holds each jar with the grams that went into it."""
    for place, told in enumerate(VATS):
        jar, pigment_g = jars[told.jar]
        start = (now - timedelta(days=told.days_ago)).replace(hour=MADE_AT_H, minute=0, second=0, microsecond=0)
        vat = Vat(
            garden=of, name=told.name, kind=told.kind, fibre=told.fibre, started_at=start, volume_l=told.volume_l,
            volume_typed=f"{told.volume_l:g} L", hold_c=told.hold_c,
            hold_typed="" if told.hold_c is None else f"{told.hold_c:g} C", room_c=told.room_c,
            room_typed=f"{told.room_c:g} C", note=told.note, seed=seed + place,
        )  # fmt: skip
        powder = Added(row=_addition(vat, "powder", round(told.share * pigment_g, 1), start), jar=jar)
        made = [powder, *(Added(row=_addition(vat, what, grams, start)) for what, grams in told.made_of)]
        make_vat(vat, added=made, by=by)
        for hour, what, grams in told.added:
            add([Added(row=_addition(vat, what, grams, start + timedelta(hours=hour)))], by=by)
        for hour, seen in told.looks:
            temp_c = seen.get("temp_c")
            typed = "" if temp_c is None else f"{temp_c:g} C"
            keep(VatReading(vat=vat, taken_at=start + timedelta(hours=hour), temp_typed=typed, **seen), by=by)


def _addition(vat: Vat, what: str, grams: float, at: datetime) -> VatAddition:
    return VatAddition(vat=vat, added_at=at, what=what, mass_g=grams, mass_typed=f"{grams:g} g")
