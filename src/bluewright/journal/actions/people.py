"""Letting people in and shutting them out. A passphrase is kept only as Django's own salted hash of it."""

from __future__ import annotations

import secrets
from typing import Any, Final

from django.contrib.auth import get_user_model
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.db import transaction
from django.utils import timezone

from bluewright.journal.models import Person
from bluewright.journal.models.person import OWNER, ROLES
from bluewright.journal.queries import people
from bluewright.science.base.errors import InputError

MOST_NAME: Final = 40
CONSONANTS, VOWELS = "bdfghklmnprstvwz", "aeiou"


def made_passphrase() -> str:
    """A passphrase to read aloud and type with a thumb: three words of three syllables, one of 80**9 (57 bits)."""
    return "-".join("".join(secrets.choice(CONSONANTS) + secrets.choice(VOWELS) for _ in range(3)) for _ in range(3))


def add_person(name: str, *, role: str, passphrase: str) -> Person:
    """Let somebody in, or let somebody in again who was shut out.

    Raises InputError if the name is empty, too long or taken, there is no such role, or the passphrase is too weak.
    """
    name = " ".join(name.split())
    if not name or len(name) > MOST_NAME or not name.isprintable():
        raise InputError(where="name", what=f"{name or 'nothing'!r} is no name", right=f"give 1 to {MOST_NAME} letters")
    _check_role(role)
    with transaction.atomic():
        known = people.person(name)
        if known is not None and known.shut_out_at is None:
            raise InputError(where="name", what=f"{known.user.get_username()} is here already", right="take another")
        if name.casefold() == OWNER and role != OWNER:
            raise InputError(where="name", what="owner is who sits at this machine", right="take another name")
        users = get_user_model().objects
        user = users.filter(username__iexact=name).first() or users.create(username=name)
        person = known or Person(user=user, added_at=timezone.now())
        person.role, person.shut_out_at = role, None
        _set(user, passphrase)
        person.save()
    return person


def give_passphrase(person: Person, passphrase: str) -> None:
    """Give somebody another passphrase; whoever is in by the old one is out. Who was shut out may come in again.

    Raises InputError if it is too weak.
    """
    with transaction.atomic():
        _set(person.user, passphrase)
        person.shut_out_at = None
        person.save(update_fields=["shut_out_at"])


def change_role(person: Person, role: str) -> None:
    """Give somebody another role; it holds from their next page on. Raises InputError if there is no such role."""
    _check_role(role)
    person.role = role
    person.save(update_fields=["role"])


def shut_out(person: Person) -> None:
    """Let somebody in no more. Their passphrase is gone and, with it, every browser that is in by it."""
    with transaction.atomic():
        person.shut_out_at = timezone.now()
        person.save(update_fields=["shut_out_at"])
        person.user.set_unusable_password()
        person.user.is_active = False
        person.user.save(update_fields=["password", "is_active"])


def _check_role(role: str) -> None:
    if role not in dict(ROLES):
        known = ", ".join(dict(ROLES))
        raise InputError(where="role", what=f"there is no role {role!r}", right=f"one of {known}")


def _set(user: Any, passphrase: str) -> None:
    try:
        validate_password(passphrase, user)
    except ValidationError:
        what, right = "it is short or easy to guess", "take three words or more, ten letters or more in all"
        raise InputError(where="passphrase", what=what, right=right) from None
    user.set_password(passphrase)
    user.is_active = True
    user.save()
