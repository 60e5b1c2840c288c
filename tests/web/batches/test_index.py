"""`/batches/`: batches that are worked on, and liquor that waits for one."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Steep, Strain
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/batches/"


def test_strained_liquor_waits_until_it_is_in_a_batch(client: Client, strained: Steep) -> None:
    strain = strained.strains.get()
    assert f"?strain={strain.pk}" in client.get(WHERE).content.decode()
    batch = cast.a_batch(strain)
    said = client.get(WHERE).content.decode()
    assert f"?strain={strain.pk}" not in said
    assert url("batches.show", key=batch.pk) in said


def test_what_is_over_is_not_worked_on(client: Client, strained: Steep) -> None:
    batch = cast.a_batch(strained.strains.get(), name="Finished one")
    cast.a_jar((batch, 10.0))
    assert "Finished one" not in client.get(WHERE).content.decode()


def test_an_empty_garden_says_what_comes_first(client: Client, garden: Garden) -> None:
    Strain.objects.all().delete()
    assert "Strain a tub" in client.get(WHERE).content.decode()


def test_a_stranger_s_liquor_is_not_shown(client: Client, garden: Garden, strangers_tub: Steep) -> None:
    cast.a_batch(strangers_tub.strains.get(), name="Not yours")
    assert "Not yours" not in client.get(WHERE).content.decode()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_batches_need_no_more_statements(client: Client, strained: Steep) -> None:
    strain = strained.strains.get()
    cast.a_batch(strain, liquor_l=[5.0])
    flat(client, WHERE, lambda: [cast.a_batch(strain, liquor_l=[5.0]) for _ in range(3)])
