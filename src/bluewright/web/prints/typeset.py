"""From a page's data to a PDF by a template of this folder.

The data goes in as JSON and comes out of it as text: nothing that a person typed is ever read as markup. Only the
fonts that come with the typesetter are used, and no date goes in, so the same data gives the same bytes everywhere.
A letter that those fonts have no picture of is spelled out: a leaf drawn in a name becomes `(herb)`, never a box.
"""

from __future__ import annotations

import json
import re
import unicodedata
from dataclasses import asdict
from functools import lru_cache
from pathlib import Path
from threading import Lock
from typing import Any, Final

import typst

HERE: Final = Path(__file__).parent
LAST_USUAL: Final = "\u024f"
"""Up to here, the end of Latin, every letter has its picture."""
NO_LETTER: Final = "\U0010fffd"
"""For private use: no font has a picture of it."""
_one_at_a_time = Lock()


def pdf(template: str, page: Any) -> bytes:
    """The page, a frozen dataclass of plain values, as a PDF by `<template>.typ`."""
    return typeset(template, page, to="pdf")[0]


def typeset(template: str, page: Any, *, to: Any, ppi: float | None = None) -> list[bytes]:
    """The page in a form that the typesetter has (`pdf`, `svg`, `png`), each sheet by itself unless it is a PDF."""
    data = json.dumps(asdict(page), ensure_ascii=False)
    with _one_at_a_time:
        found = _compiler(template).compile(format=to, sys_inputs={"data": spelled(data)}, ppi=ppi)
    return list(found) if isinstance(found, list) else [found or b""]


def spelled(text: str) -> str:
    """The text with each letter that cannot be printed spelled out by its name, or by its number if it has none."""
    strange = {letter for letter in text if letter > LAST_USUAL and not _printable(letter)}
    return "".join(_name(letter) if letter in strange else letter for letter in text) if strange else text


def _name(letter: str) -> str:
    """`(herb)`; of a script that has no picture its number; of a shade of skin nothing."""
    if unicodedata.category(letter) == "Sk":
        return ""
    name = unicodedata.name(letter, "").lower()
    plain = name and unicodedata.category(letter) == "So"
    return f"({name})" if plain else f"(U+{ord(letter):04X})"


@lru_cache(maxsize=4096)
def _printable(letter: str) -> bool:
    """Whether the fonts have a picture of a letter: one that is not the box of what they have not."""
    return _shapes(letter) != _shapes(NO_LETTER)


@lru_cache(maxsize=4096)
def _shapes(letter: str) -> tuple[bytes, ...]:
    drawn = _compiler("glyph").compile(format="svg", sys_inputs={"data": json.dumps(letter)})
    return tuple(re.findall(rb' d="([^"]*)"', drawn if isinstance(drawn, bytes) else b""))


@lru_cache(maxsize=8)
def _compiler(template: str) -> typst.Compiler:
    """A compiler that has read the template and the fonts already."""
    return typst.Compiler(HERE / f"{template}.typ", root=HERE, font_paths=_fonts())


@lru_cache(maxsize=1)
def _fonts() -> typst.Fonts:
    return typst.Fonts(include_system_fonts=False)
