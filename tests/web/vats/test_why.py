"""`/vats/<key>/why/<figure>/`: why a figure of a vat is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_a_figure_is_explained(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    page = client.get(url("vats.why", key=vat.pk, figure="active_g_per_l")).context["page"]
    assert page.figure.said
    assert page.constants


def test_there_is_no_page_for_what_is_no_figure(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    assert client.get(url("vats.why", key=vat.pk, figure="nothing")).status_code == 404
    assert client.get(url("vats.why", key=NOBODY, figure="ph")).status_code == 404


def test_where_nothing_can_be_said_it_leads_back(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden)
    cast.a_vat_addition(vat, "dithionite")
    assert client.get(url("vats.why", key=vat.pk, figure="ph"))["Location"] == url("vats.show", key=vat.pk)


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("vats.why", key=NOBODY, figure="ph"))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, url("vats.why", key=cast.a_vat(garden).pk, figure="ph"), "get")
