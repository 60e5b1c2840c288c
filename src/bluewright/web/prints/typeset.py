"""From a page's data to a PDF by a template of this folder.

The data goes in as JSON and comes out of it as text: nothing that a person typed is ever read as markup. Only the
fonts that come with the typesetter are used, and no date goes in, so the same data gives the same bytes everywhere.
"""

from __future__ import annotations

import json
from dataclasses import asdict
from functools import lru_cache
from pathlib import Path
from threading import Lock
from typing import Any, Final

import typst

HERE: Final = Path(__file__).parent
_one_at_a_time = Lock()


def pdf(template: str, page: Any) -> bytes:
    """The page, a frozen dataclass of plain values, as a PDF by `<template>.typ`."""
    return typeset(template, page, to="pdf")[0]


def typeset(template: str, page: Any, *, to: Any, ppi: float | None = None) -> list[bytes]:
    """The page in a form that the typesetter has (`pdf`, `svg`, `png`), each sheet by itself unless it is a PDF."""
    data = json.dumps(asdict(page), ensure_ascii=False)
    with _one_at_a_time:
        found = _compiler(template).compile(format=to, sys_inputs={"data": data}, ppi=ppi)
    return list(found) if isinstance(found, list) else [found or b""]


@lru_cache(maxsize=8)
def _compiler(template: str) -> typst.Compiler:
    """A compiler that has read the template and the fonts already."""
    return typst.Compiler(HERE / f"{template}.typ", root=HERE, font_paths=_fonts())


@lru_cache(maxsize=1)
def _fonts() -> typst.Fonts:
    return typst.Fonts(include_system_fonts=False)
