"""The checks that every page's test repeats, said once."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any
from uuid import UUID

from django.forms import BooleanField
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from bluewright.journal.actions import keeping
from bluewright.journal.models import Garden
from tests.cast import counted

NOBODY = UUID("00000000-0000-4000-8000-000000000000")
"""A key that no row has."""


def url(name: str, /, **keys: Any) -> str:
    return reverse(name, kwargs=keys)


def only(client: Client, where: str, *allowed: str) -> None:
    """Every method but the allowed ones is refused with 405."""
    for method in {"get", "post", "put", "patch", "delete"} - set(allowed):
        assert getattr(client, method)(where).status_code == 405, method


def to_the_start_without_a_garden(client: Client, where: str, method: str = "get") -> None:
    """Before the first garden each page leads to where one is begun."""
    Garden.everything.update(deleted_at=timezone.now())
    response = getattr(client, method)(where)
    assert (response.status_code, response["Location"]) == (302, url("gardens.begin"))


def refused(client: Client, where: str, typed: dict[str, Any], *, field: str | None, says: str) -> None:
    """The form is shown again with 422, what was typed, and what is wrong."""
    response = client.post(where, typed)
    assert response.status_code == 422
    form = response.context["form"]
    assert says in " ".join(form.errors[field or "__all__"])
    for name, text in typed.items():
        if name in form.fields and isinstance(text, str) and not isinstance(form.fields[name], BooleanField):
            assert form[name].value() == text, name
    page = response.content.decode()
    assert says in page.replace("&#x27;", "'")


def flat(client: Client, where: str, more: Callable[[], object]) -> None:
    """The page sends as many statements with more rows as with few."""
    assert client.get(where).status_code == 200
    with counted() as few:
        client.get(where)
    more()
    client.get(where)
    with counted() as many:
        assert client.get(where).status_code == 200
    assert few == many


def no_rows(*models: Any) -> Callable[[], None]:
    """A check that no row of these models was added since now."""
    before = [model.everything.count() for model in models]

    def check() -> None:
        assert [model.everything.count() for model in models] == before

    return check


def gone_and_back(client: Client, row: Any, *, delete: str, restore: str) -> None:
    """A post takes the row out and offers to undo it; undoing brings it back."""
    response = client.post(delete, follow=True)
    assert restore in [message.extra_tags for message in response.context["messages"]]
    assert not type(row).objects.filter(pk=row.pk).exists()
    client.post(restore, follow=True)
    assert type(row).objects.filter(pk=row.pk).exists()


def too_late(client: Client, row: Any, where: str) -> None:
    """What was taken out more than thirty days ago stays out, and the page says so."""
    keeping.delete(row, by=None)
    type(row).everything.filter(pk=row.pk).update(deleted_at=timezone.now() - timedelta(days=31))
    assert "thirty days" in client.post(where, follow=True).content.decode()
    assert not type(row).objects.filter(pk=row.pk).exists()


def filled_with(client: Client, where: str) -> dict[str, Any]:
    """What the form of a page holds when it is opened, as the browser would send it again."""
    form = client.get(where).context["form"]
    found = {}
    for bound in form:
        value = bound.value()
        if isinstance(value, datetime):
            value = value.strftime("%Y-%m-%dT%H:%M")
        if value not in (None, False):
            found[bound.name] = "on" if value is True else value
    return found


__all__ = [
    "NOBODY",
    "filled_with",
    "flat",
    "gone_and_back",
    "no_rows",
    "only",
    "refused",
    "to_the_start_without_a_garden",
    "too_late",
    "url",
]
