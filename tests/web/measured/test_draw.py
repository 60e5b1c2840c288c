"""`/measured/photo/<photo>/`: draw boxes on a photo, and keep what they give."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Measured, Photo, Steep
from bluewright.journal.photos import store
from bluewright.science.colour.differences import ciede2000
from tests.cast import a_photo
from tests.known_photos import CLOTH_LAB
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url
from tests.web.measuring import a_cloth_photo, cloth_typed, measured_cloth

pytestmark = pytest.mark.django_db


def where(photo: Photo) -> str:
    return url("measured.draw", photo=photo.pk)


def test_the_colour_in_the_box_is_the_colour_of_the_cloth(client: Client, garden: Garden, steeping: Steep) -> None:
    """The truth is what the photo was painted from: L* 38, a* -2, b* -22, beside paper of known colour."""
    photo = a_cloth_photo(garden, of=steeping)
    response = client.post(where(photo), cloth_typed(note="in the shade"), follow=True)
    row = Measured.objects.get()
    assert response.redirect_chain == [(url("measured.show", key=row.pk), 302)]
    assert ciede2000(row.answer["samples"][0]["lab"], CLOTH_LAB) < 0.5
    assert (row.name, row.note, row.roles, row.program != "") == ("First dip", "in the shade", ["sample"], True)
    assert row.record["samples"] == [{"x_px": 340, "y_px": 200, "w_px": 240, "h_px": 200}]
    assert "inputs" not in row.answer
    assert row.made_by is not None
    assert url("measured.delete", key=row.pk) in [m.extra_tags for m in response.context["messages"]]


def test_the_page_offers_the_photo_and_a_field_of_numbers_for_each_box(
    client: Client, garden: Garden, steeping: Steep
) -> None:
    photo = a_cloth_photo(garden, of=steeping)
    response = client.get(where(photo))
    text = response.content.decode()
    assert 'data-width="800" data-height="600"' in text
    assert f'data-live="{url("measured.live", photo=photo.pk)}"' in text
    drawn = [name for name, field in response.context["form"].fields.items() if "data-box" in field.widget.attrs]
    assert drawn == ["samples", "white", "around", "grey", "black"]
    assert url("measured.draw", photo=photo.pk) in client.get(url("photos.show", key=photo.pk)).content.decode()


def test_boxes_of_before_can_be_drawn_again(client: Client, garden: Garden, steeping: Steep) -> None:
    row = measured_cloth(client, garden, of=steeping)
    form = client.get(where(row.photo), {"like": row.pk}).context["form"]
    assert form["samples"].value() == "340, 200, 240, 200"
    assert form["white_lab"].value() == "94 0.5 -2"
    assert client.get(where(row.photo), {"like": "nonsense"}).status_code == 200


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"samples": ""}, "samples", "This field is required"),
        ({"samples": "12, 30"}, "samples", "is no box"),
        ({"samples": "12, 30, 0, 9"}, "samples", "no size"),
        ({"samples": "700, 500, 300, 300"}, "samples", "picture"),
        ({"white": "350, 210, 100, 100"}, "white", "lies over"),
        ({"white_lab": "white"}, "white_lab", "three numbers"),
        ({"grey": "20, 20, 40, 40"}, "grey_lab", "missing"),
        ({"light": "moon"}, "light", "valid choice"),
    ],
)
def test_a_mistake_is_told_at_its_field_and_keeps_the_typing(
    client: Client, garden: Garden, steeping: Steep, typed: dict[str, str], field: str, says: str
) -> None:
    unchanged = no_rows(Measured)
    refused(client, where(a_cloth_photo(garden, of=steeping)), cloth_typed(**typed), field=field, says=says)
    unchanged()


def test_a_photo_without_its_original_says_so(client: Client, garden: Garden, steeping: Steep) -> None:
    """Of a garden that came in from a file only small copies are here."""
    photo = a_cloth_photo(garden, of=steeping)
    store.path(photo, "original").unlink()
    page = client.get(where(photo)).context["page"]
    assert "only a small copy" in page.trouble
    assert client.post(where(photo), cloth_typed()).status_code == 422


def test_a_picture_without_colour_is_measured_no_more_than_it_can_be(
    client: Client, garden: Garden, steeping: Steep
) -> None:
    small = a_photo(garden, of=steeping, kind="tub")
    assert client.post(where(small), {"samples": "2, 2, 20, 20", "light": "unknown"}).status_code == 302


def test_strangers_and_wrong_keys_get_nothing(client: Client, other_garden: Garden, strangers_tub: Steep) -> None:
    photo = a_photo(other_garden, of=strangers_tub, kind="tub")
    assert client.get(where(photo)).status_code == 404
    assert client.get(url("measured.draw", photo=NOBODY)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("measured.draw", photo=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, where(a_cloth_photo(garden, of=steeping)), "get", "post")


def test_more_measurements_need_no_more_statements(client: Client, garden: Garden, steeping: Steep) -> None:
    photo = a_cloth_photo(garden, of=steeping)
    client.post(where(photo), cloth_typed())
    flat(client, where(photo), lambda: [client.post(where(photo), cloth_typed(name=name)) for name in "ab"])
