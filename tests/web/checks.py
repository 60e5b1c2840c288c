"""The checks that every page's test repeats, said once."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from uuid import UUID

from django.forms import BooleanField
from django.test import Client
from django.urls import reverse

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
    Garden.everything.all().delete()
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


__all__ = ["NOBODY", "flat", "no_rows", "only", "refused", "to_the_start_without_a_garden", "url"]
