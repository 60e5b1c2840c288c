"""A small garden for the tests: two beds, two pickings, a tub that is strained and one that steeps since two days."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any, Final
from zoneinfo import ZoneInfo

from django.db import transaction

from bluewright.journal.actions import beds, steeps
from bluewright.journal.models import AirTemp, Bed, Garden, Picking, Reading, Steep, Strain

NAME: Final = "Marl Bank"
ZONE: Final = "Europe/London"
LOOKS: Final[tuple[tuple[float, dict[str, Any]], ...]] = (
    (0, {"temp_c": 14.5}),
    (7, {"temp_c": 16.5, "bubbles": 0, "scum": 0, "limpness": 0, "blue_cast": 0}),
    (21, {"temp_c": 14.5, "ph": 6.9, "bubbles": 0, "scum": 0, "limpness": 1, "blue_cast": 1, "smell": 0}),
    (31, {"temp_c": 18.0, "bubbles": 0, "scum": 0, "limpness": 2, "blue_cast": 1, "smell": 0}),
    (45, {"temp_c": 15.5, "ph": 6.7, "bubbles": 0, "scum": 0, "limpness": 2, "blue_cast": 2, "smell": 1}),
)
"""Hours after the start, and what was noticed."""


def plant(*, now: datetime, by: Any) -> Garden:
    """Write the invented garden about `now`, all of it or nothing."""
    zone = ZoneInfo(ZONE)
    start = (now.astimezone(zone) - timedelta(hours=46)).replace(minute=0, second=0, microsecond=0)
    with transaction.atomic():
        garden = beds.begin_garden(Garden(name=NAME, time_zone=ZONE, invented=True), by=by)
        sown, strays = (
            beds.add_bed(
                Bed(garden=garden, name=name, plant="woad", origin=origin, area_m2=area, area_typed=typed), by=by
            )
            for name, origin, area, typed in (
                ("Long bed", "sown", 12.0, "12 m2"),
                ("Under the hedge", "self_sown", 6.0, "6 m2"),
            )
        )
        _weather(garden, start, now, by=by)
        for name, days_ago, mass, from_beds in (("Tub 2", 9, 5.0, [sown]), ("Tub 3", 0, 6.0, [sown, strays])):
            began = start - timedelta(days=days_ago)
            picking = Picking(
                garden=garden, picked_at=began - timedelta(hours=2), plant="woad", leaf_kg=mass,
                leaf_typed=f"{mass:g} kg", age="young", damaged_frac=0.1,
            )  # fmt: skip
            beds.add_picking(picking, beds=from_beds, by=by)
            steep = Steep(
                garden=garden, name=name, plant="woad", started_at=began, water_l=40.0, water_typed="40 L",
                can_strain="08:00 18:00",
            )  # fmt: skip
            steeps.begin_steep(
                steep, leaf=[steeps.LeafIn(picking=picking, leaf_kg=mass, leaf_typed=f"{mass:g} kg")], by=by
            )
            _looks(steep, now=now, by=by)
            if days_ago:
                steeps.strain(
                    Strain(
                        steep=steep, strained_at=began + timedelta(hours=69), squeeze="hand", liquor_out_l=38.0,
                        liquor_typed="38 L",
                    ),
                    by=by,
                )  # fmt: skip
    return garden


def _looks(steep: Steep, *, now: datetime, by: Any) -> None:
    for hours, seen in LOOKS:
        when = steep.started_at + timedelta(hours=hours)
        if when <= now:
            temp = f"{seen['temp_c']:g} C"
            steeps.add_reading(Reading(steep=steep, taken_at=when, temp_typed=temp, **seen), by=by)


def _weather(garden: Garden, start: datetime, now: datetime, *, by: Any) -> None:
    midnight = start.replace(hour=0)
    rows = [
        AirTemp(garden=garden, time=when, temp_c=temp_c, temp_typed=f"{temp_c:g} C", forecast=when > now)
        for day, (low_c, high_c) in enumerate(
            [(12.0, 20.5), (12.5, 22.0), (12.5, 20.5), (11.5, 20.0), (12.0, 21.0), (13.0, 22.0)]
        )
        for clock, temp_c in ((6, low_c), (15, high_c))
        for when in [midnight + timedelta(days=day, hours=clock)]
    ]
    beds.add_air(rows, by=by)
