"""Batches as the pages from airing to dry paste meet them, and the checks that all their posts share."""

from __future__ import annotations

from typing import Any

from django.test import Client
from django.utils import timezone

from bluewright.journal.models import Airing, Batch, Drying, Garden, Kept, Standing, Strain
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


def a_settling_batch(garden: Garden, *, edges: bool = True, **other: Any) -> tuple[Batch, Standing]:
    """A batch, aired, that has stood 30 cm deep for six hours; its edge stood at 26 and then at 18 cm."""
    batch = a_working_batch(garden, begun_at=cast.moment(30))
    cast.an_airing(batch, started_at=cast.moment(9), ended_at=cast.moment(8))
    seen = [(4.0, 260.0), (1.0, 180.0)] if edges else []
    return batch, cast.a_standing(batch, **{"hours_ago": 6.0, "edges": seen} | other)


def a_decanted_batch(garden: Garden, **other: Any) -> tuple[Batch, Standing]:
    """A batch that was decanted to 1.2 L two hours ago; the clear was straw, at pH 9.2 and 3600 uS/cm."""
    seen: dict[str, Any] = {
        "hours_ago": 26.0, "decanted_at": cast.moment(2), "left_l": 1.2, "left_typed": "1.2 L", "blue_in_decant": 0,
        "ph": 9.2, "conductivity_us_per_cm": 3600.0,
    }  # fmt: skip
    return a_settling_batch(garden, edges=False, **seen | other)


def a_drying_batch(garden: Garden, *weighings: tuple[float, float], **other: Any) -> tuple[Batch, Drying]:
    """A decanted batch with a dish of 100 g that weighed so many grams so many hours ago."""
    batch, _standing = a_decanted_batch(garden)
    return batch, cast.a_drying(batch, *(weighings or ((90.0, 240.0), (66.0, 190.0), (30.0, 150.0))), **other)


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
