"""`/plan/<want>/`: one want."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_tells_what_it_takes_and_its_days(client: Client, garden: Garden) -> None:
    garden.latitude_deg = 51.0
    garden.save()
    row = cast.a_want(garden, note="for the wedding")
    page = client.get(url("plan.show", key=row.pk)).context["page"]
    assert page.row.name == "two shawls"
    assert [text.split(":")[0] for text in page.takes][:2] == ["On the cloth", "Pure indigo that must be there"]
    assert page.days[-1][0] == "ready"
    assert page.note == "for the wedding"


def test_pigment_has_neither_cloth_nor_vat(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden, what="pigment", fibre="", depth="", purity_frac=0.3, purity_typed="30 %")
    page = client.get(url("plan.show", key=row.pk)).context["page"]
    assert "1 kg of pigment, 30 % of it pure indigo" in page.row.said
    assert page.takes[0].startswith("Pure indigo that must be there: 300 g")
    assert "vat" not in " ".join(page.takes)


def test_what_is_done_takes_nothing(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden, state="done")
    page = client.get(url("plan.show", key=row.pk)).context["page"]
    assert (page.open, page.takes, page.days) == (False, (), ())


def test_its_history_is_told(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden)
    row.mass_g, row.mass_typed = 500.0, "500 g"
    cast.keep(row, by=None)
    (change,) = client.get(url("plan.show", key=row.pk)).context["page"].history
    assert "mass 1 kg" in change.said


def test_the_same_as_json(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden)
    assert client.get(url("plan.show", key=row.pk), {"as": "json"}).json()["row"]["name"] == "two shawls"


def test_more_wants_need_no_more_statements(client: Client, garden: Garden) -> None:
    row = cast.a_want(garden)
    flat(client, url("plan.show", key=row.pk), lambda: cast.a_want(garden, name="another"))


def test_wrong_keys_and_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_want(other_garden).pk):
        assert client.get(url("plan.show", key=key)).status_code == 404


def test_only_reading(client: Client, garden: Garden) -> None:
    only(client, url("plan.show", key=cast.a_want(garden).pk), "get")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("plan.show", key=NOBODY))
