"""`/plan/<want>/change/`: a want, put right."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_is_corrected_and_what_it_said_before_is_kept(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden)
    where = url("plan.change", key=row.pk)
    client.post(where, filled_with(client, where) | {"mass": "800 g", "depth": "deep"})
    row.refresh_from_db()
    assert (row.mass_g, row.depth) == (800.0, "deep")
    assert Change.objects.get(row_id=row.pk).before["depth"] == "medium"


def test_sent_back_as_it_was_nothing_is_changed(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden, fixed_frac=0.018, fixed_typed="1.8 %")
    where = url("plan.change", key=row.pk)
    assert client.post(where, filled_with(client, where)).status_code == 302
    assert not Change.objects.filter(row_id=row.pk).exists()


def test_pigment_keeps_its_own_form(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden, what="pigment", fibre="", depth="")
    where = url("plan.change", key=row.pk)
    client.post(where, filled_with(client, where) | {"purity": "25 %"})
    row.refresh_from_db()
    assert (row.purity_frac, row.fibre) == (0.25, "")


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    where = url("plan.change", key=cast.a_want(garden).pk)
    refused(client, where, filled_with(client, where) | {"mass": "a lot"}, field="mass", says="a lot")


def test_wrong_keys_and_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_want(other_garden).pk):
        assert client.post(url("plan.change", key=key), {}).status_code == 404


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("plan.change", key=cast.a_want(garden).pk), "get", "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("plan.change", key=NOBODY))
