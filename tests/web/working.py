"""Batches as the pages from airing to dry paste meet them, and the checks that all their posts share."""

from __future__ import annotations

from typing import Any

from django.test import Client
from django.utils import timezone

from bluewright.journal.models import Airing, Batch, Garden, Kept, Strain
from bluewright.journal.models.kept import KEPT_AFTER_DELETE
from tests import cast
from tests.web.checks import NOBODY, only, url


def a_working_batch(garden: Garden, *, warm: bool = True, alkali: bool = True, **other: Any) -> Batch:
    """Eight litres of the garden's strained tub, alkali in it, its temperature read unless told otherwise."""
    strain = Strain.objects.filter(steep__garden=garden).order_by("strained_at")[0]
    batch = cast.a_batch(strain, liquor_l=[8.0], **{"begun_at": cast.moment(2)} | other)
    if warm:
        cast.a_liquor_look(batch, hours_ago=1.5, temp_c=17.0, temp_typed="17 C")
    if alkali:
        cast.an_alkali_part(batch, cast.an_alkali(garden), hours_ago=1.0, ph=9.4)
    return batch


def an_aired_batch(garden: Garden, **other: Any) -> tuple[Batch, Airing]:
    """A working batch that has been poured 20 times in ten minutes."""
    batch = a_working_batch(garden)
    return batch, cast.an_airing(batch, **other)


def posts_only_to_what_is_there(client: Client, name: str, *, other_garden: Garden, key: Any, row: Any = None) -> None:
    """A wrong key, a stranger's batch and every other method are refused, and without a garden it leads to the start.

    `row` is a row of the stranger's batch `key`, where the address has one.
    """
    assert Garden.objects.filter(pk=other_garden.pk).exists()
    keys = {"key": key} if row is None else {"key": key, "row": row}
    assert client.post(url(name, **keys)).status_code == 404
    assert client.post(url(name, **keys | {"key": NOBODY})).status_code == 404
    only(client, url(name, **keys), "post")
    Garden.objects.update(deleted_at=timezone.now())
    assert client.post(url(name, **keys))["Location"] == url("gardens.begin")


def taken_out_and_back(client: Client, row: Kept, *, delete: str, restore: str, back_to: str) -> None:
    """A post takes the row out with an undo beside the word, a second brings it back, a third changes nothing more."""
    kind = type(row)
    response = client.post(delete, follow=True)
    assert response.redirect_chain == [(back_to, 302)]
    assert kind.everything.get(pk=row.pk).deleted_at is not None
    assert [message.extra_tags for message in response.context["messages"]] == [restore]
    assert restore in response.content.decode()
    for _ in range(2):
        assert client.post(restore, follow=True).redirect_chain == [(back_to, 302)]
        assert kind.everything.get(pk=row.pk).deleted_at is None


def too_late_to_bring_back(client: Client, row: Kept, *, delete: str, restore: str) -> None:
    """After thirty days it stays out, and the page says so."""
    client.post(delete)
    kind = type(row)
    gone = kind.everything.get(pk=row.pk)
    gone.deleted_at = gone.deleted_at - KEPT_AFTER_DELETE  # type: ignore[operator]
    gone.save()
    assert "cannot be brought back" in client.post(restore, follow=True).content.decode()
    assert kind.everything.get(pk=row.pk).deleted_at is not None
