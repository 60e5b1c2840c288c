"""What the page of phones and people shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import segno
from django.utils import timezone
from django.utils.translation import gettext as _

from bluewright.journal.models import Person
from bluewright.journal.models.person import ROLES
from bluewright.words.numbers import day


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonRow:
    """Somebody who may come in, or who was shut out."""

    key: int
    name: str
    role: str
    role_said: str
    may_come_in: bool
    said: str
    """Since when, or since when no more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PeoplePage:
    """The page of phones and people."""

    address: str
    """What a phone opens; empty while the server listens to this machine alone."""
    square: str
    """The same as a drawing to scan."""
    people: tuple[PersonRow, ...]
    roles: tuple[tuple[str, str, str], ...]
    """Each role, its name and what it may do."""


def people_page(people: Sequence[Person], *, address: str) -> PeoplePage:
    """The page, for who there is and the address that phones open."""
    return PeoplePage(
        address=address,
        square=square(address) if address else "",
        people=tuple(_row(person) for person in people),
        roles=tuple((role, str(name), _said(role)) for role, name in ROLES),
    )


def square(address: str) -> str:
    """A square to scan, as SVG text with its name for those who do not see it."""
    text = str(segno.make(address, error="m").svg_inline(omitsize=True, border=4, light="#ffffff", title=address))
    return text.replace("<svg ", '<svg role="img" ', 1)


def _row(person: Person) -> PersonRow:
    when = timezone.localtime(person.shut_out_at or person.added_at)
    on = day(when)
    return PersonRow(
        key=person.pk,
        name=person.user.get_username(),
        role=person.role,
        role_said=person.get_role_display(),
        may_come_in=person.shut_out_at is None,
        said=(_("shut out on %(day)s") if person.shut_out_at else _("let in on %(day)s")) % {"day": on},
    )


def _said(role: str) -> str:
    return {
        "owner": _("does everything, also people and whole gardens"),
        "helper": _("writes readings and work"),
        "onlooker": _("looks on, writes nothing"),
    }[role]
