"""The language in which answers are said: English, or whatever the speaker has translations for.

A page sets them once, for all that is said while it is made; without any (the command line) it is English. A sentence
is translated whole, with its figures by name: `_("Left now: %(left)s.") % {"left": ...}`.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import lru_cache
from gettext import NullTranslations
from typing import Final

_SPOKEN: Final[ContextVar[NullTranslations]] = ContextVar("spoken", default=NullTranslations())  # noqa: B039 - frozen

MOST_KEPT: Final = 4096


def gettext(message: str) -> str:
    """The message in the language that is spoken now; the message itself where it was not translated."""
    return _translated(_SPOKEN.get(), message) if message else ""


@lru_cache(maxsize=MOST_KEPT)
def _translated(by: NullTranslations, message: str) -> str:
    """Kept, since a page says the same words hundreds of times and each search goes through several catalogues."""
    return by.gettext(message)


def ngettext(one: str, many: str, n: int) -> str:
    """The same of a message that hangs on a number: English has one form for 1 and one for all others."""
    return _SPOKEN.get().ngettext(one, many, n)


def marked(message: str) -> str:
    """The message unchanged: it stands in a table and is translated when it is said."""
    return message


@contextmanager
def spoken(translations: NullTranslations) -> Iterator[None]:
    """While it is open, what is said is said with these translations."""
    token = _SPOKEN.set(translations)
    try:
        yield
    finally:
        _SPOKEN.reset(token)
