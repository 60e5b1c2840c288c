"""`/cloth/add/`: a piece is written down."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Photo, Piece
from tests import cast
from tests.pictures import sent
from tests.web.checks import no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/cloth/add/"
TYPED = {
    "name": "Shawl", "fibre": "wool", "mass": "1/2 lb", "basis": "conditioned", "begun_at": cast.typed(cast.moment(2)),
    "wanted_dips": "4", "dip_min": "5", "air_min": "15", "after_dip": "squeezed", "body": "yarn",
}  # fmt: skip


def test_it_is_kept_as_typed_and_can_be_undone(client: Client, garden: Garden) -> None:
    """Half a pound is 226.796 g (international pound, 1959)."""
    response = client.post(WHERE, TYPED | {"ground": "84 1 9.5", "scale_sd_g": "0.1"}, follow=True)
    row = Piece.objects.get()
    assert response.redirect_chain == [(url("cloth.show", key=row.pk), 302)]
    assert (row.mass_typed, row.wanted_dips, row.dip_min, row.garden) == ("1/2 lb", 4, 5.0, garden)
    assert row.mass_g == pytest.approx(226.796, abs=0.001)
    assert client.get(WHERE).context["form"]["scale_sd_g"].value() == row.scale_sd_g == 0.1, (
        "the next one begins with it"
    )
    assert (row.ground_l_star, row.ground_a_star, row.ground_b_star) == (84.0, 1.0, 9.5)
    assert url("cloth.delete", key=row.pk) in [message.extra_tags for message in response.context["messages"]]


def test_it_may_be_to_get_the_colour_of_a_swatch_of_the_garden(
    client: Client, garden: Garden, other_garden: Garden
) -> None:
    mine, theirs = cast.a_swatch(garden), cast.a_swatch(other_garden)
    refused(client, WHERE, TYPED | {"like": str(theirs.pk)}, field="like", says="not one of the available")
    client.post(WHERE, TYPED | {"like": str(mine.pk)})
    row = Piece.objects.get()
    assert row.like_key == mine.pk
    asked = client.get(url("shades.show", key=row.pk)).context["form"]
    assert asked.initial["wanted"] == str(mine.pk)
    mine.delete()
    assert client.get(url("shades.show", key=row.pk)).context["form"].initial["wanted"] == ""


@pytest.mark.parametrize(
    ("change", "field", "says"),
    [
        ({"mass": "soft"}, "mass", "soft"),
        ({"mass": ""}, "mass", "required"),
        ({"wanted_dips": "0"}, "wanted_dips", "greater than or equal to 1"),
        ({"dip_min": "0"}, "dip_min", "greater than or equal to 0.1"),
        ({"body": "ball"}, "thickness", "no usual thickness"),
        ({"ground": "84 1"}, "ground", "three numbers"),
        ({"begun_at": "2099-01-01T10:00"}, "begun_at", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, change: dict[str, str], field: str, says: str
) -> None:
    unchanged = no_rows(Piece)
    refused(client, WHERE, TYPED | change, field=field, says=says)
    unchanged()


def test_its_photos_are_kept_with_it(client: Client, garden: Garden) -> None:
    client.post(WHERE, TYPED | {"photos": [sent()]})
    row, photo = Piece.objects.get(), Photo.objects.get()
    assert (photo.about_kind, photo.about_id) == ("piece", row.pk)
    assert url("photos.show", key=photo.pk) in client.get(url("cloth.show", key=row.pk)).content.decode()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE, "post")


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")
