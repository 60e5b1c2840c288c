"""The permanent cast of the journal's and the pages' tests, and small makers of rows."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from bluewright.journal.actions import beds, steeps
from bluewright.journal.models import AirTemp, Bed, Garden, Picking, Reading, Steep, Strain

STARTED = timezone.now().replace(second=0, microsecond=0)
"""When the tests began: the same minute in a whole run, so that none fails for a minute that turned."""


def moment(hours_ago: float = 0.0) -> datetime:
    """A moment before the start of the tests, to the minute, as people type it."""
    return STARTED - timedelta(hours=hours_ago)


def typed(time: datetime) -> str:
    """A moment as the browser's own field sends it, by London's clock: that of both gardens."""
    from zoneinfo import ZoneInfo

    return time.astimezone(ZoneInfo("Europe/London")).strftime("%Y-%m-%dT%H:%M")


def a_garden(**other: Any) -> Garden:
    return beds.begin_garden(Garden(**{"name": "Chalk Row", "time_zone": "Europe/London"} | other), by=None)


def a_bed(garden: Garden, **other: Any) -> Bed:
    return beds.add_bed(Bed(**{"garden": garden, "name": "Wall bed", "plant": "woad"} | other), by=None)


def a_picking(garden: Garden, *, beds_of: list[Bed] | None = None, **other: Any) -> Picking:
    plain = {
        "garden": garden, "picked_at": moment(22), "plant": "woad", "leaf_kg": 3.0, "leaf_typed": "3 kg", "age": "young"
    }  # fmt: skip
    return beds.add_picking(Picking(**plain | other), beds=beds_of or [], by=None)


def a_tub(garden: Garden, *, leaf: list[tuple[Picking, float]] | None = None, **other: Any) -> Steep:
    """A tub begun twenty hours ago, with 3 kg of leaf unless told otherwise."""
    plain = {
        "garden": garden, "name": "Tub 9", "plant": "woad", "started_at": moment(20), "water_l": 30.0,
        "water_typed": "30 L",
    }  # fmt: skip
    parts = [(a_picking(garden), 3.0)] if leaf is None else leaf
    return steeps.begin_steep(
        Steep(**plain | other),
        leaf=[steeps.LeafIn(picking=p, leaf_kg=kg, leaf_typed=f"{kg:g} kg") for p, kg in parts],
        by=None,
    )


def a_look(tub: Steep, *, hours_ago: float = 5.0, **seen: Any) -> Reading:
    seen = seen or {"limpness": 1, "temp_c": 16.0, "temp_typed": "16 C"}
    return steeps.add_reading(Reading(steep=tub, taken_at=moment(hours_ago), **seen), by=None)


def a_straining(tub: Steep, **other: Any) -> Strain:
    return steeps.strain(Strain(**{"steep": tub, "strained_at": moment(1)} | other), by=None)


def an_air(garden: Garden, *, hours_ago: float, temp_c: float = 15.0, **other: Any) -> AirTemp:
    row = AirTemp(garden=garden, time=moment(hours_ago), temp_c=temp_c, temp_typed=f"{temp_c:g} C", **other)
    beds.add_air([row], by=None)
    return row


@contextmanager
def counted() -> Iterator[list[int]]:
    """How many statements the block sends, as the only item of the list."""
    found: list[int] = []
    with CaptureQueriesContext(connection) as sent:
        yield found
    found.append(len(sent))


@pytest.fixture(scope="session", autouse=True)
def no_database_unasked(django_db_blocker: Any) -> Iterator[None]:
    """A test reaches the database only if it says so."""
    with django_db_blocker.block():
        yield


@pytest.fixture
def garden(db: None) -> Garden:
    """Marl Bank, the invented garden: two beds, two pickings, one tub strained and one that steeps. The oldest."""
    from bluewright.journal import demo

    return demo.plant(now=timezone.now(), by=None)


@pytest.fixture
def other_garden(garden: Garden) -> Garden:
    """A second garden with a bed, a picking, and a tub with a look and a straining: a stranger's to `garden`."""
    other = a_garden()
    tub = a_tub(other, leaf=[(a_picking(other, beds_of=[a_bed(other)]), 3.0)])
    a_look(tub)
    a_straining(tub)
    return other


@pytest.fixture
def steeping(garden: Garden) -> Steep:
    """The invented garden's tub that steeps."""
    return Steep.objects.get(garden=garden, name="Tub 3")


@pytest.fixture
def strained(garden: Garden) -> Steep:
    """The invented garden's tub that is strained."""
    return Steep.objects.get(garden=garden, name="Tub 2")


@pytest.fixture
def strangers_tub(other_garden: Garden) -> Steep:
    """The tub of the garden that is not open."""
    return Steep.objects.get(garden=other_garden)
