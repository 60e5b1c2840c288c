"""`/beds/<key>/change/`: correct what was written of a bed."""

import pytest
from django.test import Client

from bluewright.journal.models import Bed, Change, Garden
from tests.cast import a_bed
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def bed(garden: Garden) -> Bed:
    return a_bed(garden, name="East", area_m2=9.290304, area_typed="100 ft2", origin="self_sown", note="stony")


def where(bed: Bed) -> str:
    return url("beds.change", key=bed.pk)


def test_it_is_filled_with_what_was_typed(client: Client, bed: Bed) -> None:
    assert filled_with(client, where(bed)) == {
        "name": "East", "plant": "woad", "origin": "self_sown", "area": "100 ft2", "note": "stony",
        "soil": "unknown", "shade": "", "watered_by": "can",
    }  # fmt: skip


def test_a_correction_is_written_and_what_it_said_before_is_kept(client: Client, bed: Bed) -> None:
    """A foot is 0.3048 m by definition: 50 square feet are 4.645152 square metres."""
    response = client.post(where(bed), filled_with(client, where(bed)) | {"area": "50 ft2"})
    assert (response.status_code, response["Location"]) == (302, url("beds.show", key=bed.pk))
    changed = Bed.objects.get(pk=bed.pk)
    assert (changed.name, changed.area_typed) == ("East", "50 ft2")
    assert changed.area_m2 == pytest.approx(4.645152)
    assert changed.changed_by is not None
    assert Change.objects.get(row_id=bed.pk).before["area_typed"] == "100 ft2"


def test_nothing_corrected_is_nothing_written(client: Client, bed: Bed) -> None:
    client.post(where(bed), filled_with(client, where(bed)))
    assert not Change.objects.filter(row_id=bed.pk).exists()
    assert Bed.objects.get(pk=bed.pk).changed_at == bed.changed_at


def test_a_bare_number_keeps_its_value_when_the_garden_changed_its_units(client: Client, garden: Garden) -> None:
    """Twelve square metres do not become twelve square feet because the form was opened again."""
    bed = a_bed(garden, area_m2=12.0, area_typed="12")
    Garden.objects.filter(pk=garden.pk).update(system="us")
    client.post(where(bed), filled_with(client, where(bed)) | {"name": "New"})
    changed = Bed.objects.get(pk=bed.pk)
    assert (changed.name, changed.area_m2, changed.area_typed) == ("New", 12.0, "12")


@pytest.mark.parametrize(
    ("field", "text", "says"), [("name", "", "required"), ("area", "5 kg", "area"), ("plant", "oak", "not one of")]
)
def test_a_mistake_keeps_what_was_typed(client: Client, bed: Bed, field: str, text: str, says: str) -> None:
    refused(client, where(bed), filled_with(client, where(bed)) | {field: text}, field=field, says=says)
    assert not Change.objects.filter(row_id=bed.pk).exists()


def test_there_is_no_bed_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("beds.change", key=NOBODY)).status_code == 404


def test_a_stranger_s_bed_cannot_be_corrected(client: Client, other_garden: Garden) -> None:
    theirs = Bed.objects.get(garden=other_garden)
    assert client.get(where(theirs)).status_code == 404
    assert client.post(where(theirs), {"name": "Mine"}).status_code == 404
    assert Bed.objects.get(pk=theirs.pk).name == theirs.name


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("beds.change", key=NOBODY))


def test_other_methods_are_refused(client: Client, bed: Bed) -> None:
    only(client, where(bed), "get", "post")
