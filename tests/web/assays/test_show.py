"""`/assays/<row>/`: one assay, what it says, what was typed."""

import pytest
from django.test import Client

from bluewright.journal.models import Assay, Garden
from tests import cast
from tests.web.assays.rows import a_jar, spectrum, to_the_beginning
from tests.web.checks import NOBODY, only, url

pytestmark = pytest.mark.django_db


def test_it_says_what_was_found_and_what_was_typed(client: Client, garden: Garden) -> None:
    row = cast.an_assay(a_jar(garden), note="wool")
    response = client.get(url("assays.show", row=row.pk))
    page = response.context["page"]
    assert page.answer.first.endswith("of the dry pigment is indigo, by test dyeing.")
    assert page.answer.chart.startswith("<svg")
    assert page.note == "wool"
    assert ("Indigo in the standard", "95%") in page.typed
    assert page.then == ""
    assert "goggles and gloves" in response.content.decode()


def test_a_spectrum_shows_its_parts_and_its_danger(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    client.post(url("assays.add", key=jar.pk, method="spectrum"), spectrum(solvent="dmf"))
    response = client.get(url("assays.show", row=Assay.objects.get().pk))
    assert "What absorbs in the solution of Jar 9?" in response.context["page"].answer.chart
    assert "Laboratory only" in response.content.decode()


def test_what_it_said_then_is_told_where_it_says_otherwise_now(client: Client, garden: Garden) -> None:
    row = cast.an_assay(a_jar(garden))
    Assay.objects.update(indigo_frac=0.25, program="0.0.9")
    page = client.get(url("assays.show", row=row.pk)).context["page"]
    assert page.then == ("When it was written down, Bluewright 0.0.9 found 25.0%; the jar is reckoned with that.")


def test_wrong_keys_and_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("assays.show", row=NOBODY)).status_code == 404
    assert client.get(url("assays.show", row=cast.an_assay(a_jar(other_garden)).pk)).status_code == 404


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    where = url("assays.show", row=cast.an_assay(a_jar(garden)).pk)
    only(client, where, "get")
    assert client.get(where, {"as": "json"}).json()["title"] == "Test dyeing"
    to_the_beginning(client, where)
