"""Long lists in pages."""

import pytest
from django.http import QueryDict
from django.test import Client

from bluewright.journal.models import Garden
from bluewright.web.pages.tubs import views as tubs
from bluewright.web.ui import turning
from bluewright.web.ui.turning import asked_page, turned
from tests import cast

LETTERS = "ABCDEFG"


@pytest.mark.parametrize(
    ("asked", "rows", "links"),
    [
        ("", "AB", {"page 1 of 4": "", "next page": "?page=2", "last page": "?page=4"}),
        ("page=2", "CD", {"first page": "?page=1", "page before": "?page=1", "page 2 of 4": "", "next page": "?page=3",
                          "last page": "?page=4"}),
        ("page=4", "G", {"first page": "?page=1", "page before": "?page=3", "page 4 of 4": ""}),
        ("page=99", "G", {"first page": "?page=1", "page before": "?page=3", "page 4 of 4": ""}),
    ],
)  # fmt: skip
def test_each_page_has_its_rows_and_links_to_the_others(asked: str, rows: str, links: dict[str, str]) -> None:
    found, pages = turned(LETTERS, QueryDict(asked), most=2)
    assert ("".join(found), {link.name: link.href for link in pages}) == (rows, links)


def test_one_page_needs_no_links() -> None:
    assert turned(LETTERS, QueryDict(""), most=7) == (list(LETTERS), ())
    assert turned("", QueryDict("page=3"), most=7) == ([], ())


def test_what_else_the_address_asks_for_stays_but_for_the_twin() -> None:
    _rows, pages = turned(LETTERS, QueryDict("sort=a%26b&as=json"), most=6)
    assert pages[1].href == "?sort=a%26b&page=2"


@pytest.mark.parametrize("odd", ["0", "-1", "x", "1.5", "²", "9" * 30, " 2", ""])
def test_a_page_that_there_cannot_be_is_the_first(odd: str) -> None:
    assert asked_page(QueryDict(f"page={odd}")) == 1


@pytest.mark.django_db
@pytest.mark.parametrize("where", ["/tubs/", "/pickings/", "/jars/"])
def test_lists_that_grow_with_the_years_come_in_pages(
    client: Client, where: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(turning, "PAGE", 2)
    monkeypatch.setattr(tubs, "MOST_DRAWN", 2)
    place: Garden = cast.a_garden()
    for at in range(3):
        cast.a_jar_from_the_bed(place, name=f"Jar {at}", filled_at=cast.moment(at))
    first, last = (client.get(where, {"page": page}).content.decode() for page in (1, 2))
    assert "page 1 of 2" in first
    assert "page 2 of 2" in last
    assert first.count('<ul class="things">') == last.count('<ul class="things">') == 1
    assert first.count("<li>") == 2
    assert last.count("<li>") == 1
