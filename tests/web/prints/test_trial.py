"""`/prints/trial/<key>/`: the lots of a trial as slips, as a page and as a PDF."""

from dataclasses import replace

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Trial
from bluewright.web.prints import typeset
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url
from tests.web.prints.pdf import marks, pages

pytestmark = pytest.mark.django_db
HOSTILE = "#panic() *x* $y$ <b> \\ #{[("


@pytest.fixture
def laid(garden: Garden) -> Trial:
    return cast.a_trial(garden)


def where(row: Trial) -> str:
    return url("prints.trial", key=row.pk)


def test_it_tells_every_lot_and_the_seal(client: Client, laid: Trial) -> None:
    response = client.get(where(laid))
    page = response.context["page"]
    assert [(slip.number, slip.way) for slip in page.slips] == [(lot.number, lot.way) for lot in laid.lots.all()]
    assert page.slips[0].outside == "picking 1, tub 1"
    assert laid.seal in response.content.decode()


@pytest.mark.parametrize(("days", "columns"), [(2, 1), (12, 1), (30, 2), (60, 3)])
def test_it_is_one_sheet_of_slips_however_many(client: Client, garden: Garden, days: int, columns: int) -> None:
    row = cast.a_trial(garden, days=days)
    response = client.get(where(row), {"as": "pdf"})
    assert response["Content-Disposition"] == 'inline; filename="trial-spots.pdf"'
    assert pages(response.content) == 1
    assert client.get(where(row)).context["page"].columns == columns


def test_nothing_typed_breaks_the_typesetting_and_every_slip_is_there(client: Client, laid: Trial) -> None:
    page = client.get(where(laid)).context["page"]
    slips = tuple(replace(slip, way=HOSTILE) for slip in page.slips)
    assert pages(typeset.pdf("trial", replace(page, name=HOSTILE, question=HOSTILE * 9, slips=slips))) == 1
    assert marks("trial", page) > marks("trial", replace(page, slips=page.slips[:2]))


def test_only_one_s_own_and_only_read(client: Client, laid: Trial, other_garden: Garden) -> None:
    assert client.get(where(cast.a_trial(other_garden))).status_code == 404
    assert client.get(url("prints.trial", key=NOBODY)).status_code == 404
    only(client, where(laid), "get")
    to_the_start_without_a_garden(client, where(laid))
