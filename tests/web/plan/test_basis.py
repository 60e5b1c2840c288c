"""`/plan/basis/`: how the garden works."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden, PlanBasis
from tests import cast
from tests.web.checks import filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where() -> str:
    return url("plan.basis")


TOLD = {"plant": "woad", "chance": "0.9", "vat": "30 L", "in_it": "12 g", "vat_kind": "ferment", "steep_kind": "cold"}


def test_it_is_written_down_once_and_then_changed(client: Client, garden: Garden) -> None:
    client.post(where(), TOLD)
    row = PlanBasis.objects.get()
    assert (row.vat_l, row.in_it_g, row.vat_kind, row.chance, row.tub_l) == (30.0, 12.0, "ferment", 0.9, None)
    client.post(where(), TOLD | {"tub": "60 L", "width": "120 cm"})
    row = PlanBasis.objects.get()
    assert (row.tub_l, row.width_m) == (60.0, pytest.approx(1.2))
    assert Change.objects.filter(row_id=row.pk).count() == 1


def test_sent_back_as_it_was_nothing_is_changed(client: Client, garden: Garden) -> None:
    client.post(where(), TOLD)
    client.post(where(), filled_with(client, where()))
    assert not Change.objects.exists()


def test_unsaid_it_begins_with_the_plant_of_the_largest_beds(client: Client, garden: Garden) -> None:
    cast.a_bed(garden, plant="japanese_indigo", area_m2=500.0, area_typed="500 m2")
    assert filled_with(client, where())["plant"] == "japanese_indigo"


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    refused(client, where(), TOLD | {"vat": "a bucket"}, field="vat", says="a bucket")
    assert not PlanBasis.objects.exists()


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(), "get", "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, where())
