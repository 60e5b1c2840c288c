"""`/washing/tap/`: what the tap water reads, kept for the garden."""

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.models import Garden
from tests.web.checks import NOBODY, only, url
from tests.web.working import a_working_batch

pytestmark = pytest.mark.django_db


def test_the_tap_is_kept_for_the_garden(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden)
    response = client.post(url("washing.tap"), {"batch": str(batch.pk), "ph": "7,4", "conductivity": "420"})
    assert response["Location"] == url("settling.show", key=batch.pk)
    kept = Garden.objects.get(pk=garden.pk)
    assert (kept.tap_ph, kept.tap_conductivity_us_per_cm) == (7.4, 420.0)


def test_what_is_left_out_stays(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden)
    Garden.objects.update(tap_ph=7.4)
    client.post(url("washing.tap"), {"batch": str(batch.pk), "ph": "", "conductivity": "420"})
    kept = Garden.objects.get(pk=garden.pk)
    assert (kept.tap_ph, kept.tap_conductivity_us_per_cm) == (7.4, 420.0)


@pytest.mark.parametrize(("ph", "says"), [("", "Nothing is entered"), ("77", "less than or equal to 14")])
def test_a_mistake_is_said_and_keeps_nothing(client: Client, garden: Garden, ph: str, says: str) -> None:
    batch = a_working_batch(garden)
    response = client.post(url("washing.tap"), {"batch": str(batch.pk), "ph": ph, "conductivity": ""}, follow=True)
    assert says in " ".join(str(message) for message in response.context["messages"])
    assert Garden.objects.get(pk=garden.pk).tap_ph is None


def test_it_belongs_to_a_batch_of_this_garden(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, "no key", "", a_working_batch(other_garden).pk):
        assert client.post(url("washing.tap"), {"batch": str(key), "ph": "7"}).status_code == 404


def test_it_is_posted_and_only_within_a_garden(client: Client, garden: Garden) -> None:
    only(client, url("washing.tap"), "post")
    Garden.objects.update(deleted_at=timezone.now())
    assert client.post(url("washing.tap"))["Location"] == url("gardens.begin")
