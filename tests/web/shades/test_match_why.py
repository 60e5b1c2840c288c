"""`/shades/swatch/<key>/why/<figure>/`: why a figure of the way to a swatch is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import only, url
from tests.web.shades.test_match import TYPED

pytestmark = pytest.mark.django_db


def test_it_explains_what_was_asked(client: Client, garden: Garden) -> None:
    key = cast.a_swatch(garden).pk
    shown = client.get(url("shades.match", key=key), TYPED).context["page"]
    assert client.get(shown.answer.why.to).context["page"].figure.said
    only(client, shown.answer.why.to, "get")
    back = client.get(url("shades.match_why", key=key, figure="hit_chance"), follow=True)
    assert "There is no answer to it now." in back.content.decode()
