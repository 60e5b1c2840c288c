"""`/gardens/taken-out/`: what was taken out, each with its way back."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Bed, Garden, Steep
from tests.cast import a_batch, a_bed, a_jar, a_kit_item, a_look, a_picking, a_straining, a_tub
from tests.web.checks import flat, only, to_the_start_without_a_garden
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db
WHERE = "/gardens/taken-out/"


def test_each_kind_can_be_brought_back_from_here(client: Client, garden: Garden) -> None:
    tub, whole = a_tub(garden), a_tub(garden, name="Whole")
    rows = [a_bed(garden, name="East"), a_picking(garden), whole, a_look(tub), a_straining(tub)]
    batch = a_batch(a_straining(a_tub(garden)))
    rows += [batch, a_jar((a_batch(a_straining(a_tub(garden))), 5.0))]
    for row in rows:
        delete(row, by=None)
    page = client.get(WHERE).context["page"]
    assert len(page.gone) == len(rows)
    assert page.gone[-1].said == "Bed East"
    assert page.gone[0].left == "29 days left"
    for gone in page.gone:
        assert gone.back in client.get(WHERE).content.decode()
        client.post(gone.back)
    assert client.get(WHERE).context["page"].gone == ()
    for row in rows:
        assert type(row).objects.filter(pk=row.pk).exists()


def test_lists_lead_here_once_something_was_taken_out(client: Client, garden: Garden) -> None:
    bed = a_bed(garden, name="East")
    assert WHERE not in client.get("/beds/").content.decode()
    delete(bed, by=None)
    assert WHERE in client.get("/beds/").content.decode()


def test_what_is_the_owner_s_is_offered_to_the_owner_alone(client: Client, garden: Garden) -> None:
    for row in (a_bed(garden, name="East"), a_kit_item(garden)):
        delete(row, by=None)
    assert len(client.get(WHERE).context["page"].gone) == 2
    assert [gone.said for gone in visitor("helper").get(WHERE).context["page"].gone] == ["Bed East"]


def test_what_hangs_on_a_tub_that_was_taken_out_comes_after_it(client: Client, steeping: Steep) -> None:
    delete(steeping.readings.first(), by=None)
    delete(steeping, by=None)
    assert [gone.said.split(",")[0] for gone in client.get(WHERE).context["page"].gone] == ["Tub Tub 3"]


def test_what_is_gone_for_longer_is_not_offered(client: Client, garden: Garden) -> None:
    bed = a_bed(garden)
    delete(bed, by=None)
    Bed.everything.filter(pk=bed.pk).update(deleted_at=timezone.now() - timedelta(days=31))
    page = client.get(WHERE)
    assert page.context["page"].gone == ()
    assert "Nothing was taken out" in page.content.decode()


def test_a_stranger_s_things_are_not_offered(client: Client, other_garden: Garden) -> None:
    delete(Bed.objects.get(garden=other_garden), by=None)
    assert client.get(WHERE).context["page"].gone == ()


def test_as_json_it_is_the_same(client: Client, garden: Garden) -> None:
    assert client.get(WHERE, {"as": "json"}).json() == {"gone": []}


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_things_need_no_more_statements(client: Client, steeping: Steep) -> None:
    flat(client, WHERE, lambda: [delete(row, by=None) for row in steeping.readings.all()])
