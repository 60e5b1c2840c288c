"""The fenced blocks of our texts that are more than text: pictures of signs and tubs, glossaries, the source list."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Final, cast
from xml.etree import ElementTree

from django.utils.html import escape
from django.utils.text import slugify

from bluewright.charts.signs_drawn import sign_drawing
from bluewright.charts.tub_drawn import read_look, tub_drawing
from bluewright.science.steep.signs import SIGNS, SignName
from bluewright.words.sources import bibliography, citation

Inline = Callable[[str], str]
"""Markdown of a line or two to HTML."""


def sign_ladder(sign: str, _: str, __: Inline) -> str:
    """The four levels of a sign side by side, the words below each."""
    name = cast(SignName, sign)
    figures = "".join(
        f"<figure>{sign_drawing(name, level)}<figcaption>{escape(f'{level}: {said}')}</figcaption></figure>"
        for level, said in enumerate(SIGNS[name].levels)
    )
    return f'<div class="ladder">{figures}</div>\n'


def tub_picture(_: str, content: str, __: Inline) -> str:
    """A tub from the fields of its look, and beside it in words what is drawn."""
    drawing = tub_drawing(read_look(content.splitlines()))
    said = ElementTree.fromstring(drawing)[0].text or ""
    return f'<figure class="beside"><div>{drawing}</div><figcaption>{escape(said)}</figcaption></figure>\n'


def glossary(_: str, content: str, inline: Inline) -> str:
    """Terms at the line's start, what they mean indented below; a blank line between them."""
    found = ""
    for entry in re.split(r"\n\s*\n", content.strip()):
        term, *meaning = (line.strip() for line in entry.splitlines())
        found += f'<dt id="term-{slugify(term)}">{escape(term)}</dt><dd>{inline(" ".join(meaning))}</dd>\n'
    return f"<dl>{found}</dl>\n"


def source_list(_: str, __: str, ___: Inline) -> str:
    """Every source by its key, as people cite it, with where to read it and how it was read."""
    found = ""
    for entry in bibliography().values():
        links = "".join(f' <a href="{escape(to)}" rel="noreferrer">{escape(to)}</a>' for to in entry.addresses)
        note = f" <em>{escape(entry.fields['note'])}</em>" if "note" in entry.fields else ""
        found += (
            f'<dt id="{entry.anchor}"><code>{escape(entry.key)}</code></dt>'
            f"<dd>{escape(citation(entry))}{links}{note}</dd>\n"
        )
    return f"<dl>{found}</dl>\n"


DIRECTIVES: Final[Mapping[str, Callable[[str, str, Inline], str]]] = {
    "sign-ladder": sign_ladder,
    "tub-picture": tub_picture,
    "glossary": glossary,
    "source-list": source_list,
}
"""By name: from the argument, the content and a renderer for inline text to HTML of our own."""
