"""Long lists in pages: one page of the rows, and the links to the others."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

from django.db.models import QuerySet
from django.http import QueryDict
from django.utils.translation import gettext as _

PAGE: Final = 50
"""So many rows stand on one page of a list."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Linked:
    """A word with its address; without one it tells where one is."""

    name: str
    href: str


def turned(
    rows: QuerySet[Any] | Sequence[Any], get: QueryDict, *, most: int | None = None
) -> tuple[list[Any], tuple[Linked, ...]]:
    """The rows of the page that an address asks for, at most `most`, and the links; none where one page holds all."""
    most = most or PAGE
    count = rows.count() if isinstance(rows, QuerySet) else len(rows)
    last = max(1, -(-count // most))
    here = min(asked_page(get), last)
    kept = get.copy()
    kept.pop("as", None)

    def address(page: int) -> str:
        kept["page"] = str(page)
        return f"?{kept.urlencode()}"

    return list(rows[(here - 1) * most : here * most]), turn(here, last, address)


def turn(here: int, last: int, address: Any) -> tuple[Linked, ...]:
    """The links to the first, the last and the neighbouring pages, around the number of the one that is open."""
    if last == 1:
        return ()
    back = [(_("first page"), 1), (_("page before"), here - 1)] if here > 1 else []
    on = [(_("next page"), here + 1), (_("last page"), last)] if here < last else []
    return (
        *(Linked(name=name, href=address(page)) for name, page in back),
        Linked(name=_("page %(here)d of %(last)d") % {"here": here, "last": last}, href=""),
        *(Linked(name=name, href=address(page)) for name, page in on),
    )


def asked_page(get: QueryDict) -> int:
    """The page that an address asks for; the first if it asks for none that can be."""
    said = get.get("page", "")
    return int(said) if said.isascii() and said.isdigit() and len(said) < 7 and int(said) > 0 else 1
