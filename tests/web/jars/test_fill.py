"""`/jars/fill/`: a new jar."""

from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Garden, Jar, JarFrom
from tests import cast
from tests.cast import moment, typed
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/jars/fill/"


@pytest.fixture
def batch(garden: Garden) -> Batch:
    return cast.a_batch(cast.a_straining(cast.a_tub(garden), liquor_out_l=28.0, liquor_typed="28 L"))


def entry(batch: Batch, grams: str = "12.3 g", **other: Any) -> dict[str, Any]:
    plain = {
        "name": "Jar 1", f"g_{batch.pk}": grams, "filled_at": typed(moment()), "scale": "0.1 g", "stands": "cellar",
        "purity": "35", "give_or_take": "4%", "how": "swatches", "note": "",
    }  # fmt: skip
    return plain | other


def test_a_jar_is_written_as_typed(client: Client, batch: Batch) -> None:
    response = client.post(WHERE, entry(batch), follow=True)
    jar = Jar.objects.get()
    assert response.redirect_chain == [(url("jars.show", key=jar.pk), 302)]
    assert (jar.name, jar.stands, jar.purity_how, jar.scale_sd_g) == ("Jar 1", "cellar", "swatches", 0.1)
    assert jar.filled_at == moment()
    assert (jar.purity_frac, jar.purity_sd_frac) == (pytest.approx(0.35), pytest.approx(0.04))
    part = jar.came_from.get()
    assert (part.batch, part.pigment_g, part.pigment_typed) == (batch, pytest.approx(12.3), "12.3 g")
    undo = url("jars.delete", key=jar.pk)
    assert undo in [message.extra_tags for message in response.context["messages"]]


def test_ounces_are_read_and_two_batches_fill_one_jar(client: Client, garden: Garden, batch: Batch) -> None:
    """An avoirdupois ounce is 28.349523125 g by definition."""
    other = cast.a_batch(cast.a_straining(cast.a_tub(garden)), name="Other")
    client.post(WHERE, entry(batch, "1 oz") | {f"g_{other.pk}": "3"})
    assert sorted(part.pigment_g for part in JarFrom.objects.all()) == [3.0, pytest.approx(28.349523125)]


def test_nothing_need_be_measured_but_the_grams(client: Client, batch: Batch) -> None:
    client.post(WHERE, entry(batch, purity="", give_or_take="", how="", stands=""))
    jar = Jar.objects.get()
    assert (jar.purity_frac, jar.purity_sd_frac, jar.purity_how) == (None, None, "")


def test_a_batch_that_is_jarred_is_offered_when_it_is_asked_for(client: Client, garden: Garden, batch: Batch) -> None:
    cast.a_jar((batch, 3.0))
    assert f"g_{batch.pk}" not in client.get(WHERE).content.decode()
    where = f"{WHERE}?batch={batch.pk}"
    assert f"g_{batch.pk}" in client.get(where).content.decode()
    client.post(where, entry(batch))
    assert JarFrom.objects.filter(batch=batch).count() == 2
    assert client.get(f"{WHERE}?batch=nonsense").status_code == 200
    assert client.get(f"{WHERE}?batch={NOBODY}").status_code == 200


def test_without_a_batch_it_says_where_to_begin(client: Client, garden: Garden) -> None:
    said = client.get(WHERE).content.decode()
    assert "No batch waits for a jar" in said
    assert 'name="name"' not in said


def test_it_says_what_pigment_dust_does(client: Client, batch: Batch) -> None:
    assert "dust mask" in client.get(WHERE).content.decode()


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("purity", "120", "less than or equal to 99.5"),
        ("purity", "blue", "number"),
        ("purity", "", "Give the purity"),
        ("give_or_take", "60", "less than or equal to 50"),
        ("scale", "a lot", "a lot"),
        ("name", "", "required"),
        ("filled_at", "2999-07-01T08:00", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, batch: Batch, field: str, text: str, says: str) -> None:
    unchanged = no_rows(Jar)
    refused(client, WHERE, entry(batch) | {field: text}, field=field, says=says)
    unchanged()


@pytest.mark.parametrize(("grams", "says"), [("two litres", "two litres"), ("3 L", "mass"), ("0", "cannot be")])
def test_grams_that_are_none_are_refused(client: Client, batch: Batch, grams: str, says: str) -> None:
    unchanged = no_rows(Jar)
    refused(client, WHERE, entry(batch, grams), field=f"g_{batch.pk}", says=says)
    unchanged()


def test_an_empty_jar_is_refused(client: Client, batch: Batch) -> None:
    unchanged = no_rows(Jar)
    refused(client, WHERE, entry(batch, ""), field=None, says="Nothing is in it yet")
    unchanged()


def test_a_stranger_s_batch_cannot_be_filled_in(client: Client, batch: Batch) -> None:
    strange = cast.a_batch(cast.a_straining(cast.a_tub(cast.a_garden())))
    unchanged = no_rows(Jar)
    where = f"{WHERE}?batch={strange.pk}"
    assert f"g_{strange.pk}" not in client.get(where).content.decode()
    assert client.post(where, entry(strange)).status_code == 422
    unchanged()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_other_methods_are_refused(client: Client, batch: Batch) -> None:
    only(client, WHERE, "get", "post")


def test_more_batches_need_no_more_statements(client: Client, garden: Garden, batch: Batch) -> None:
    flat(client, WHERE, lambda: [cast.a_batch(cast.a_straining(cast.a_tub(garden))) for _ in range(3)])
