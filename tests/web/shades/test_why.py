"""`/shades/<key>/why/<figure>/`: why a figure of a piece's forecast is so."""

from urllib.parse import urlencode

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import only, url
from tests.web.shades.test_show import TYPED
from tests.web.whys import knows_no_other

pytestmark = pytest.mark.django_db


def test_it_explains_what_was_asked(client: Client, garden: Garden) -> None:
    key = cast.a_piece(garden).pk
    shown = client.get(url("shades.show", key=key), TYPED).context["page"]
    assert shown.answer.why.to.endswith(urlencode(TYPED))
    page = client.get(shown.answer.why.to).context["page"]
    assert page.back.to.endswith(urlencode(TYPED))
    assert client.get(page.others[0].to).status_code == 200
    only(client, shown.answer.why.to, "get")


def test_it_knows_no_other_and_without_a_question_it_goes_back(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    back = client.get(url("shades.why", key=piece.pk, figure="fixed_pct"), follow=True)
    assert "There is no forecast for it now." in back.content.decode()
    cast.a_made_vat(garden)
    knows_no_other(client, "shades.why", key=piece.pk)
