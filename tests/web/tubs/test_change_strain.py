"""`/tubs/<key>/strain/<straining>/change/`: correct a straining."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Steep, Strain
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def straining(strained: Steep) -> Strain:
    found: Strain = strained.strains.get()
    return found


def where(straining: Strain) -> str:
    return url("tubs.change_strain", key=straining.steep_id, straining=straining.pk)


def test_it_is_filled_with_what_was_typed(client: Client, straining: Strain) -> None:
    entry = filled_with(client, where(straining))
    assert (entry["squeeze"], entry["liquor"], entry["rinse"]) == ("hand", "38 L", "")


def test_a_correction_is_written_and_told(client: Client, straining: Strain) -> None:
    entry = filled_with(client, where(straining)) | {"liquor": "36 L", "note": "some was spilt"}
    response = client.post(where(straining), entry, follow=True)
    assert response.redirect_chain == [(url("tubs.show", key=straining.steep_id), 302)]
    changed = Strain.objects.get(pk=straining.pk)
    assert (changed.liquor_out_l, changed.liquor_typed, changed.note) == (36.0, "36 L", "some was spilt")
    assert (changed.strained_at, changed.rinse_l) == (straining.strained_at, 0.0)
    told = response.context["page"].strained
    assert told.note == "some was spilt"
    assert [row.said for row in told.history] == ["Corrected. Before, it said: note nothing; liquor 38 L."]


def test_nothing_corrected_is_nothing_written(client: Client, straining: Strain) -> None:
    client.post(where(straining), filled_with(client, where(straining)))
    assert not Change.objects.filter(row_id=straining.pk).exists()


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [("liquor", "3 kg", "volume"), ("strained_at", "2001-07-01T08:00", "before the steep began")],
)
def test_a_mistake_keeps_what_was_typed(client: Client, straining: Strain, field: str, text: str, says: str) -> None:
    refused(client, where(straining), filled_with(client, where(straining)) | {field: text}, field=field, says=says)
    assert not Change.objects.filter(row_id=straining.pk).exists()


def test_there_is_no_straining_of_a_wrong_key(client: Client, straining: Strain, steeping: Steep) -> None:
    for key, row in ((straining.steep_id, NOBODY), (steeping.pk, straining.pk)):
        assert client.get(url("tubs.change_strain", key=key, straining=row)).status_code == 404


def test_a_stranger_s_straining_cannot_be_corrected(client: Client, strangers_tub: Steep) -> None:
    theirs = strangers_tub.strains.get()
    assert client.get(where(theirs)).status_code == 404
    assert client.post(where(theirs), {"squeeze": "press"}).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("tubs.change_strain", key=NOBODY, straining=NOBODY))


def test_other_methods_are_refused(client: Client, straining: Strain) -> None:
    only(client, where(straining), "get", "post")
