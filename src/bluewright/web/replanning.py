"""Memory and schedules follow what they rest on: reckoned again beside the pages once something of it was changed.

What the gardens' finished tubs taught is reckoned when the server starts and after posts, so that strain calls and
plans draw from it though nobody opened its page.

After every post, and once an hour for the day that passes, each schedule that has its limits is looked at in a few
reads; one whose weather, beds, tubs, jars, wants, limits or day are no longer what it was reckoned from is solved
anew. A page that is only asked for writes nothing.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Final
from zoneinfo import ZoneInfo

from django.http import HttpRequest, HttpResponse
from django.utils import timezone

from bluewright.journal.bridge import learned as bridge
from bluewright.journal.bridge import scheduling
from bluewright.journal.queries import learned, schedules
from bluewright.web.aside import ASIDE

SOON: Final = "schedules"
HOURLY: Final = "schedules, hourly"
QUIET_S: Final = 15.0
"""After a post so long is waited for the next: an evening's notes are planned for once."""
HOUR_S: Final = 3600.0
MOST_TURNS: Final = 3
"""What changes while a schedule is reckoned is reckoned once more, and not for ever."""
REFUSED: Final = 400


def replan() -> None:
    """Solve again each schedule that no longer stands on what it was reckoned from."""
    for garden in schedules.planned_gardens():
        today: datetime = timezone.now().astimezone(ZoneInfo(garden.time_zone))
        for _turn in range(MOST_TURNS):
            if not scheduling.is_stale(garden, today=today.date()):
                break
            with timezone.override(garden.time_zone):
                scheduling.follow(garden)


def catch_up() -> None:
    """Learn from what was finished, then plan by it."""
    for garden in learned.teaching():
        bridge.reckon(garden)
    replan()


def keep_up() -> None:
    """Look once an hour from now on: a day passes without a post."""
    ASIDE.repeat(HOURLY, catch_up, every_s=HOUR_S)


def after_posts(answer: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """Middleware: what was posted may change what was learned, and a schedule."""

    def through(request: HttpRequest) -> HttpResponse:
        response = answer(request)
        if request.method == "POST" and response.status_code < REFUSED:
            ASIDE.ask(SOON, catch_up, after_s=QUIET_S)
        return response

    return through
