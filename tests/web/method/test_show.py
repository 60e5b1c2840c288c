"""`/method/<name>/`: one page of text, as the program shows it."""

import re
from html.parser import HTMLParser

import pytest
from django.test import Client

from bluewright.charts.signs_drawn import sign_drawing
from bluewright.journal.models import Garden
from bluewright.web.ui.cited import cited
from bluewright.web.ui.prose import part, prose
from bluewright.words import texts
from bluewright.words.sources import bibliography
from tests.web.checks import only, url

pytestmark = pytest.mark.django_db
MARKUP = (":::", "```", "{doc}", "{src}", "{toctree}", "{glossary}", "{source-list}", "[[", "](", "**", "`")
"""What must not be left over in what people read."""


class Page(HTMLParser):
    """The anchors, links, tags and words of a page, code left out of the words."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.words = ""
        self._code = 0
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.tags.append((tag, given))
        self.ids += [given["id"]] if "id" in given else []
        self.links += [given["href"]] if tag == "a" else []
        self._code += tag == "code"

    def handle_endtag(self, tag: str) -> None:
        self._code -= tag == "code"

    def handle_data(self, data: str) -> None:
        self.words += "" if self._code else data


def shown(client: Client, name: str) -> Page:
    response = client.get(url("method.show", name=name))
    assert response.status_code == 200
    return Page(response.content.decode())


@pytest.mark.parametrize("name", texts.NAMES)
def test_no_markup_is_left_over(client: Client, name: str) -> None:
    words = shown(client, name).words
    assert len(words) > 500
    assert not [mark for mark in MARKUP if mark in words]


@pytest.mark.parametrize("name", texts.NAMES)
def test_every_link_leads_to_a_page_and_a_place_on_it(client: Client, name: str) -> None:
    for link in shown(client, name).links:
        path, _, anchor = link.partition("#")
        if path.startswith("https://"):
            assert name == "sources"
            continue
        response = client.get(path)
        assert response.status_code in {200, 302}, link
        if anchor:
            assert anchor in Page(response.content.decode()).ids, link


@pytest.mark.parametrize("name", texts.NAMES)
def test_every_heading_is_a_place_and_no_place_is_there_twice(client: Client, name: str) -> None:
    page = shown(client, name)
    assert all(given.get("id") for tag, given in page.tags if tag in {"h2", "h3"})
    assert len(page.ids) == len(set(page.ids))


@pytest.mark.parametrize("name", texts.NAMES)
def test_what_is_wide_scrolls_in_a_box_that_the_keyboard_reaches(name: str) -> None:
    html = prose(name).html
    for start in re.findall(r"(.{0,90})<table>", html):
        assert 'class="wide" tabindex="0"' in start
    assert html.count("<pre") == html.count('<pre class="wide" tabindex="0"')
    assert "style=" not in re.sub(r"<svg.*?</svg>", "", html, flags=re.S)


def test_a_sign_s_four_levels_are_drawn() -> None:
    html = prose("signs").html
    assert all(sign_drawing("scum", level) in html for level in range(4))
    assert html.count('class="beside"') == 4


def test_words_are_explained_and_can_be_pointed_at(client: Client) -> None:
    page = shown(client, "words")
    assert {"term-steep", "term-strain-call", "term-jar-titration"} <= set(page.ids)
    assert url("method.show", name="signs") in page.links


def test_a_page_that_the_docs_name_is_named_by_its_title() -> None:
    assert (
        f'<a href="{url("method.show", name="air")}">Airing: minutes, pours, and is it done</a>' in prose("alkali").html
    )


def test_a_page_that_the_program_does_not_show_is_named_without_a_link(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(
        texts, "page", lambda _: "# T\n\nSee [the commands](commands.md) and [steep](method/steep.md#limits)."
    )
    html = prose.__wrapped__("words").html
    assert "See the commands and" in html
    assert f'<a href="{url("method.show", name="steep")}#limits">steep</a>' in html


def test_html_in_a_text_is_shown_as_text(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(texts, "page", lambda _: "# T\n\n<script>alert(1)</script> <b>x</b>\n\n```text\n<i>\n```\n")
    html = prose.__wrapped__("words").html
    assert not re.search(r"<(script|b|i)>", html)
    assert "&lt;script&gt;" in html


@pytest.mark.parametrize("text", ["```{lanes} x\n```", "See {abbr}`kLa`.", "See {doc}`commands`."])
def test_what_cannot_be_shown_is_refused_rather_than_shown_raw(monkeypatch: pytest.MonkeyPatch, text: str) -> None:
    monkeypatch.setattr(texts, "page", lambda _: text)
    with pytest.raises(ValueError, match="this program shows no"):
        prose.__wrapped__("words")


def test_every_source_stands_on_the_page_of_sources(client: Client) -> None:
    page = shown(client, "sources")
    assert {f"source-{key}" for key in bibliography()} <= set(page.ids)
    assert "Stokes" in page.words
    assert "\\" not in page.words
    assert "{" not in page.words


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("eleven accessions, Rocha 2011", "rocha-2011"),
        ("as Goldberg, Kishore & Lennen 2002 say", "goldberg-2002"),
        ("density: Laliberte 2009.", "laliberte-2009"),
        ("J. F. Richardson and W. N. Zaki 1954", "richardson-zaki"),
        ("Raiffa and Schlaifer 1961", "raiffa-1961"),
    ],
)
def test_a_source_named_by_author_and_year_is_known(text: str, key: str) -> None:
    assert [found for _, found in cited(text) if found] == [key]
    assert "".join(piece for piece, _ in cited(text)) == text


@pytest.mark.parametrize("text", ["Rocha 1999", "Bates & Pinching 1949", "in July 2026", "Ure, no year"])
def test_a_name_that_is_no_source_or_could_be_two_is_left_alone(text: str) -> None:
    """Bates and Pinching wrote two of the sources in 1949."""
    assert list(cited(text)) == [(text, "")]


def test_one_part_of_a_page_can_be_shown_elsewhere() -> None:
    formula = part("strain", "Formula")
    assert "out   = 1 - K / V" in formula
    assert "how well the rinse mixes" in formula
    assert "judgements" not in formula
    with pytest.raises(KeyError):
        part("strain", "Riddles")


def test_there_is_no_page_of_a_wrong_name(client: Client) -> None:
    for name in ("nothing", "journal", "index"):
        assert client.get(url("method.show", name=name)).status_code == 404
    assert client.get("/method/../sources.bib/").status_code == 404


def test_it_needs_no_garden(client: Client) -> None:
    assert not Garden.objects.exists()
    assert client.get(url("method.show", name="steep")).status_code == 200


def test_it_is_only_read(client: Client) -> None:
    only(client, url("method.show", name="steep"), "get")


def test_its_json_twin_says_the_same(client: Client) -> None:
    twin = client.get(url("method.show", name="steep"), {"as": "json"}).json()
    assert twin == {"name": "steep", "title": prose("steep").title, "html": prose("steep").html}
