"""Where a text names a source by author and year (`Rocha 2011`, `Bates & Acree 1945`), and which it is."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Iterator
from functools import cache

from bluewright.words.sources import Entry, bibliography


def cited(text: str) -> Iterator[tuple[str, str]]:
    """The text in pieces, each with the key of the source that it names; empty for what names none."""
    pattern, keys = _names()
    last = 0
    for match in pattern.finditer(text):
        key = keys.get((match["name"], match["year"]))
        if key is not None:
            yield text[last : match.start()], ""
            yield match[0], key
            last = match.end()
    yield text[last:], ""


@cache
def _names() -> tuple[re.Pattern[str], dict[tuple[str, str], str]]:
    """A first author, up to a few words of others, and the year; and the key of each that is not two sources."""
    found = [(_first_author(entry), entry.fields.get("year", ""), entry.key) for entry in bibliography().values()]
    many = Counter((name, year) for name, year, _ in found)
    keys = {(name, year): key for name, year, key in found if name and year and many[name, year] == 1}
    names = "|".join(sorted({re.escape(name) for name, _ in keys}, key=len, reverse=True))
    others = r"(?:(?:,| and| &) (?:[A-Z]\. )*(?:(?:van 't )?[A-Z][\w-]+|others)){0,4}"
    return re.compile(rf"(?:[A-Z]\. )*\b(?P<name>{names}){others} (?P<year>\d{{4}})\b"), keys


def _first_author(entry: Entry) -> str:
    """The family name of a person, in plain letters; empty for an institution."""
    first = entry.fields.get("author", "").split(" and ")[0]
    plain = unicodedata.normalize("NFD", first.split(",")[0]).encode("ascii", "ignore").decode()
    return plain if "," in first or " " not in first else ""
