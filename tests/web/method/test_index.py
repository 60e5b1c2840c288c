"""`/method/`: the list of pages on how each number is computed."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from bluewright.words import texts
from tests.house.test_house import ROOT
from tests.web.checks import only, url

WHERE = "/method/"
pytestmark = pytest.mark.django_db


def test_every_page_is_listed_with_its_question(client: Client) -> None:
    page = client.get(WHERE).content.decode()
    for name in texts.NAMES:
        assert f'href="{url("method.show", name=name)}"' in page
    assert "How much liquor runs out, how much stays in the leaves" in page
    assert "The question" not in page


def test_no_method_page_of_the_docs_is_left_out() -> None:
    written = {path.stem for path in (ROOT / "docs" / "method").glob("*.md")}
    assert written == set(texts.COMPUTED)


def test_they_are_in_the_order_of_the_docs() -> None:
    """The table of contents in docs/index.md."""
    index = (ROOT / "docs" / "index.md").read_text(encoding="utf-8")
    assert [line.removeprefix("method/") for line in index.splitlines() if line.startswith("method/")] == list(
        texts.COMPUTED
    )


def test_it_needs_no_garden(client: Client) -> None:
    assert not Garden.objects.exists()
    assert client.get(WHERE).status_code == 200


def test_every_page_has_a_way_to_it(client: Client) -> None:
    for where in ("/gardens/", url("method.show", name="steep")):
        assert f'href="{WHERE}"' in client.get(where).content.decode()


def test_it_is_only_read(client: Client) -> None:
    only(client, WHERE, "get")


def test_its_json_twin_says_the_same(client: Client) -> None:
    twin = client.get(WHERE, {"as": "json"}).json()
    assert [row["name"] for row in twin["computed"] + twin["beside"]] == list(texts.NAMES)
