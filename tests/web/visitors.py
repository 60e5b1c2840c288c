"""Browsers of people: at the machine, of each role from a phone, and of a stranger."""

from __future__ import annotations

from django.contrib.auth import get_user_model
from django.contrib.auth.hashers import make_password
from django.test import Client
from django.utils import timezone

from bluewright.journal.models import Person
from bluewright.journal.models.person import ROLES

ELSEWHERE = "192.0.2.7"
"""An address of the range kept for documentation (RFC 5737): not this machine."""
PASSPHRASE = "wolati-kesuno-dipabe"


def a_person(name: str = "Rowan", *, role: str = "helper", passphrase: str = PASSPHRASE) -> Person:
    """Somebody who may come in."""
    user, _ = get_user_model().objects.update_or_create(username=name, defaults={"password": make_password(passphrase)})
    person, _ = Person.objects.update_or_create(user=user, defaults={"role": role, "added_at": timezone.now()})
    return person


def visitor(role: str, *, strict: bool = False) -> Client:
    """A browser: `home` sits at the machine, `stranger` did not come in, the others came in as their role."""
    client = Client(REMOTE_ADDR="127.0.0.1" if role == "home" else ELSEWHERE, enforce_csrf_checks=strict)
    if role in dict(ROLES):
        client.force_login(a_person(f"{role} of the tests", role=role).user)
    return client
