"""The pictures of signs and tubs, drawn when the docs are built by the same functions that draw them elsewhere.

`{sign-ladder}` with the name of a sign shows its four levels with their words. `{tub-picture}` shows one tub from the
fields of a `TubLook`, one a line.
"""

from collections.abc import Iterable
from html import escape
from typing import Any, cast
from xml.etree import ElementTree

from docutils import nodes
from docutils.parsers.rst import Directive
from sphinx.application import Sphinx

from bluewright.charts.signs_drawn import sign_drawing
from bluewright.charts.tub_drawn import read_look, tub_drawing
from bluewright.science.base.errors import InputError
from bluewright.science.steep.signs import SIGNS, SignName


class SignLadder(Directive):
    """`{sign-ladder} bubbles`: four pictures, each with its level and its words."""

    required_arguments = 1

    def run(self) -> list[nodes.Node]:
        """One row."""
        name = self.arguments[0]
        if name not in SIGNS:
            raise self.error(f"there is no sign {name!r}; there are: {', '.join(SIGNS)}")
        sign = cast(SignName, name)
        levels = enumerate(SIGNS[sign].levels)
        return [_row((sign_drawing(sign, level), f"{level}: {said}") for level, said in levels)]


class TubPicture(Directive):
    """`{tub-picture}`: lines such as `scum: 2`, and the picture that they make."""

    has_content = True

    def run(self) -> list[nodes.Node]:
        """The picture beside the words that a screen reader hears."""
        try:
            look = read_look(self.content)
        except InputError as wrong:
            raise self.error(f"this is no tub: {wrong}") from wrong
        drawing = tub_drawing(look)
        return [_beside(drawing, ElementTree.fromstring(drawing)[0].text or "")]


def _row(captioned: Iterable[tuple[str, str]]) -> nodes.Node:
    """Pictures side by side, the words below each; four stay in one row on a phone."""
    figures = "".join(
        f'<figure style="width:calc(25% - 8px);max-width:112px;margin:0">{drawing}'
        f"<figcaption>{escape(said)}</figcaption></figure>"
        for drawing, said in captioned
    )
    return nodes.raw("", f'<div style="display:flex;gap:10px;margin:16px 0">{figures}</div>', format="html")


def _beside(drawing: str, said: str) -> nodes.Node:
    """A picture and its words beside it, or below where it is narrow."""
    row = (
        '<figure style="display:flex;flex-wrap:wrap;gap:16px;align-items:center;margin:16px 0">'
        f'<div style="flex:0 0 260px">{drawing}</div>'
        f'<figcaption style="flex:1 1 220px">{escape(said)}</figcaption></figure>'
    )
    return nodes.raw("", row, format="html")


def setup(app: Sphinx) -> dict[str, Any]:
    """Register the directives."""
    app.add_directive("sign-ladder", SignLadder)
    app.add_directive("tub-picture", TubPicture)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
