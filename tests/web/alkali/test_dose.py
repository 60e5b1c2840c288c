"""`/alkali/<key>/dose/`: how much alkali, and what went in."""

import numpy as np
import pytest
from django.test import Client

from bluewright.journal.models import Alkali, AlkaliPart, Batch, Garden
from bluewright.science.alkali.dose import dose
from bluewright.science.alkali.record import Alkali as AlkaliRecord
from bluewright.science.alkali.record import DoseAnswer, Jar, LiquorRecord, Step
from tests import cast
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
STEPS = ((2.0, 6.6), (2.0, 7.6), (3.0, 8.9), (3.0, 9.6))


def where(batch: Batch, alkali: Alkali | None = None) -> str:
    return url("alkali.dose", key=batch.pk) + (f"?alkali={alkali.pk}" if alkali is not None else "")


def entry(**other: object) -> dict[str, object]:
    return {"amount": "50 mL", "ph": "", "at": ""} | other


def by_hand(*added: Step, **other: object) -> DoseAnswer:
    """The batch as a record: 38 L from 5 kg of leaf, a jar of half a litre taken to 9.6 with 10 mL."""
    sums = np.cumsum([ml for ml, _ in STEPS])
    soda = AlkaliRecord(kind="soda_ash", mol_per_l=0.5)
    jar = Jar(
        sample_ml=500.0, alkali=soda,
        steps=tuple(Step(added_ml=float(ml), ph=ph) for ml, (_, ph) in zip(sums, STEPS, strict=True)),
    )  # fmt: skip
    plain = {"liquor_l": 38.0, "temp_c": 17.0, "ph": 5.8, "leaf_kg": 5.0, "jar": jar, "alkali": soda, "seed": 1}
    record = LiquorRecord(**plain | {"id": "Batch 9", "added_so_far": added} | other)  # type: ignore[arg-type]
    return dose(record, rng=np.random.default_rng(1))


def test_the_dose_on_the_page_is_that_of_a_record_written_by_hand(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.a_jar_test(batch, soda, *STEPS, taken_at=cast.moment(2))
    page = client.get(where(batch)).context["page"]
    found = by_hand()
    figures = dict(page.answer.figures)
    assert page.answer.first == f"{float(f'{found.first_part:.2g}'):g} mL"
    assert figures["All of it, likely"].startswith(f"{float(f'{found.dose.p50:.2g}'):g} mL (")
    assert figures["pH with all of it"].startswith(f"{found.ph_after.p50:.1f} (")
    assert figures["pH if twice as much went in"].startswith(f"{found.ph_if_doubled.p50:.1f} (")
    assert page.take_care == tuple(
        c.text for c in found.cautions if c.code in {"bleach", "irritant", "alkali-into-water", "drain"}
    )
    assert "<svg" in page.answer.chart


def test_the_rest_after_a_part_is_that_of_a_record_written_by_hand(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.a_jar_test(batch, soda, *STEPS, taken_at=cast.moment(2))
    response = client.post(where(batch, soda), entry(amount="400 mL", ph="8.6"), follow=True)
    assert response.redirect_chain == [(where(batch, soda), 302)]
    page, found = response.context["page"], by_hand(Step(added_ml=400.0, ph=8.6))
    assert dict(page.answer.figures)["Still to come, after the last pH"].startswith(
        f"{float(f'{found.dose.p50:.2g}'):g} mL ("
    )
    (part,) = page.parts
    assert part.said == "400 mL of soda, half molar; pH 8.6"
    assert url("alkali.delete_part", key=batch.pk, row=part.key) in [m.extra_tags for m in response.context["messages"]]


def test_a_part_without_a_ph_asks_for_it_and_says_what_is_in(client: Client, batch: Batch, soda: Alkali) -> None:
    response = client.post(where(batch, soda), entry(amount="50 mL"), follow=True)
    page = response.context["page"]
    assert page.due.startswith("50 mL of soda, half molar went in and no pH was read since. Stir")
    assert page.answer.first == ""
    assert dict(page.answer.figures)["Of that, in already"] == "50 mL"
    assert "Read the pH" in response.content.decode()
    assert "Add now" not in response.content.decode()


@pytest.mark.parametrize(("ph", "reached"), [(9.2, False), (9.3, True), (9.5, True), (9.7, True)])
def test_it_is_enough_within_the_error_of_a_reading(
    client: Client, batch: Batch, soda: Alkali, ph: float, reached: bool
) -> None:
    """A cheap pen is good to 0.2: from 9.3 on 9.5 is reached."""
    cast.an_alkali_part(batch, soda, ph=ph)
    page = client.get(where(batch, soda)).context["page"]
    assert (page.enough == f"That is enough: pH {ph:g}. Air it now.") is reached
    assert (page.answer is None) is reached


def test_once_it_is_aired_nobody_is_sent_to_air_it(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, ph=9.5)
    cast.an_airing(batch)
    page = client.get(where(batch)).context["page"]
    assert page.enough == "pH 9.5 was enough, and it has been aired since."


def test_more_than_enough_is_said(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, ph=10.4)
    assert "more than enough: pH 10.4" in client.get(where(batch)).content.decode()


def test_it_is_not_enough_while_something_is_in_unread(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, hours_ago=0.3, ph=9.5)
    cast.an_alkali_part(batch, soda, hours_ago=0.2, ph=None)
    page = client.get(where(batch)).context["page"]
    assert page.enough == ""
    assert page.due


def test_amounts_are_written_as_typed(client: Client, batch: Batch, soda: Alkali) -> None:
    """A US teaspoon is 4.92892159375 mL by definition; a bare number in a metric garden is in millilitres."""
    client.post(where(batch, soda), entry(amount="2 tsp", ph="6,5"))
    client.post(where(batch, soda), entry(amount="12"))
    rows = [(row.added_typed, row.added_ml, row.added_g, row.ph) for row in AlkaliPart.objects.order_by("made_at")]
    assert rows == [("2 tsp", pytest.approx(9.8578431875), None, 6.5), ("12 mL", 12.0, None, None)]


def test_a_dry_alkali_is_weighed(client: Client, batch: Batch, garden: Garden) -> None:
    dry = cast.an_alkali(garden, mol_per_l=None)
    page = client.get(where(batch, dry)).context["page"]
    assert page.answer.first.endswith(" g")
    refused(client, where(batch, dry), entry(amount="12 mL"), field="amount", says="not a mass")
    client.post(where(batch, dry), entry(amount="12"))
    made = AlkaliPart.objects.get()
    assert (made.added_g, made.added_ml, made.added_typed) == (12.0, None, "12 g")


def test_a_us_garden_reads_its_own_measures_with_the_metric_beside(
    client: Client, garden: Garden, batch: Batch, soda: Alkali
) -> None:
    garden.system = "us"
    garden.save()
    page = client.get(where(batch, soda)).context["page"]
    assert " fl oz (" in page.answer.first or " qt (" in page.answer.first
    assert page.answer.first.endswith(" mL)")


def test_ammonia_tells_what_stands_in_the_air_of_the_room(client: Client, garden: Garden, batch: Batch) -> None:
    bottle = cast.an_alkali(garden, kind="ammonia", mol_per_l=None, percent_w_w=9.5)
    assert "Just above the liquor" in client.get(where(batch, bottle)).content.decode()
    Batch.objects.filter(pk=batch.pk).update(room_m3=30.0, air_changes_per_h=0.5)
    response = client.get(where(batch, bottle))
    assert "ppm" in dict(response.context["page"].answer.figures)["Ammonia in the air of the room"]
    assert "in this room (30 m3" in response.content.decode()


def test_another_alkali_before_is_said_and_its_ph_begins_the_dose(client: Client, batch: Batch, soda: Alkali) -> None:
    lye = cast.an_alkali(soda.garden, name="lye", kind="lye", mol_per_l=1.0)
    cast.an_alkali_part(batch, lye, ph=7.4, added_ml=100.0)
    page = client.get(where(batch, soda)).context["page"]
    assert page.mixed.startswith("Another alkali is in it: lye. The dose is reckoned from the pH read after it (7.4)")
    found = by_hand(liquor_l=38.1, ph=7.4, jar=None)
    assert dict(page.answer.figures)["All of it, likely"].startswith(f"{float(f'{found.dose.p50:.2g}'):g} mL (")
    assert len(page.parts) == 1


def test_another_alkali_unread_asks_for_the_ph(client: Client, batch: Batch, soda: Alkali) -> None:
    lye = cast.an_alkali(soda.garden, name="lye", kind="lye", mol_per_l=1.0)
    cast.an_alkali_part(batch, lye, ph=None)
    page = client.get(where(batch, soda)).context["page"]
    assert page.answer is None
    assert "no pH was read" in page.due
    assert "chloramine" not in " ".join(page.take_care)
    assert page.take_care


@pytest.mark.parametrize("ph", [7.4, None])
def test_lye_on_top_of_ammonia_drives_it_out_and_that_is_said(
    client: Client, batch: Batch, soda: Alkali, ph: float | None
) -> None:
    """With a dose or, while its pH is unread, without one."""
    bottle = cast.an_alkali(soda.garden, kind="ammonia", mol_per_l=None, percent_w_w=9.5)
    cast.an_alkali_part(batch, bottle, ph=ph)
    page = client.get(where(batch, soda)).context["page"]
    assert (page.answer is None) is (ph is None)
    assert "drives it into the air" in page.take_care[0]
    assert "chloramine" in page.take_care[1]
    own = client.get(where(batch, bottle)).context["page"]
    assert not any("drives it into the air" in text for text in own.take_care)


def test_the_last_alkali_is_chosen_unless_another_is_asked_for(client: Client, batch: Batch, soda: Alkali) -> None:
    lye = cast.an_alkali(soda.garden, name="a lye", kind="lye", mol_per_l=1.0)
    cast.an_alkali_part(batch, soda)
    assert client.get(where(batch)).context["page"].alkali == str(soda.pk)
    assert client.get(where(batch, lye)).context["page"].alkali == str(lye.pk)
    assert client.get(where(batch) + "?alkali=nonsense").context["page"].alkali == str(soda.pk)


def test_without_any_alkali_the_cupboard_is_shown_the_way_to(client: Client, batch: Batch) -> None:
    response = client.get(where(batch))
    assert f"{url('alkali.add')}?batch={batch.pk}" in response.content.decode()
    assert client.post(where(batch), entry()).status_code == 200
    assert AlkaliPart.objects.count() == 0


def test_what_the_alkali_cannot_reach_is_said(client: Client, garden: Garden, batch: Batch) -> None:
    Batch.objects.filter(pk=batch.pk).update(target_ph=12.9)
    lime = cast.an_alkali(garden, kind="slaked_lime", mol_per_l=None)
    page = client.get(where(batch, lime)).context["page"]
    assert page.trouble.startswith("Slaked lime cannot reach pH 12.9")
    assert "blinds and burns" in " ".join(page.take_care)


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("amount", "", "required"),
        ("amount", "some", "some"),
        ("amount", "5 g", "not a volume"),
        ("amount", "39 L", "cannot be"),
        ("amount", "0", "cannot be"),
        ("ph", "15", "14"),
        ("at", "2001-07-01T08:00", "before the batch began"),
        ("at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, batch: Batch, soda: Alkali, field: str, text: str, says: str
) -> None:
    unchanged = no_rows(AlkaliPart)
    refused(client, where(batch, soda), entry() | {field: text}, field=field, says=says)
    unchanged()


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, soda: Alkali, strangers_batch: Batch) -> None:
    assert client.get(url("alkali.dose", key=NOBODY)).status_code == 404
    assert client.get(where(strangers_batch)).status_code == 404
    assert client.post(where(strangers_batch), entry()).status_code == 404
    only(client, where(batch, soda), "get", "post")


def test_it_has_a_twin_in_json(client: Client, batch: Batch, soda: Alkali) -> None:
    plain = client.get(where(batch, soda) + "&as=json").json()
    assert plain["answer"]["first"] == client.get(where(batch, soda)).context["page"].answer.first


def test_more_rows_need_no_more_statements(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda)
    cast.a_jar_test(batch, soda, (2.0, 7.0))

    def more() -> None:
        for hours in (0.25, 0.2, 0.15):
            cast.an_alkali_part(batch, soda, hours_ago=hours)
            cast.a_liquor_look(batch, hours_ago=hours, ph=9.0)
            cast.a_jar_test(batch, soda, (1.0, 7.0), (2.0, 8.0))

    flat(client, where(batch, soda), more)


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.dose", key=NOBODY))
