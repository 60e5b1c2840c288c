"""`/jarlooks/<kind>/<key>/photo/<photo>/at-once/`: what the boxes drawn so far say."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, JarLook, Measured, Reading, Steep
from tests.web.checks import NOBODY, no_rows, only, to_the_start_without_a_garden, url
from tests.web.measuring import a_jar_photo, jar_typed

pytestmark = pytest.mark.django_db


def html(client: Client, tub: Steep, photo: object, typed: dict[str, str]) -> str:
    where = url("jarlooks.live", kind="tub", key=tub.pk, photo=photo.pk)  # type: ignore[attr-defined]
    return str(client.post(where, typed).json()["html"])


def test_it_says_at_once_whether_there_is_blue_and_writes_nothing(
    client: Client, garden: Garden, steeping: Steep
) -> None:
    photo, unchanged = a_jar_photo(garden, of=steeping, kind="tub"), no_rows(JarLook, Measured, Reading)
    said = html(client, steeping, photo, jar_typed())
    assert "Blue dye is there" in said
    assert "+0.28" in said
    unchanged()


def test_until_both_jars_have_their_box_it_says_nothing(client: Client, garden: Garden, steeping: Steep) -> None:
    photo = a_jar_photo(garden, of=steeping, kind="tub")
    assert html(client, steeping, photo, jar_typed(water="")).strip() == ""


def test_what_is_missing_then_is_told_by_its_name(client: Client, garden: Garden, steeping: Steep) -> None:
    photo = a_jar_photo(garden, of=steeping, kind="tub")
    assert "Inner width of the jar: This field is required." in html(client, steeping, photo, jar_typed(path=""))


def test_strangers_and_wrong_keys_get_nothing(client: Client, other_garden: Garden, strangers_tub: Steep) -> None:
    photo = a_jar_photo(other_garden, of=strangers_tub, kind="tub")
    where = url("jarlooks.live", kind="tub", key=strangers_tub.pk, photo=photo.pk)
    assert client.post(where, jar_typed()).status_code == 404
    assert client.post(url("jarlooks.live", kind="tub", key=NOBODY, photo=photo.pk), {}).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jarlooks.live", kind="tub", key=NOBODY, photo=NOBODY), "post")


def test_it_is_only_posted(client: Client, garden: Garden, steeping: Steep) -> None:
    photo = a_jar_photo(garden, of=steeping, kind="tub")
    only(client, url("jarlooks.live", kind="tub", key=steeping.pk, photo=photo.pk), "post")
