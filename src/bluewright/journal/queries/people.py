"""Who may come in."""

from __future__ import annotations

from typing import Any

from django.contrib.auth import get_user_model

from bluewright.journal.models import Person


def people() -> list[Person]:
    """Everybody who was ever let in, by name; those who were shut out last."""
    found = Person.objects.select_related("user").order_by("user__username")
    return sorted(found, key=lambda person: person.shut_out_at is not None)


def person(name: str) -> Person | None:
    """The person of that name, however its letters are cased."""
    return Person.objects.select_related("user").filter(user__username__iexact=name.strip()).first()


def role_of(user: Any) -> str | None:
    """The role of whoever came in by passphrase; None for a stranger and for whoever was shut out."""
    if not user.is_authenticated:
        return None
    found = Person.objects.filter(user=user, shut_out_at=None).values_list("role", flat=True).first()
    return None if found is None else str(found)


def anybody_can_come_in() -> bool:
    """Whether there is a passphrase that opens the door."""
    return Person.objects.filter(shut_out_at=None, user__is_active=True).exists()


def known_as(name: str) -> str:
    """A name as it was first written down, or as typed when nobody has it."""
    found = get_user_model().objects.filter(username__iexact=name.strip()).first()
    return name.strip() if found is None else str(found.get_username())
