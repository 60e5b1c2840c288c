"""`/pickings/add/`: a new picking."""

import pytest
from django.test import Client

from bluewright.journal.models import Bed, Garden, PickedFrom, Picking
from tests.cast import a_garden, moment, typed
from tests.web.checks import no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/pickings/add/"


def entry(**other: object) -> dict[str, object]:
    plain = {"picked_at": typed(moment(2)), "plant": "woad", "leaf": "7 1/2 lb", "age": "young", "damaged": "10 %"}
    return {**plain, "note": "dewy"} | other


def test_a_picking_is_written_as_typed_and_in_kilograms(client: Client, garden: Garden) -> None:
    """A pound is 0.45359237 kg by definition: 7.5 lb are 3.401943 kg."""
    bed = Bed.objects.get(garden=garden, name="Long bed")
    assert client.get(WHERE).status_code == 200
    response = client.post(WHERE, entry(beds=[str(bed.pk)]))
    assert (response.status_code, response["Location"]) == (302, url("pickings.index"))
    made = Picking.objects.get(leaf_typed="7 1/2 lb")
    assert made.leaf_kg == pytest.approx(3.401942775)
    assert (made.garden, made.age, made.note, made.picked_at) == (garden, "young", "dewy", moment(2))
    assert made.damaged_frac == pytest.approx(0.1)
    assert list(made.beds.all()) == [bed]


def test_beds_and_damage_may_be_left_out(client: Client, garden: Garden) -> None:
    client.post(WHERE, entry(damaged=""))
    made = Picking.objects.get(leaf_typed="7 1/2 lb")
    assert (made.damaged_frac, made.beds.count()) == (0.0, 0)


def test_how_the_cut_was_timed_is_kept_and_told(client: Client, garden: Garden) -> None:
    client.post(WHERE, entry(timing="late"))
    made = Picking.objects.get(leaf_typed="7 1/2 lb")
    assert made.timing == "late"
    page = client.get(url("pickings.show", key=made.pk)).context["page"]
    assert page.timing == "Cut late: leaf yellowed, or buds showed."


def test_in_an_empty_garden_it_works_too(client: Client) -> None:
    a_garden()
    assert client.post(WHERE, entry()).status_code == 302


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("leaf", "some", "some"),
        ("leaf", "", "required"),
        ("leaf", "3 L", "mass"),
        ("damaged", "120 %", "120"),
        ("picked_at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    unchanged = no_rows(Picking)
    refused(client, WHERE, entry(**{field: text}), field=field, says=says)
    unchanged()


def test_a_stranger_s_bed_is_no_choice(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = Bed.objects.get(garden=other_garden)
    known = PickedFrom.objects.count()
    assert client.post(WHERE, entry(beds=[str(theirs.pk)])).status_code == 422
    assert str(theirs.pk) not in client.get(WHERE).content.decode()
    assert PickedFrom.objects.count() == known


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")


def test_it_says_what_skin_sun_and_back_should_mind(client: Client, garden: Garden) -> None:
    html = client.get(WHERE).content.decode()
    assert "gloves and long sleeves" in html
    assert "Pick in the early morning" in html
    assert "baskets of 25 kg at most" in html
    garden.system = "us"
    garden.save()
    assert "baskets of 55 lb at most" in client.get(WHERE).content.decode()


def test_the_only_bed_is_chosen_beforehand_and_one_of_several_is_not(client: Client, garden: Garden) -> None:
    assert not client.get(WHERE).context["form"].initial.get("beds")
    only = Bed.objects.filter(garden=garden).first()
    assert only is not None
    Bed.objects.filter(garden=garden).exclude(pk=only.pk).update(deleted_at=moment(0))
    assert client.get(WHERE).context["form"].initial["beds"] == [str(only.pk)]
