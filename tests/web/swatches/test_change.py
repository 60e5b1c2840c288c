"""`/swatches/<key>/change/`: what was written of a swatch, put right."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Change, Garden
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_is_corrected_and_what_it_said_before_is_told(client: Client, garden: Garden) -> None:
    row = cast.a_swatch(garden)
    where = url("swatches.change", key=row.pk)
    client.post(where, filled_with(client, where) | {"name": "Hem", "lab": "36 -2 -22"})
    row.refresh_from_db()
    assert (row.name, row.l_star, row.a_star, row.b_star) == ("Hem", 36.0, -2.0, -22.0)
    (change,) = client.get(url("swatches.show", key=row.pk)).context["page"].history
    assert "name Swatch 9" in change.said and "L 34.2" in change.said


def test_sent_back_as_it_was_nothing_is_changed(client: Client, garden: Garden) -> None:
    row = cast.a_swatch(garden, l_sd=0.9, a_sd=0.7, b_sd=0.8, k_over_s=9.6, jar=cast.a_jar_from_the_bed(garden))
    where = url("swatches.change", key=row.pk)
    before = row.l_star, row.b_sd, row.k_over_s, row.jar_id, row.measured_at
    assert client.post(where, filled_with(client, where)).status_code == 302
    row.refresh_from_db()
    assert (row.l_star, row.b_sd, row.k_over_s, row.jar_id, row.measured_at) == before
    assert not Change.objects.filter(row_id=row.pk).exists()


def test_its_jar_stays_though_it_was_taken_out(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    row = cast.a_swatch(garden, jar=jar)
    delete(jar, by=None)
    where = url("swatches.change", key=row.pk)
    client.post(where, filled_with(client, where) | {"name": "Hem"})
    row.refresh_from_db()
    assert (row.name, row.jar_id) == ("Hem", jar.pk)


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    where = url("swatches.change", key=cast.a_swatch(garden).pk)
    refused(client, where, filled_with(client, where) | {"lab": "deep blue"}, field="lab", says="three numbers")


def test_there_is_no_swatch_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_swatch(other_garden).pk):
        assert client.post(url("swatches.change", key=key), {}).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("swatches.change", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("swatches.change", key=cast.a_swatch(garden).pk), "get", "post")
