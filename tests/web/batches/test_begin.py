"""`/batches/begin/`: begin a batch from strained liquor, or join batches."""

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Garden, Poured, Steep
from tests import cast
from tests.web.checks import flat, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/batches/begin/"


def entry(tub: Steep, **other: object) -> dict[str, object]:
    strain = str(tub.strains.get().pk)
    plain = {"name": "First blue", "begun_at": cast.typed(cast.moment()), "strains": [strain], "liquor": "", "note": ""}
    return {**plain, **other}


def test_the_straining_of_the_link_is_chosen_already(client: Client, strained: Steep) -> None:
    strain = strained.strains.get()
    form = client.get(WHERE, {"strain": str(strain.pk)}).context["form"]
    assert form["strains"].value() == [str(strain.pk)]
    assert form["name"].value() == strained.name


@pytest.mark.parametrize("key", ["nonsense", "00000000-0000-4000-8000-000000000000"])
def test_a_link_to_no_straining_chooses_none(client: Client, garden: Garden, key: str) -> None:
    assert client.get(WHERE, {"strain": key}).context["form"]["strains"].value() is None


def test_a_batch_is_written_with_all_of_its_liquor(client: Client, strained: Steep) -> None:
    response = client.post(WHERE, entry(strained), follow=True)
    batch = Batch.objects.get(name="First blue")
    assert response.redirect_chain == [(url("batches.show", key=batch.pk), 302)]
    part = batch.came_from.get()
    assert (part.strain, part.liquor_l, part.liquor_typed) == (strained.strains.get(), None, "")
    assert "38 L" in response.context["page"].head.facts


def test_a_part_is_kept_as_typed_and_the_rest_can_go_elsewhere(client: Client, strained: Steep) -> None:
    """Five US gallons are 18.927 L by definition."""
    client.post(WHERE, entry(strained, liquor="5 gal"))
    part = Poured.objects.get()
    assert (part.liquor_l, part.liquor_typed) == (pytest.approx(18.92705892), "5 gal")
    assert client.post(WHERE, entry(strained, name="The rest", liquor="19 L")).status_code == 302
    assert Poured.objects.count() == 2


def test_liquor_that_is_all_in_a_batch_is_offered_no_more(client: Client, strained: Steep) -> None:
    client.post(WHERE, entry(strained))
    refused(client, WHERE, entry(strained, name="Again"), field="strains", says="not one of")


def test_batches_join(client: Client, garden: Garden, strained: Steep) -> None:
    one = cast.a_batch(strained.strains.get())
    other = cast.a_batch(cast.a_straining(cast.a_tub(garden), liquor_out_l=20.0, liquor_typed="20 L"))
    both = {"strains": [], "batches": [str(one.pk), str(other.pk)]}
    client.post(WHERE, entry(strained, **both))
    joined = Batch.objects.get(name="First blue")
    assert {part.batch for part in joined.came_from.all()} == {one, other}


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("name", "", "required"),
        ("liquor", "some", "some"),
        ("begun_at", "2999-07-01T08:00", "still to come"),
        ("strains", [], "Choose the tub"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, strained: Steep, field: str, text: object, says: str) -> None:
    unchanged = no_rows(Batch)
    refused(client, WHERE, entry(strained, **{field: text}), field=field, says=says)
    unchanged()


def test_a_part_is_taken_of_one_tub_at_a_time(client: Client, garden: Garden, strained: Steep) -> None:
    other = cast.a_straining(cast.a_tub(garden))
    both = [str(strained.strains.get().pk), str(other.pk)]
    refused(client, WHERE, entry(strained, strains=both, liquor="5 L"), field="liquor", says="one tub at a time")


def test_a_stranger_s_liquor_cannot_be_taken(client: Client, garden: Garden, strangers_tub: Steep) -> None:
    unchanged = no_rows(Batch)
    refused(client, WHERE, entry(strangers_tub), field="strains", says="not one of")
    unchanged()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")


def test_more_tubs_need_no_more_statements(client: Client, garden: Garden, strained: Steep) -> None:
    flat(client, WHERE, lambda: [cast.a_straining(cast.a_tub(garden)) for _ in range(3)])
