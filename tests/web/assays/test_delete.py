"""`/assays/<row>/delete/`: out of sight, and the jar is known by what is left."""

import pytest
from django.test import Client

from bluewright.journal.bridge import stock
from bluewright.journal.models import Garden
from bluewright.journal.queries import jars
from tests import cast
from tests.web.assays.rows import a_jar
from tests.web.checks import NOBODY, gone_and_back, only, url

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    row = cast.an_assay(a_jar(garden))
    gone_and_back(client, row, delete=url("assays.delete", row=row.pk), restore=url("assays.restore", row=row.pk))
    assert str(row.pk) not in client.get(url("gardens.taken_out")).content.decode()


def test_the_page_of_things_taken_out_offers_it(client: Client, garden: Garden) -> None:
    row = cast.an_assay(a_jar(garden))
    client.post(url("assays.delete", row=row.pk))
    text = client.get(url("gardens.taken_out")).content.decode()
    assert "Assay of Jar 9" in text
    assert url("assays.restore", row=row.pk) in text


def test_what_was_reckoned_with_it_holds_no_more(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    row = cast.an_assay(jar)
    client.get(url("jars.show", key=jar.pk))
    assert stock.is_reckoned(jars.jars(garden).get())
    client.post(url("assays.delete", row=row.pk))
    assert not stock.is_reckoned(jars.jars(garden).get())


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    row, strange = cast.an_assay(a_jar(garden)), cast.an_assay(a_jar(other_garden))
    only(client, url("assays.delete", row=row.pk), "post")
    for key in (NOBODY, strange.pk):
        assert client.post(url("assays.delete", row=key)).status_code == 404
