"""`/assays/<row>/change/`: an assay put right."""

import pytest
from django.test import Client

from bluewright.journal.models import Assay, Change, Garden
from tests import cast
from tests.web.assays.rows import a_jar, dyeing, to_the_beginning
from tests.web.checks import NOBODY, only, url

pytestmark = pytest.mark.django_db


def test_it_opens_as_it_was_typed_and_is_answered_anew(client: Client, garden: Garden) -> None:
    row = cast.an_assay(a_jar(garden))
    where = url("assays.change", row=row.pk)
    form = client.get(where).context["form"]
    assert form["swatches.0.k_over_s"].value() == "2.1"
    stronger = {
        f"swatches.{k}.pigment_mg": f"{mass / 2:g}" for k, mass in zip(range(6, 12), (60, 120, 240) * 2, strict=True)
    }
    assert client.post(where, dyeing(**stronger)).status_code == 302
    now = Assay.objects.get()
    assert now.pk == row.pk
    assert now.indigo_frac == pytest.approx(2 * (row.indigo_frac or 0), rel=0.03)
    assert Change.objects.filter(row_id=row.pk, verb="change").count() == 1
    text = client.get(url("assays.show", row=row.pk)).content.decode()
    assert "share of indigo in it 0.347" in text
    assert "swatches" not in text.split("Kept</h2>")[-1]


def test_a_mistake_keeps_the_typing_and_the_row(client: Client, garden: Garden) -> None:
    row = cast.an_assay(a_jar(garden))
    response = client.post(url("assays.change", row=row.pk), dyeing(standard="150%"))
    assert response.status_code == 422
    assert response.context["form"]["standard"].value() == "150%"
    assert Assay.objects.get().record == row.record


def test_wrong_keys_strangers_and_methods(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("assays.change", row=NOBODY)).status_code == 404
    assert client.get(url("assays.change", row=cast.an_assay(a_jar(other_garden)).pk)).status_code == 404
    where = url("assays.change", row=cast.an_assay(a_jar(garden)).pk)
    only(client, where, "get", "post")
    to_the_beginning(client, where)
