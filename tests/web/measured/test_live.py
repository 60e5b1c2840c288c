"""`/measured/photo/<photo>/at-once/`: what the boxes drawn so far would give."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Measured, Steep
from tests.cast import a_photo
from tests.web.checks import NOBODY, no_rows, only, to_the_start_without_a_garden, url
from tests.web.measuring import a_cloth_photo, cloth_typed

pytestmark = pytest.mark.django_db


def test_the_colour_comes_at_once_and_nothing_is_written(client: Client, garden: Garden, steeping: Steep) -> None:
    photo, unchanged = a_cloth_photo(garden, of=steeping), no_rows(Measured)
    html = client.post(url("measured.live", photo=photo.pk), cloth_typed()).json()["html"]
    assert "Sample 1: L* 38, a* -2, b* -22" in html
    assert '<rect width="26" height="26" fill="#' in html
    unchanged()


def test_before_a_box_is_drawn_it_says_nothing(client: Client, garden: Garden, steeping: Steep) -> None:
    photo = a_cloth_photo(garden, of=steeping)
    assert client.post(url("measured.live", photo=photo.pk), {"light": "daylight"}).json()["html"].strip() == ""


def test_a_box_that_cannot_be_is_told(client: Client, garden: Garden, steeping: Steep) -> None:
    photo = a_cloth_photo(garden, of=steeping)
    html = client.post(url("measured.live", photo=photo.pk), cloth_typed(samples="700, 500, 300, 300")).json()["html"]
    assert "picture" in html


def test_strangers_and_wrong_keys_get_nothing(client: Client, other_garden: Garden, strangers_tub: Steep) -> None:
    photo = a_photo(other_garden, of=strangers_tub, kind="tub")
    assert client.post(url("measured.live", photo=photo.pk), cloth_typed()).status_code == 404
    assert client.post(url("measured.live", photo=NOBODY), cloth_typed()).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("measured.live", photo=NOBODY), "post")


def test_it_is_only_posted(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, url("measured.live", photo=a_cloth_photo(garden, of=steeping).pk), "post")
