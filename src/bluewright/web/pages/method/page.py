"""What the method's pages show."""

from __future__ import annotations

from dataclasses import dataclass

from bluewright.web.ui.prose import prose
from bluewright.words import texts


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A page in the list."""

    name: str
    title: str
    question: str
    """The question it answers; empty for lists of words, signs and sources."""


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexPage:
    """The list of pages."""

    computed: tuple[Row, ...]
    """How each number is computed, in the order of the work."""
    beside: tuple[Row, ...]
    """What those pages rest on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TextPage:
    """One page."""

    name: str
    title: str
    html: str
    """Our own HTML, made of the text."""


def index_page() -> IndexPage:
    """Every page by its name, title and question."""
    return IndexPage(computed=_rows(texts.COMPUTED), beside=_rows(texts.BESIDE))


def text_page(name: str) -> TextPage:
    """A page by its name."""
    found = prose(name)
    return TextPage(name=name, title=found.title, html=found.html)


def _rows(names: tuple[str, ...]) -> tuple[Row, ...]:
    return tuple(Row(name=name, title=prose(name).title, question=prose(name).question) for name in names)
