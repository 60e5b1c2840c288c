"""`/ladders/add/`: a ladder is planned."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Ladder, LadderRung
from tests import cast
from tests.web.checks import filled_with, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/ladders/add/"
TYPED = {
    "name": "Wool, June", "fibre": "wool", "vat": "", "bath": "40 L", "active_g_per_l": "1.2", "active_sd_pct": "10",
    "dips": "1 2 4 8", "strip": "5 g", "dip_min": "5", "air_min": "15", "after_dip": "squeezed", "finish": "soaped",
    "body": "yarn", "basis": "conditioned", "scale_sd_g": "0.01", "how": "card", "run": "well_run",
    "ground": "88 0.4 9", "begun_at": cast.typed(cast.moment(2)),
}  # fmt: skip


def test_it_is_kept_with_a_strip_for_each_number_of_dips(client: Client, garden: Garden) -> None:
    response = client.post(WHERE, TYPED, follow=True)
    row = Ladder.objects.get()
    assert response.redirect_chain == [(url("ladders.show", key=row.pk), 302)]
    assert [rung.dips for rung in row.rungs.all()] == [1, 2, 4, 8]
    assert (row.bath_l, row.active_g_per_l, row.active_sd_frac, row.strip_g) == (40.0, 1.2, 0.1, 5.0)
    assert (row.ground_l_star, row.ground_a_star, row.ground_b_star) == (88.0, 0.4, 9.0)
    assert url("ladders.delete", key=row.pk) in [message.extra_tags for message in response.context["messages"]]


def test_without_numbers_those_are_planned_that_teach_most(client: Client, garden: Garden) -> None:
    """Before any ladder of one's own that is the first dip, and the most that are asked about (12)."""
    client.post(WHERE, TYPED | {"dips": ""})
    dips = [rung.dips for rung in Ladder.objects.get().rungs.all()]
    assert len(dips) == 4
    assert (dips[0], dips[-1]) == (1, 12)


def test_a_vat_of_the_book_brings_its_litres(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    form = filled_with(client, f"{WHERE}?vat={vat.pk}")
    assert form["vat"] == str(vat.pk)
    client.post(WHERE, TYPED | {"vat": str(vat.pk), "bath": ""})
    row = Ladder.objects.get()
    assert (row.vat, row.bath_l, row.bath_typed, row.reckoned) == (vat, 40.0, "40 L", False)


def test_a_strength_left_out_is_that_of_the_vat(client: Client, garden: Garden) -> None:
    """60 g of powder with 35 % indigo in 40 L hold 0.53 g/L, of which not all is reduced; its pH was read as 9.4."""
    vat = cast.a_made_vat(garden)
    client.post(WHERE, TYPED | {"vat": str(vat.pk), "bath": "", "active_g_per_l": "", "active_sd_pct": ""})
    row = Ladder.objects.get()
    assert row.reckoned and 0.1 < row.active_g_per_l < 0.53
    assert row.active_sd_frac is not None and row.ph == 9.4


@pytest.mark.parametrize(
    ("change", "field", "says"),
    [
        ({"dips": "1 x"}, "dips", "like 1 2 4 8"),
        ({"dips": "1 41"}, "dips", "from 1 to 40"),
        ({"dips": "1 " * 13}, "dips", "too many strips"),
        ({"bath": ""}, "bath", "choose a vat"),
        ({"active_g_per_l": ""}, "active_g_per_l", "choose a vat"),
        ({"body": "sheet"}, "thickness", "no usual thickness"),
        ({"strip": "1000 g", "bath": "1 L", "dips": ""}, "bath", "too little for 1 kg"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, change: dict[str, str], field: str, says: str
) -> None:
    unchanged = no_rows(Ladder, LadderRung)
    refused(client, WHERE, TYPED | change, field=field, says=says)
    unchanged()


def test_another_s_vat_is_not_offered(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_made_vat(other_garden)
    refused(client, WHERE, TYPED | {"vat": str(theirs.pk)}, field="vat", says="not one of")


def test_it_asks_and_posts_only(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")
    to_the_start_without_a_garden(client, WHERE)
