"""When it is not the person's mistake: a full disk, a busy database, an error of ours; each said in words.

What went wrong in detail stands in the program's window and in `trouble.log` in the garden's folder.
"""

from __future__ import annotations

import errno
import logging
from collections.abc import Callable

from django.db import DatabaseError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils.translation import gettext_lazy as _

logger = logging.getLogger("django.request")
FULL = _("The disk is full. Make room on the machine that runs Bluewright, then send it again.")
BUSY = _("Somebody else was writing just now. Send it again.")
DAMAGED = _("The garden's file is damaged. Stop the program and restore a backup.")
CLOSED = _("The garden's file may not be written. Look at the rights of its folder.")
KNOWN = (
    ("disk is full", FULL, 507),
    ("database is locked", BUSY, 503),
    ("malformed", DAMAGED, 500),
    ("not a database", DAMAGED, 500),
    ("readonly", CLOSED, 500),
)
"""What SQLite says, what we say, and the status."""


class InWords:
    """Middleware: trouble with the disk or the database is answered in words."""

    def __init__(self, answer: Callable[[HttpRequest], HttpResponse]) -> None:
        self.answer = answer

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass on; Django asks `process_exception` when a page fails."""
        return self.answer(request)

    def process_exception(self, request: HttpRequest, error: Exception) -> HttpResponse | None:
        """The answer to trouble that has words; anything else is an error of ours."""
        if isinstance(error, OSError) and error.errno in {errno.ENOSPC, errno.EDQUOT}:
            return _answer(request, error, FULL, 507)
        if isinstance(error, DatabaseError):
            for said, words, status in KNOWN:
                if said in str(error):
                    return _answer(request, error, words, status)
        return None


def _answer(request: HttpRequest, error: Exception, words: object, status: int) -> HttpResponse:
    logger.error("%s: %s", request.path, error)
    return render(request, "trouble.html", {"words": words}, status=status)
