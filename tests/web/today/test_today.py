"""`/`: what wants doing, the most urgent first."""

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.models import Garden, Steep
from bluewright.web.pages.today.page import Matter, Step, today_page
from tests import cast
from tests.cast import a_batch, a_bed, a_garden, a_picking, a_straining, a_tub, an_alkali, an_alkali_part, moment
from tests.web.checks import flat, only, to_the_start_without_a_garden, url
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db
WHERE = "/"


def matters(client: Client) -> list[dict[str, object]]:
    twin = client.get(WHERE, {"as": "json"}).json()
    found: list[dict[str, object]] = [*twin["matters"], *twin["later"]]
    return found


def of(client: Client, key: object) -> dict[str, object]:
    (found,) = [m for m in matters(client) if m["key"] == str(key)]
    return found


def test_a_tub_that_steeps_wants_something_and_one_that_is_strained_does_not(
    client: Client, steeping: Steep, strained: Steep
) -> None:
    response = client.get(WHERE)
    assert response.status_code == 200
    keys = {m.key for m in response.context["page"].matters}
    assert str(steeping.pk) in keys
    assert str(strained.pk) not in keys
    assert url("tubs.show", key=steeping.pk) in response.content.decode()


def test_a_vat_wants_what_its_page_said_and_an_ended_one_nothing(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    cast.a_vat_reading(vat, hours_ago=0.5, ph=7.4, liquor_look=1, film=0, temp_c=48, temp_typed="48 C")
    assert str(vat.pk) not in {m["key"] for m in matters(client)}, "it is not reckoned yet, and nobody waits for it"
    client.get(url("vats.show", key=vat.pk))
    assert of(client, vat.pk)["what"] == "Vat 9: More alkali, a small part: the pH is too low."
    assert of(client, vat.pk)["also"]["href"] == url("vats.look", key=vat.pk)  # type: ignore[index]
    client.post(url("vats.end", key=vat.pk), {"ended_at": cast.typed(moment()), "end": "spoilt"})
    assert str(vat.pk) not in {m["key"] for m in matters(client)}


def test_leaf_that_waits_leads_to_a_tub_for_it(client: Client, garden: Garden) -> None:
    picking = a_picking(garden, leaf_typed="7 lb")
    assert any("7 lb" in str(m["what"]) and m["key"] == str(picking.pk) for m in matters(client))
    assert f"{url('tubs.begin')}?picking={picking.pk}" in client.get(WHERE).content.decode()


def test_the_most_urgent_comes_first(client: Client, garden: Garden) -> None:
    a_picking(garden)
    a_tub(garden)
    urgencies = [float(str(m["urgency_h"])) for m in matters(client)]
    assert len(urgencies) >= 3
    assert urgencies == sorted(urgencies)


def test_what_spoils_comes_before_what_keeps_however_long_that_has_been_due() -> None:
    def told(key: str, urgency_h: float, *, keeps: bool) -> Matter:
        do = Step(says="Open", href="/")
        return Matter(urgency_h=urgency_h, key=key, what=key, why="", do=do, keeps=keeps)

    given = [
        told("wash", -10.0, keeps=True), told("settled", -20.0, keeps=True), told("tub", -1.0, keeps=False),
        told("look", 12.0, keeps=False), told("rack", 24.0, keeps=True),
    ]  # fmt: skip
    shown = today_page(given, now=timezone.now(), bare=False).matters
    assert [matter.key for matter in shown] == ["tub", "settled", "wash", "look", "rack"]


def test_a_tub_without_forecast_says_why(client: Client, garden: Garden) -> None:
    tub = a_tub(garden, leaf=[])
    assert "no forecast" in str(of(client, tub.pk)["why"])


def test_strained_liquor_wants_its_alkali_first_as_a_batch_and_then_as_a_dose(client: Client, garden: Garden) -> None:
    strain = a_straining(a_tub(garden))
    assert of(client, strain.pk)["do"]["href"] == f"{url('batches.begin')}?strain={strain.pk}"  # type: ignore[index]
    batch = a_batch(strain)
    assert "alkali" in str(of(client, batch.pk)["what"])
    assert str(strain.pk) not in {m["key"] for m in matters(client)}


def test_an_alkaline_batch_waits_for_air(client: Client, garden: Garden) -> None:
    batch = a_batch(a_straining(a_tub(garden)))
    an_alkali_part(batch, an_alkali(garden))
    assert of(client, batch.pk)["do"]["href"] == url("airing.show", key=batch.pk)  # type: ignore[index]


def test_old_leaf_and_old_liquor_are_asked_after_no_more(client: Client, garden: Garden) -> None:
    leaf = a_picking(garden, picked_at=moment(6 * 24))
    strain = a_straining(a_tub(garden, started_at=moment(20 * 24)), strained_at=moment(11 * 24))
    assert not {str(leaf.pk), str(strain.pk)} & {str(m["key"]) for m in matters(client)}


@pytest.mark.parametrize(("weeks", "asked"), [(4.9, False), (5.1, True), (11.9, True), (12.1, False)])
def test_a_bed_is_asked_after_five_weeks_of_regrowth(client: Client, garden: Garden, weeks: float, asked: bool) -> None:
    bed = a_bed(garden, name="Far bed")
    a_picking(garden, beds_of=[bed], picked_at=moment(weeks * 7 * 24))
    assert (str(bed.pk) in {m["key"] for m in matters(client)}) == asked


def test_an_onlooker_s_page_has_no_button_that_writes(garden: Garden) -> None:
    a_picking(garden)
    onlooker = visitor("onlooker")
    assert url("tubs.begin") not in onlooker.get(WHERE).content.decode()


def test_with_nothing_to_do_it_says_so(client: Client, db: None) -> None:
    a_bed(a_garden())
    response = client.get(WHERE)
    assert response.context["page"].matters == ()
    assert "Nothing wants doing" in response.content.decode()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client, db: None) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_a_stranger_s_tubs_and_leaf_are_not_shown(client: Client, other_garden: Garden) -> None:
    theirs = a_tub(other_garden)
    waiting = a_picking(other_garden)
    assert not {str(theirs.pk), str(waiting.pk)} & {str(m["key"]) for m in matters(client)}


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_tubs_need_no_more_statements(client: Client, garden: Garden) -> None:
    flat(client, WHERE, lambda: [a_tub(garden) for _ in range(2)] + [a_picking(garden) for _ in range(2)])


def test_its_json_twin_says_the_same(client: Client, garden: Garden) -> None:
    page = client.get(WHERE).context["page"]
    assert [m["what"] for m in matters(client)] == [m.what for m in page.matters]


def test_a_garden_without_a_bed_is_led_to_its_beds_first(client: Client) -> None:
    garden = a_garden()
    shown = client.get(WHERE).content.decode()
    assert url("beds.add") in shown
    a_bed(garden)
    assert url("beds.add") not in client.get(WHERE).content.decode()
    assert url("pickings.add") in client.get(WHERE).content.decode()


def test_cloth_comes_out_of_the_vat_and_is_tried_a_week_after_its_finish(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    wet, dry, old = (cast.a_piece(garden, name=name, wanted_dips=1) for name in ("Wet", "Dry", "Old"))
    cast.a_dip(wet, vat, minutes=None)
    cast.a_dip(dry, vat, hours_ago=20)
    done = {"finish": "soaped", "finished_at": moment(9 * 24), "after_g": 509.0, "after_typed": "509 g"}
    tried, fresh = (cast.a_piece(garden, name=name, **done) for name in ("Tried", "Not tried"))
    for piece in (tried, fresh):
        cast.a_swatch(garden, piece=piece)
    cast.a_home_test(tried)
    assert float(str(of(client, wet.pk)["urgency_h"])) < 0
    assert str(of(client, wet.pk)["what"]).startswith("Wet: take it out at ")
    assert of(client, dry.pk)["what"] == "Dry: rinse and finish it"
    assert of(client, fresh.pk)["what"] == "Not tried: rub test"
    assert not {str(tried.pk), str(old.pk)} & {str(m["key"]) for m in matters(client)}


def test_more_cloth_needs_no_more_statements(client: Client, garden: Garden) -> None:
    vat = cast.a_made_vat(garden)
    cast.a_dip(cast.a_piece(garden), vat)
    flat(client, WHERE, lambda: [cast.a_dip(cast.a_piece(garden), vat) for _ in range(2)])
