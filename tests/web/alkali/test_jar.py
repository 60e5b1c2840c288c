"""`/alkali/<key>/jar/<test>/`: a jar titration, step by step."""

import numpy as np
import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch, JarStep, JarTest
from bluewright.science.alkali.dose import dose
from bluewright.science.alkali.record import Alkali as AlkaliRecord
from bluewright.science.alkali.record import Jar, LiquorRecord, Step
from tests import cast
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def jar(batch: Batch, soda: Alkali) -> JarTest:
    """Half a litre without any step, two hours ago."""
    return cast.a_jar_test(batch, soda, taken_at=cast.moment(2))


def where(jar: JarTest) -> str:
    return url("alkali.jar", key=jar.batch_id, test=jar.pk)


def test_before_the_first_step_it_says_how_to_go_about_it(client: Client, jar: JarTest) -> None:
    response = client.get(where(jar))
    page = response.context["page"]
    assert (page.steps, page.dose, page.chart, page.trouble, page.counts) == ((), "", "", "", "")
    assert response.content.decode().split("</ol>")[-2].count("<li>") == 5


def test_after_each_step_the_curve_and_the_dose_are_fresh(client: Client, batch: Batch, jar: JarTest) -> None:
    """38 L from 5 kg of leaf at pH 5.8 and 17 C; 4 mL of half-molar soda bring half a litre of it to 7.6, 10 to 9.6."""
    client.post(where(jar), {"amount": "4", "ph": "7,6"})
    first = client.get(where(jar)).context["page"]
    response = client.post(where(jar), {"amount": "6 mL", "ph": "9.6"}, follow=True)
    page = response.context["page"]
    assert [(step.added, step.in_all, step.ph) for step in page.steps] == [
        ("4 mL", "4 mL", "7.6"), ("6 mL", "10 mL", "9.6")
    ]  # fmt: skip
    soda = AlkaliRecord(kind="soda_ash", mol_per_l=0.5)
    steps = (Step(added_ml=4.0, ph=7.6), Step(added_ml=10.0, ph=9.6))
    record = LiquorRecord(
        id="Batch 9", liquor_l=38.0, temp_c=17.0, ph=5.8, leaf_kg=5.0, alkali=soda, seed=1,
        jar=Jar(sample_ml=500.0, alkali=soda, steps=steps),
    )  # fmt: skip
    found = dose(record, rng=np.random.default_rng(1))
    assert page.dose.startswith(f"{float(f'{found.dose.p50:.2g}'):g} mL (")
    assert page.chart != first.chart
    assert page.dose != first.dose
    assert page.take_care
    undo = url("alkali.delete_step", key=batch.pk, test=jar.pk, step=page.steps[-1].key)
    assert undo in [message.extra_tags for message in response.context["messages"]]


def test_only_the_latest_counts_and_an_older_one_is_still_shown(client: Client, batch: Batch, soda: Alkali) -> None:
    old = cast.a_jar_test(batch, soda, (4.0, 7.6), (6.0, 9.6), taken_at=cast.moment(2))
    cast.a_jar_test(batch, soda, (5.0, 7.9), (6.0, 9.7), taken_at=cast.moment(1))
    page = client.get(where(old)).context["page"]
    assert page.counts.startswith("A newer jar titration counts: ")
    assert (page.dose, page.take_care) == ("", ())
    assert "<svg" in page.chart


def test_a_jar_from_before_another_alkali_no_longer_counts(client: Client, batch: Batch, soda: Alkali) -> None:
    jar = cast.a_jar_test(batch, soda, (4.0, 7.6), taken_at=cast.moment(2))
    cast.an_alkali_part(batch, cast.an_alkali(soda.garden, name="lye", kind="lye"), ph=7.0)
    page = client.get(where(jar)).context["page"]
    assert page.counts.startswith("Another alkali went into the batch after this jar was drawn")


def test_readings_that_cannot_be_are_said(client: Client, batch: Batch, jar: JarTest) -> None:
    """A target that lies below the liquor's own pH has no dose."""
    Batch.objects.filter(pk=batch.pk).update(target_ph=7.0)
    cast.a_liquor_look(batch, hours_ago=2.4, ph=7.5)
    client.post(where(jar), {"amount": "4", "ph": "8"})
    page = client.get(where(jar)).context["page"]
    assert "is not above the pH of the liquor" in page.trouble


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"amount": "", "ph": "7"}, "amount", "required"),
        ({"amount": "x", "ph": "7"}, "amount", "does not begin with a number"),
        ({"amount": "2 g", "ph": "7"}, "amount", "not a volume"),
        ({"amount": "2 L", "ph": "7"}, "amount", "cannot be"),
        ({"amount": "2", "ph": ""}, "ph", "required"),
        ({"amount": "2", "ph": "70"}, "ph", "14"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, jar: JarTest, typed: dict[str, str], field: str, says: str
) -> None:
    unchanged = no_rows(JarStep)
    refused(client, where(jar), typed, field=field, says=says)
    unchanged()


def test_wrong_keys_strangers_and_methods(client: Client, jar: JarTest, strangers_batch: Batch) -> None:
    strange = cast.a_jar_test(strangers_batch, cast.an_alkali(strangers_batch.garden))
    unchanged = no_rows(JarStep)
    for wrong in (
        where(strange), url("alkali.jar", key=jar.batch_id, test=strange.pk), url("alkali.jar", key=NOBODY, test=jar.pk)
    ):  # fmt: skip
        assert client.get(wrong).status_code == 404
        assert client.post(wrong, {"amount": "2", "ph": "7"}).status_code == 404
    unchanged()
    only(client, where(jar), "get", "post")


def test_it_has_a_twin_in_json(client: Client, jar: JarTest) -> None:
    assert client.get(where(jar), {"as": "json"}).json()["key"] == str(jar.pk)


def test_more_steps_need_no_more_statements(client: Client, jar: JarTest) -> None:
    client.post(where(jar), {"amount": "2", "ph": "7"})
    flat(client, where(jar), lambda: [client.post(where(jar), {"amount": "2", "ph": p}) for p in ("8", "9")])


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.jar", key=NOBODY, test=NOBODY))
