"""`/swatches/<key>/beside/<other>/why/<figure>/`: why a figure of two swatches is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Swatch
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url
from tests.web.whys import explained, knows_no_other

pytestmark = pytest.mark.django_db


@pytest.fixture
def keys(garden: Garden) -> dict[str, object]:
    two = cast.a_swatch(garden, name="Kept"), cast.a_swatch(garden, name="New", l_star=40.0)
    return {"key": two[0].pk, "other": two[1].pk}


def test_it_explains_what_the_page_shows(client: Client, keys: dict[str, object]) -> None:
    shown = client.get(url("swatches.compare"), {"a": keys["key"], "b": keys["other"]}).context["page"]
    for _name, said, path in shown.figures:
        page = explained(client, url("swatches.why", **keys, figure=path))
        if "grade" not in path:
            assert page.figure.said.split(" ")[0] == said.split(" ")[0]
    assert page.back.name == "New beside Kept"


def test_it_knows_its_figures_and_no_other(client: Client, keys: dict[str, object]) -> None:
    page = client.get(url("swatches.why", **keys, figure="against")).context["page"]
    assert [other.name for other in page.others] == ["Colours"]
    knows_no_other(client, "swatches.why", **keys)


def test_there_is_none_of_a_wrong_key_or_another_s(
    client: Client, keys: dict[str, object], other_garden: Garden
) -> None:
    for wrong in (NOBODY, cast.a_swatch(other_garden).pk):
        for name in ("key", "other"):
            assert client.get(url("swatches.why", **keys | {name: wrong}, figure="against")).status_code == 404
    assert Swatch.objects.count() == 3


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("swatches.why", key=NOBODY, other=NOBODY, figure="against"))


def test_it_is_only_read(client: Client, keys: dict[str, object]) -> None:
    only(client, url("swatches.why", **keys, figure="against"), "get")
