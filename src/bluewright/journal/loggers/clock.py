"""From a moment as written to seconds since 1970: whose clock it was, and the hours that come twice or not at all."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Final
from zoneinfo import ZoneInfo

from bluewright.journal.loggers.cells import TimeParts

EPOCH_DAY: Final = date(1970, 1, 1).toordinal()
DAY_S: Final = 86400


class Unclear(Exception):  # noqa: N818 - said of a line, not an error of the program
    """Why a moment cannot be told; in words."""


class Clock:
    """Reads moments one after another, in the order of their file: that tells an hour that comes twice."""

    def __init__(self, zone: str, garden_zone: ZoneInfo) -> None:
        self.zone, self.garden_zone = zone, garden_zone
        self.twice = 0
        """Moments in an hour that came twice, told apart by their order."""
        self._days: dict[tuple[int, int, int], tuple[int, int | None]] = {}
        self._last: int | None = None
        self._falls = False

    def seconds(self, moment: TimeParts | int) -> int:
        """Seconds since 1970. Raises Unclear for a date or an hour that there is not."""
        found = moment if isinstance(moment, int) else self._of_parts(moment)
        if self._last is not None and found != self._last:
            self._falls = found < self._last
        self._last = found
        return found

    def _of_parts(self, moment: TimeParts) -> int:
        if moment.offset_s is None and self.zone == "text":
            raise Unclear("the time says no offset from UTC")
        if moment.offset_s is not None and self.zone != "text":
            raise Unclear("the time says its own offset from UTC")
        start_s, offset_s = self._day(moment.date)
        local_s = start_s + moment.second
        if moment.offset_s is not None:
            return local_s - moment.offset_s
        return local_s - offset_s if offset_s is not None else self._on_a_changing_day(local_s)

    def _day(self, day: tuple[int, int, int]) -> tuple[int, int | None]:
        """Local second at which a day begins, and the offset that holds all day; None where it changes."""
        if day not in self._days:
            try:
                start = date(*day)
            except ValueError:
                raise Unclear("there is no such date") from None
            self._days[day] = ((start.toordinal() - EPOCH_DAY) * DAY_S, self._offset_of_day(start))
        return self._days[day]

    def _offset_of_day(self, day: date) -> int | None:
        if self.zone in {"utc", "text"}:
            return 0
        if self.zone == "standard":
            return min(self._offset(datetime(day.year, month, 1)) for month in (1, 7))
        offsets = {self._offset(datetime(day.year, day.month, day.day) + timedelta(days=k)) for k in (0, 1)}
        return offsets.pop() if len(offsets) == 1 else None

    def _offset(self, naive: datetime) -> int:
        found = naive.replace(tzinfo=self.garden_zone).utcoffset()
        return int(found.total_seconds()) if found else 0

    def _on_a_changing_day(self, local_s: int) -> int:
        naive = datetime.fromtimestamp(local_s, UTC).replace(tzinfo=self.garden_zone)
        first, second = (int(naive.replace(fold=fold).timestamp()) for fold in (0, 1))
        if first > second:
            raise Unclear("that hour was left out when the clocks went forward")
        if first == second:
            return first
        self.twice += 1
        if self._last is None:
            return first
        return (second if self._last >= second else first) if self._falls else (first if first > self._last else second)
