"""A page of text as HTML: Markdown as our own docs write it, with their pictures, glossaries and links.

Nothing of a text reaches the page as HTML of its own: what is marked up is marked up here. Whatever is wider than a
phone (a table, a formula) stands in a box that scrolls.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from django.urls import reverse
from django.utils.html import escape
from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.rules_core import StateCore
from markdown_it.token import Token
from mdit_py_plugins.anchors import anchors_plugin
from mdit_py_plugins.myst_role import myst_role_plugin

from bluewright.web.ui.cited import cited
from bluewright.web.ui.directives import DIRECTIVES
from bluewright.words import texts
from bluewright.words.sources import bibliography


@dataclass(frozen=True, slots=True, kw_only=True)
class Prose:
    """A page of text."""

    title: str
    """Its first heading, as plain text."""
    question: str
    """The question that it answers, as plain text; empty for pages that answer none."""
    html: str


@cache
def prose(name: str) -> Prose:
    """A page by its name; KeyError if there is none, ValueError if it holds what cannot be shown."""
    tokens = _parser().parse(texts.page(name))
    return Prose(title=title_of(name), question=_question(tokens), html=_html(tokens))


@cache
def part(name: str, heading: str) -> str:
    """What stands under one heading of a page, up to the next of the same rank; KeyError if there is none."""
    tokens = _parser().parse(texts.page(name))
    starts = [k for k, token in enumerate(tokens) if token.type == "heading_open" and token.tag == "h2"]
    for first, last in zip(starts, [*starts[1:], len(tokens)], strict=True):
        if tokens[first + 1].content == heading:
            return _html(tokens[first + 3 : last])
    raise KeyError(heading)


@cache
def title_of(name: str) -> str:
    """The first heading of a page."""
    return texts.page(name).split("\n", 1)[0].removeprefix("# ")


def address(name: str, anchor: str = "") -> str:
    """Where a page is shown."""
    return reverse("method.show", kwargs={"name": name}) + (f"#{anchor}" if anchor else "")


@cache
def _parser() -> MarkdownIt:
    md = MarkdownIt("commonmark", {"html": False}).enable("table")
    md.use(anchors_plugin, max_level=4).use(myst_role_plugin)
    md.core.ruler.push("own_links", _own_links)
    md.add_render_rule("fence", _fence)
    md.add_render_rule("table_open", _table_open)
    md.add_render_rule("table_close", lambda *_: "</table></div>\n")
    md.add_render_rule("code_inline", _code)
    return md


def _html(tokens: Sequence[Token]) -> str:
    md = _parser()
    made: str = md.renderer.render(tokens, md.options, {})
    return made


def _question(tokens: Sequence[Token]) -> str:
    """What follows on `**The question.**`, or `**The questions.**`."""
    for token in tokens:
        if token.type == "inline" and (start := re.match(r"\*\*The questions?\.\*\* ", token.content)):
            return " ".join(token.content[start.end() :].split())
    return ""


def _own_links(state: StateCore) -> None:
    """Links between the texts lead to the pages that show them; names with a year lead to the list of sources."""
    for token in state.tokens:
        token.attrs.pop("style", None)
        if token.type == "inline" and token.children:
            token.children = _linked(_joined(token.children))


def _joined(parts: Sequence[Token]) -> list[Token]:
    """Text that runs on over a line's end as one piece."""
    found: list[Token] = []
    for token in parts:
        piece = Token("text", "", 0, content=" ") if token.type == "softbreak" else token
        if piece.type == "text" and found and found[-1].type == "text":
            found[-1].content += piece.content
        else:
            found.append(piece)
    return found


def _linked(parts: Sequence[Token]) -> list[Token]:
    found: list[Token] = []
    inside, drop = False, False
    for token in parts:
        if token.type == "link_open":
            inside, drop = True, not _relink(token)
        if token.type == "myst_role":
            found += _role(token)
        elif token.type == "text" and not inside:
            found += _with_sources(token)
        elif not (drop and token.type in {"link_open", "link_close"}):
            found.append(token)
        if token.type == "link_close":
            inside, drop = False, False
    return found


def _relink(token: Token) -> bool:
    """Point a link at the page that shows the text it names; False where the program shows no such text."""
    href = str(token.attrs["href"])
    if href.startswith(("#", "https://")):
        return True
    path, _, anchor = href.partition("#")
    name = path.rsplit("/", 1)[-1].removesuffix(".md")
    if name in texts.NAMES:
        token.attrs["href"] = address(name, anchor)
    return name in texts.NAMES


def _role(token: Token) -> list[Token]:
    """`{doc}` with the name of a page: a link that says its title."""
    name = token.content.rsplit("/", 1)[-1]
    if token.meta["name"] != "doc" or name not in texts.NAMES:
        raise ValueError(f"this program shows no {{{token.meta['name']}}} `{token.content}`")
    return _link(address(name), title_of(name))


def _with_sources(token: Token) -> list[Token]:
    found: list[Token] = []
    for piece, key in cited(token.content):
        made = Token("text", "", 0, content=piece)
        found += _link(address("sources", bibliography()[key].anchor), piece) if key else [made]
    return found


def _link(href: str, words: str) -> list[Token]:
    return [
        Token("link_open", "a", 1, attrs={"href": href}),
        Token("text", "", 0, content=words),
        Token("link_close", "a", -1),
    ]


def _fence(_: RendererHTML, tokens: Sequence[Token], at: int, *__: Any) -> str:
    """A directive by its own maker; anything else as it stands, in a box that scrolls."""
    info, content = tokens[at].info.strip(), tokens[at].content
    if info.startswith("{"):
        name, _close, argument = info[1:].partition("}")
        if name not in DIRECTIVES:
            raise ValueError(f"this program shows no {{{name}}}")
        return DIRECTIVES[name](argument.strip(), content, _parser().renderInline)
    said = "a worked example in Python" if info == "python" else "a formula or a sketch in plain text"
    return f'<pre class="wide" tabindex="0" role="group" aria-label="{said}"><code>{escape(content)}</code></pre>\n'


def _table_open(*_: Any) -> str:
    return '<div class="wide" tabindex="0" role="group" aria-label="a table"><table>\n'


def _code(_: RendererHTML, tokens: Sequence[Token], at: int, *__: Any) -> str:
    """A key of the bibliography leads to its entry."""
    made = f"<code>{escape(tokens[at].content)}</code>"
    entry = bibliography().get(tokens[at].content)
    return made if entry is None else f'<a href="{address("sources", entry.anchor)}">{made}</a>'
