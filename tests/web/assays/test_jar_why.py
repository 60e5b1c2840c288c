"""`/assays/jar/<key>/why/<figure>/`: why a figure of all results of a jar together is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.assays.rows import a_jar, an_ash, to_the_beginning
from tests.web.checks import NOBODY, only, url
from tests.web.whys import explained, explains_each_of_its_figures, knows_no_other

pytestmark = pytest.mark.django_db


def test_what_two_assays_say_together_is_explained(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    where = url("assays.jar_why", key=jar.pk, figure="indigo_pct")
    assert "Nothing was assayed yet" in client.get(where, follow=True).content.decode()
    cast.an_assay(jar)
    an_ash(jar, 0.4)
    assert f'href="{where}' in client.get(url("assays.index", key=jar.pk)).content.decode()
    assert explained(client, where).figure.said
    explains_each_of_its_figures(client, where)
    knows_no_other(client, "assays.jar_why", key=jar.pk)


def test_wrong_keys_strangers_and_methods(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("assays.jar_why", key=NOBODY, figure="indigo_pct")).status_code == 404
    strange = a_jar(other_garden)
    assert client.get(url("assays.jar_why", key=strange.pk, figure="indigo_pct")).status_code == 404
    where = url("assays.jar_why", key=a_jar(garden).pk, figure="indigo_pct")
    only(client, where, "get")
    to_the_beginning(client, where)
