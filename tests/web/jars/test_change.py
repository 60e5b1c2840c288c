"""`/jars/<key>/change/`: what is said of a jar, put right."""

from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden, Jar
from tests import cast
from tests.cast import moment, typed
from tests.web.checks import NOBODY, flat, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def jar(garden: Garden) -> Jar:
    return cast.a_jar_from_the_bed(garden, 12.0, purity_frac=0.35, purity_how="swatches", stands="shelf")


def where(jar: Jar) -> str:
    return url("jars.change", key=jar.pk)


def entry(jar: Jar, **other: Any) -> dict[str, Any]:
    plain = {
        "name": "Jar 1b", f"g_{jar.came_from.get().batch_id}": "14 g", "filled_at": typed(moment()), "scale": "1",
        "stands": "attic", "purity": "40", "give_or_take": "", "how": "", "note": "found more",
    }  # fmt: skip
    return plain | other


def test_the_form_shows_what_stands(client: Client, jar: Jar) -> None:
    form = client.get(where(jar)).context["form"]
    shown = {name: form[name].value() for name in ("name", "stands", "scale", "purity", "how")}
    assert shown == {"name": "Jar 9", "stands": "shelf", "scale": "0.5 g", "purity": "35", "how": "swatches"}
    assert form[f"g_{jar.came_from.get().batch_id}"].value() == "12 g"


def test_a_form_that_is_sent_as_it_was_shown_changes_nothing(client: Client, jar: Jar) -> None:
    form = client.get(where(jar)).context["form"]
    same = {field.name: field.value() or "" for field in form} | {"filled_at": typed(jar.filled_at)}
    assert client.post(where(jar), same).status_code == 302
    now = Jar.objects.get()
    assert (now.name, now.stands, now.purity_frac, now.scale_sd_g) == ("Jar 9", "shelf", pytest.approx(0.35), 0.5)
    assert not Change.objects.exists()


def test_a_jar_is_changed_and_what_it_was_is_kept(client: Client, jar: Jar) -> None:
    response = client.post(where(jar), entry(jar), follow=True)
    assert response.redirect_chain == [(url("jars.show", key=jar.pk), 302)]
    now = Jar.objects.get()
    assert (now.pk, now.name, now.stands, now.note) == (jar.pk, "Jar 1b", "attic", "found more")
    assert (now.purity_frac, now.purity_how, now.seed) == (pytest.approx(0.4), "", jar.seed)
    assert [part.pigment_typed for part in now.came_from.all()] == ["14 g"]
    history = response.context["page"].history
    assert "name Jar 9" in history[0].said
    assert "pigment 12 g of Batch 9" in history[0].said
    assert response.context["page"].stock.left == "14 g left of 14 g"


@pytest.mark.parametrize(("field", "text", "says"), [("purity", "0", "greater than"), ("name", "", "required")])
def test_a_mistake_keeps_what_was_typed(client: Client, jar: Jar, field: str, text: str, says: str) -> None:
    refused(client, where(jar), entry(jar) | {field: text}, field=field, says=says)
    assert not Change.objects.exists()


def test_less_than_was_taken_out_cannot_have_gone_in(client: Client, jar: Jar) -> None:
    cast.taken(jar, 10.0)
    grams = {f"g_{jar.came_from.get().batch_id}": "5 g"}
    refused(client, where(jar), entry(jar) | grams, field=None, says="More was taken out of this jar")
    assert jar.came_from.get().pigment_g == 12.0


def test_there_is_no_jar_of_a_wrong_key(client: Client, jar: Jar) -> None:
    assert client.get(url("jars.change", key=NOBODY)).status_code == 404


def test_a_stranger_s_jar_stays_as_it_is(client: Client, jar: Jar) -> None:
    strange = cast.a_jar_from_the_bed(cast.a_garden())
    assert client.get(where(strange)).status_code == 404
    assert client.post(where(strange), entry(strange)).status_code == 404
    assert Jar.objects.get(pk=strange.pk).name == "Jar 9"


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jars.change", key=NOBODY))


def test_other_methods_are_refused(client: Client, jar: Jar) -> None:
    only(client, where(jar), "get", "post")


def test_more_takings_need_no_more_statements(client: Client, jar: Jar) -> None:
    cast.taken(jar, 1.0)
    flat(client, where(jar), lambda: [cast.taken(jar, 1.0) for _ in range(3)])
