"""Logged temperatures in a garden's file: for each intake its times and its degrees, as two lists."""

from __future__ import annotations

import math
from collections.abc import Collection
from datetime import UTC, datetime
from itertools import pairwise
from typing import Any, Final
from uuid import UUID

from bluewright.journal.actions.intakes import write_temps
from bluewright.journal.models import AirTemp, Garden, Intake, TubTemp
from bluewright.science.base.errors import InputError

LOWEST_C, HIGHEST_C = -30.0, 100.0
NAMES: Final = frozenset({"intake_id", "times", "temps_c"})


def along(intakes: Collection[UUID]) -> list[dict[str, Any]]:
    """The temperatures of each intake that goes along."""
    found = []
    for key in sorted(intakes):
        pairs = list(TubTemp.objects.filter(intake=key).order_by("time").values_list("time", "temp_c"))
        pairs = pairs or list(AirTemp.objects.filter(intake=key).order_by("time").values_list("time", "temp_c"))
        times = [f"{time:%Y-%m-%dT%H:%M:%SZ}" for time, _ in pairs]
        found.append({"intake_id": key, "times": times, "temps_c": [temp_c for _, temp_c in pairs]})
    return found


def bring(rows: list[Any], *, into: Garden, by: Any) -> None:
    """Write what `along` gave; raises InputError for what does not fit."""
    intakes = {str(intake.pk): intake for intake in Intake.objects.filter(garden=into)}
    for index, row in enumerate(rows):
        where = f"logged[{index}]"
        if not isinstance(row, dict) or set(row) != NAMES or str(row["intake_id"]) not in intakes:
            raise InputError(where=where, what="it belongs to no intake of this garden", right="mend the file")
        seconds, temps_c = _seconds(row["times"]), row["temps_c"]
        if seconds is None or not _possible(temps_c) or len(seconds) != len(temps_c):
            raise InputError(where=where, what="its times and temperatures do not fit", right="mend the file")
        write_temps(intakes.pop(str(row["intake_id"])), seconds, temps_c, by=by)


def _seconds(times: Any) -> list[int] | None:
    """Seconds since 1970 of rising times."""
    try:
        read = [datetime.strptime(time, "%Y-%m-%dT%H:%M:%SZ").replace(tzinfo=UTC) for time in times]
    except (TypeError, ValueError):
        return None
    rises = all(first < second for first, second in pairwise(read))
    return [int(time.timestamp()) for time in read] if rises else None


def _possible(temps_c: Any) -> bool:
    return isinstance(temps_c, list) and all(
        isinstance(c, int | float) and math.isfinite(c) and LOWEST_C <= c <= HIGHEST_C for c in temps_c
    )
