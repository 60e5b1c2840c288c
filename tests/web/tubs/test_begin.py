"""`/tubs/begin/`: begin a steep."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Picking, Steep
from tests.cast import a_garden, a_picking, a_tub, moment, typed
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/tubs/begin/"


def entry(*pickings: Picking, **other: object) -> dict[str, object]:
    plain = {
        "name": "Tub 5", "plant": "woad", "started_at": typed(moment(1)), "water": "10 gal", "method": "cold",
        "cut": "torn", "covered": "on", "sun": "shade", "can_strain": "08:00  18:30", "leaf": "",
    }  # fmt: skip
    return {**plain, "pickings": [str(p.pk) for p in pickings]} | other


def test_a_tub_is_written_as_typed_and_in_litres(client: Client, garden: Garden) -> None:
    """A US gallon is 3.785411784 L by definition."""
    picking = a_picking(garden)
    response = client.post(WHERE, entry(picking))
    tub = Steep.objects.get(name="Tub 5")
    assert (response.status_code, response["Location"]) == (302, url("tubs.show", key=tub.pk))
    assert (tub.garden, tub.started_at, tub.method, tub.cut) == (garden, moment(1), "cold", "torn")
    assert tub.water_typed == "10 gal"
    assert tub.water_l == pytest.approx(37.85411784)
    assert (tub.covered, tub.insulated, tub.sun, tub.can_strain) == (True, False, "shade", "08:00 18:30")
    (part,) = tub.leaf.all()
    assert (part.picking, part.leaf_kg, part.leaf_typed) == (picking, 3.0, "3 kg")
    assert client.get(response["Location"]).status_code == 200


def test_each_tub_has_its_own_draws(client: Client, garden: Garden) -> None:
    for name in ("A", "B"):
        client.post(WHERE, entry(a_picking(garden), name=name))
    assert Steep.objects.get(name="A").seed != Steep.objects.get(name="B").seed


def test_less_than_all_of_a_picking_is_kept_as_typed(client: Client, garden: Garden) -> None:
    client.post(WHERE, entry(a_picking(garden), leaf="500 g"))
    (part,) = Steep.objects.get(name="Tub 5").leaf.all()
    assert (part.leaf_kg, part.leaf_typed) == (0.5, "500 g")


def test_a_mass_of_two_pickings_is_shared_out_by_mass(client: Client, garden: Garden) -> None:
    """Own hand: 4 kg of pickings of 3 and 5 kg are 1.5 and 2.5 kg."""
    client.post(WHERE, entry(a_picking(garden), a_picking(garden, leaf_kg=5.0), leaf="4 kg"))
    parts = Steep.objects.get(name="Tub 5").leaf.order_by("leaf_kg")
    assert [part.leaf_kg for part in parts] == pytest.approx([1.5, 2.5])


def test_the_picking_that_led_here_is_chosen_already(client: Client, garden: Garden) -> None:
    picking = a_picking(garden, plant="japanese_indigo")
    form = client.get(WHERE, {"picking": str(picking.pk)}).context["form"]
    assert form["pickings"].value() == [str(picking.pk)]
    assert form["plant"].value() == "japanese_indigo"


def test_the_only_leaf_that_waits_is_chosen_and_leaf_in_a_tub_says_in_which(client: Client, garden: Garden) -> None:
    gone, waits = a_picking(garden), a_picking(garden)
    client.post(WHERE, entry(gone))
    form = client.get(WHERE).context["form"]
    assert form["pickings"].value() == [str(waits.pk)]
    told = dict(form.fields["pickings"].widget.choices)
    assert "3 kg Tub 5" in told[str(gone.pk)]
    assert "Tub 5" not in told[str(waits.pk)]
    a_picking(garden)
    assert client.get(WHERE).context["form"]["pickings"].value() is None


@pytest.mark.parametrize("strange", ["", "rubbish", str(NOBODY)])
def test_a_wrong_picking_in_the_address_is_no_choice(client: Client, garden: Garden, strange: str) -> None:
    response = client.get(WHERE, {"picking": strange})
    assert response.status_code == 200
    assert response.context["form"]["pickings"].value() is None


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("name", "", "required"),
        ("water", "a bath", "bath"),
        ("water", "", "required"),
        ("leaf", "2 L", "mass"),
        ("started_at", "2999-07-01T08:00", "still to come"),
        ("started_at", "yesterday", "valid"),
        ("can_strain", "25:00", "valid"),
        ("can_strain", "8 o'clock", "valid"),
        ("method", "boiling", "not one of"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    typed_in = entry(a_picking(garden), **{field: text})
    unchanged = no_rows(Steep)
    refused(client, WHERE, typed_in, field=field, says=says)
    unchanged()


def test_a_tub_without_leaf_is_a_mistake(client: Client, garden: Garden) -> None:
    refused(client, WHERE, entry(), field="pickings", says="Choose the picking")


def test_leaf_of_another_plant_is_a_mistake(client: Client, garden: Garden) -> None:
    refused(client, WHERE, entry(a_picking(garden), plant="indigofera"), field="pickings", says="another plant")


def test_in_an_empty_garden_the_page_is_there(client: Client) -> None:
    a_garden()
    assert client.get(WHERE).status_code == 200


def test_a_stranger_s_picking_is_no_choice(client: Client, other_garden: Garden) -> None:
    theirs = Picking.objects.get(garden=other_garden)
    unchanged = no_rows(Steep)
    assert client.post(WHERE, entry(theirs)).status_code == 422
    unchanged()
    assert str(theirs.pk) not in client.get(WHERE).content.decode()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")


def test_more_pickings_need_no_more_statements(client: Client, garden: Garden) -> None:
    flat(client, WHERE, lambda: [a_picking(garden) for _ in range(4)])


def test_leaf_of_long_ago_that_was_chosen_can_still_go_in(client: Client, garden: Garden) -> None:
    """It is not among those offered; the page of the picking leads here with it, and what is posted counts."""
    old = a_picking(garden, picked_at=moment(24 * 90))
    a_tub(garden, leaf=[(old, 1.0)], started_at=moment(24 * 89))
    assert str(old.pk) not in client.get(WHERE).content.decode()
    assert str(old.pk) in client.get(WHERE, {"picking": str(old.pk)}).content.decode()
    assert str(old.pk) in client.post(WHERE, entry(old, water="x")).content.decode()
    assert client.post(WHERE, entry(old)).status_code == 302


def test_a_choice_that_is_no_key_is_a_mistake(client: Client, garden: Garden) -> None:
    assert client.post(WHERE, entry() | {"pickings": ["x", str(NOBODY)]}).status_code == 422
