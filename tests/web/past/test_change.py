"""`/past/<bed>/<row>/change/`: a year is corrected."""

import pytest
from django.test import Client

from bluewright.journal.models import BedPast, Garden
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(row: BedPast) -> str:
    return url("past.change", key=row.bed_id, row=row.pk)


def test_the_form_opens_as_it_was_written_and_keeps_what_was_changed(client: Client, garden: Garden) -> None:
    row = cast.a_year(cast.a_bed(garden), clubroot=True)
    typed = filled_with(client, where(row))
    assert (typed["crop"], typed["clubroot"]) == ("kale", "on")
    del typed["clubroot"]
    response = client.post(where(row), typed | {"crop": "swedes"})
    assert response["Location"] == url("past.show", key=row.bed_id)
    row.refresh_from_db()
    assert (row.crop, row.clubroot) == ("swedes", False)


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    row = cast.a_year(cast.a_bed(garden))
    typed = {"year": "2999", "crop": "rye", "family": "other"}
    refused(client, where(row), typed, field="year", says="still to come")
    row.refresh_from_db()
    assert row.crop == "kale"


def test_wrong_keys_and_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    row, strange = cast.a_year(cast.a_bed(garden)), cast.a_year(cast.a_bed(other_garden))
    assert client.get(where(strange)).status_code == 404
    assert client.get(url("past.change", key=row.bed_id, row=NOBODY)).status_code == 404
    assert client.get(url("past.change", key=row.bed_id, row=strange.pk)).status_code == 404


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(cast.a_year(cast.a_bed(garden))), "get", "post")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, url("past.change", key=NOBODY, row=NOBODY))
