"""`/learned/why/<figure>/`: why a figure of what was learned is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from bluewright.journal.queries import learned
from tests import cast
from tests.web.checks import only, url
from tests.web.whys import explained, knows_no_other

pytestmark = pytest.mark.django_db


def where() -> str:
    return url("learned.why", figure="pure_g_per_kg")


def test_a_figure_is_explained(client: Client, garden: Garden) -> None:
    assert "Pure indigo in the jar from a kilogram of leaf" in explained(client, where()).figure.meaning
    knows_no_other(client, "learned.why")


def test_without_a_strained_tub_it_leads_back_with_a_word(client: Client, garden: Garden) -> None:
    for steep in learned.strained(garden):
        cast.left_out(steep)
    assert "Nothing was learned yet." in client.get(where(), follow=True).content.decode()


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(), "get")
