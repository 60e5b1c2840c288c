"""`/assays/<row>/why/<figure>/`: why a figure is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.assays.rows import a_jar, to_the_beginning
from tests.web.checks import NOBODY, only, url
from tests.web.whys import explained, explains_each_of_its_figures, knows_no_other

pytestmark = pytest.mark.django_db


def test_a_figure_is_explained_from_what_was_read_to_the_sources(client: Client, garden: Garden) -> None:
    row = cast.an_assay(a_jar(garden))
    where = url("assays.why", row=row.pk, figure="indigo_pct")
    assert f'href="{where}' in client.get(url("assays.show", row=row.pk)).content.decode()
    page = explained(client, where)
    assert page.figure.meaning.startswith("Indigo in the dry sample")
    assert page.figure.said.startswith("3")
    explains_each_of_its_figures(client, where)
    knows_no_other(client, "assays.why", row=row.pk)


def test_wrong_keys_strangers_and_methods(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("assays.why", row=NOBODY, figure="indigo_pct")).status_code == 404
    strange = cast.an_assay(a_jar(other_garden))
    assert client.get(url("assays.why", row=strange.pk, figure="indigo_pct")).status_code == 404
    where = url("assays.why", row=cast.an_assay(a_jar(garden)).pk, figure="slope")
    only(client, where, "get")
    to_the_beginning(client, where)
