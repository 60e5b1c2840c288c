"""Every page in an invented language, each message between « and »: what stands outside was forgotten."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from html.parser import HTMLParser
from pathlib import Path
from typing import Any, Final
from urllib.parse import urlsplit

import catalogue
import pytest
from babel.messages.catalog import Catalog
from django.test import Client
from django.urls import resolve

from bluewright.journal.models import Garden
from bluewright.words.sources import bibliography, citation
from tests import cast
from tests.web import working
from tests.web.checks import url

pytestmark = pytest.mark.django_db
INVENTED: Final = "qps"
"""A code that is nobody's: ISO 639 keeps qaa to qtz for private use."""
LABELS: Final = ("alt", "aria-label", "placeholder", "title")
UNTRANSLATED: Final = {
    "code", "script", "style", "textarea",
    ".cautions p", ".notes p", ".cautions li",  # cautions come from the science, in English
    ".help", ".prose", ".facts-list", ".meaning",  # docstrings of records and answers, and the texts of the method
    ".known", ".sources",  # names of constants, and titles of papers
    ".once", ".typed",  # what was typed, given back
}  # fmt: skip
"""Elements, classes, and elements within a class, whose text is not of the pages."""
ENGLISH: Final = {
    *(citation(entry) for entry in bibliography().values()),
    "Always add the alkali to the liquor, stirring, never the liquor to it.",
    "Never let this liquor or its alkali meet bleach or any other cleaner.",
    "It irritates eyes and skin: goggles and gloves. In the eye rinse with water for minutes, and ask a doctor if it "
    "still hurts. What the product's label says goes first.",
}
"""Titles of papers, and cautions of the science that stand by themselves."""
UNITS: Final = (
    "mg CaCO₃/L|kg|g|mg|L|mL|ml|C|°C|K|m2|m|mm|cm|h|min|s|MB|px|ppm|mol|kg/L|g/L|g/kg|g/mol|mg/L|mol/L|L/s"
    "|L/min|m/s|MJ/m²|L/h|mm/h|µS/cm|nm|mg/mL"
)
OWN: Final = re.compile(
    r"Bluewright|JSON|PDF|pH|CIELAB|CMC|Europe/London"
    r"|Marl Bank|Long bed|Wall bed|Under the hedge|soda, half molar"
    r"|[Tt]ub[ -]\d|[Bb]atch[ -]\d|[Jj]ar[ -]\d"  # given names
    r"|spectrophotometer|twelve swatches|furnace|Soda ash|Lime, the open bag|EUR"  # what the example of the bench names
    r"|two shawls|table linen|a jar for the market|last year's jar"
    r"|Ammonia or soda ash\?|Is badly spotted leaf worth a tub\?|clean leaf|[Ss]potted leaf|two days|three days"
    r"|first|second|third|fourth|fifth"  # pickings of the example of a trial
    rf"|(?<!\w)[0-9a-f]{{8}}(?!\w)|(?<![A-Za-z])({UNITS})(?![A-Za-z/])"
)
"""Names, short keys and units: the same in every language."""
FILE_SHOWN: Final = "/learned/share/"
"""A page that shows a file as it would go."""
MOST_ALIKE: Final = 2
"""Of the pages of one view so many are looked at."""


class Shown(HTMLParser):
    """What a page shows or a screen reader says: texts and labels, each by itself, without what is not translated."""

    VOID: Final = frozenset({"meta", "link", "input", "br", "img", "hr"})
    """Elements without an end."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.lines: list[str] = []
        self.inside: list[tuple[str, frozenset[str]]] = []
        self.feed(html)

    @property
    def left_out(self) -> bool:
        within: set[str] = set()
        for tag, classes in self.inside:
            if {tag, *(f".{one}" for one in classes), *(f"{outer} {tag}" for outer in within)} & UNTRANSLATED:
                return True
            within |= {f".{one}" for one in classes}
        return False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag not in self.VOID:
            self.inside.append((tag, frozenset((dict(attrs).get("class") or "").split())))
        if not self.left_out:
            self.texts += [value for name, value in attrs if name in LABELS and value]

    def handle_endtag(self, tag: str) -> None:
        while self.inside and self.inside.pop()[0] != tag:
            pass
        if tag == "svg" and self.lines:
            self.texts.append(" ".join(self.lines))
            self.lines.clear()

    def handle_data(self, data: str) -> None:
        """A drawing's lines are put together: its sentences are broken where they are too wide for one."""
        if data.strip() and not self.left_out:
            lines = self.lines if any(tag == "svg" for tag, _classes in self.inside) else self.texts
            lines.append(" ".join(data.split()))


def outside(text: str) -> str:
    """The words of a text that stand in no message, and are neither a name nor a unit."""
    before = None
    while before != text:
        before, text = text, re.sub(r"«[^«»]*[»…]", "", text)
    return " ".join(re.findall(r"[A-Za-z]{2,}", OWN.sub("", text)))


@pytest.fixture
def invented_language(tmp_path: Path, settings: Any) -> None:
    """The catalogue with each message as its own translation, in brackets."""
    made = Catalog(locale="en")
    for said in catalogue.messages():
        strings = tuple(f"«{one}»" for one in (said if isinstance(said, tuple) else (said,)))
        made.add(said, strings if len(strings) > 1 else strings[0])
    speak(made, INVENTED, tmp_path, settings)


def speak(made: Catalog, language: str, folder: Path, settings: Any) -> None:
    """A catalogue as the only one of the program."""
    place = folder / language / "LC_MESSAGES"
    place.mkdir(parents=True)
    (place / "django.mo").write_bytes(catalogue.compiled(made))
    settings.LANGUAGES = [*settings.LANGUAGES, (language, language)]
    settings.LOCALE_PATHS = [folder]


def pages(client: Client) -> Iterator[tuple[str, str]]:
    """The pages that links lead to, with their addresses; of many alike some."""
    seen, met, to_see = set[str](), Counter[str](), ["/"]
    while to_see:
        path = to_see.pop(0)
        found = resolve(urlsplit(path).path)
        view = f"{found.view_name} {found.kwargs.get('calculator', '')}" if "figure" not in found.kwargs else "why"
        if path in seen or met[view] >= MOST_ALIKE:
            continue
        seen.add(path)
        met[view] += 1
        response = client.get(path, HTTP_ACCEPT_LANGUAGE=INVENTED, follow=True)
        assert response.status_code == 200, path
        if "html" in response["Content-Type"]:
            yield path, response.content.decode()
            links = re.findall(r'<a\b[^>]*\bhref="(/[^"]*)"', response.content.decode())
            to_see += [urlsplit(one.replace("&amp;", "&"))._replace(fragment="").geturl() for one in links]


def test_every_word_of_every_page_is_translated(garden: Garden, invented_language: None) -> None:
    working.a_drying_batch(garden)
    working.a_settling_batch(garden)
    working.an_aired_batch(garden)
    cast.a_jar_from_the_bed(garden)
    looked_at = dict(pages(Client()))
    forgotten = {
        (re.sub(r"[0-9a-f]{8}-[0-9a-f-]{27}", "*", path), text)
        for path, html in looked_at.items()
        for text in Shown(html).texts
        if outside(text) and text not in ENGLISH and not path.startswith(("/method/", FILE_SHOWN))
    }
    assert not forgotten, "\n".join(f"{path} {outside(text)!r} of {text}" for path, text in sorted(forgotten))
    assert len(looked_at) > 60, "the links lead to all kinds of pages"


def test_what_was_forgotten_is_found() -> None:
    """The check itself: a word, a label, a word beside a message, a broken line of a drawing."""
    html = '<p>Stop</p><a aria-label="Go on">«Go»</a><p>«%s» of leaf</p><svg><text>«two</text><text>lines»</text></svg>'
    assert [outside(text) for text in Shown(html).texts] == ["Stop", "Go on", "", "of leaf", ""]
    assert not outside("«Picked «««Sun» 5 «Jul»» 18:00»»: 3.5 kg, pH 6.7; Tub 3")
    assert Shown('<section class="cautions"><h2>«Take care»</h2><p>It burns.</p></section>').texts == ["«Take care»"]


def test_a_language_of_the_browser_is_spoken_where_it_is_there(garden: Garden, tmp_path: Path, settings: Any) -> None:
    """Some German: navigation, a sentence of Today, one of the words; what is not translated stays English."""
    german = Catalog(locale="de")
    for said, translated in {
        "Today": "Heute", "Beds": "Beete", "Tubs": "Bottiche", "woad": "Waid",
        "%(leaf)s of %(plant)s leaf waits": "%(plant)s: %(leaf)s Blatt warten",
        "Share of the blue in the liquor: %(share)s.": "Anteil des Blaus in der Brühe: %(share)s.",
        "%(middle)s (%(low)s to %(high)s)": "%(middle)s (%(low)s bis %(high)s)",
    }.items():  # fmt: skip
        german.add(said, translated)
    speak(german, "de", tmp_path, settings)
    cast.a_picking(garden)
    client = Client(headers={"accept-language": "de-AT,de;q=0.9,en;q=0.5"})
    page = client.get("/").content.decode()
    assert '<html lang="de">' in page
    for word in ("<h1>Heute</h1>", ">Beete</a>", ">Bottiche</a>", ">Waid: 3 kg Blatt warten</h2>"):
        assert word in page
    assert ">Weather</a>" in page, "not translated yet"
    answer = client.get(url("bench.show", calculator="strain-balance")).content.decode()
    assert re.search(r"Anteil des Blaus in der Brühe: \d+% \(\d+ bis \d+\)\.", answer)


@pytest.mark.parametrize("asked", ["", "en", "en-GB,en;q=0.8", "fr-FR,fr;q=0.9", "tlh", "*", "\x00", "de" * 300])
def test_english_is_spoken_where_a_language_is_not_there(garden: Garden, asked: str) -> None:
    response = Client().get(url("beds.index"), HTTP_ACCEPT_LANGUAGE=asked)
    assert response.status_code == 200
    assert '<html lang="en-gb">' in response.content.decode()
    assert "<h1>Beds</h1>" in response.content.decode()
