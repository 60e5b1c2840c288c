"""The texts that the program shows as they are: how each number is computed, the words, the signs, the sources.

They are written once, in the folder `docs` of the source tree; an installed package carries a copy of them.
"""

from __future__ import annotations

from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Final

PACKAGED: Final = "method_pages"
"""The folder of an installed package that holds the copies; `pyproject.toml` says which files go in."""
BIBLIOGRAPHY: Final = "sources.bib"

COMPUTED: Final = (
    "bed", "weather", "watering", "growth", "plan", "season",
    "leaf", "tub-heat", "steep", "strain", "alkali", "jar-test", "air", "settle", "wash", "filter", "dry", "yield",
    "memory",
    "vat", "cost", "dyeing", "compare", "colour", "photo", "card", "assay",
)  # fmt: skip
"""The pages on how each number is computed, in the order of the work."""
BESIDE: Final = ("words", "signs", "nomenclature", "grades", "sources", "known-limits")
"""What those pages rest on."""
NAMES: Final = (*COMPUTED, *BESIDE)


def page(name: str) -> str:
    """The Markdown text of a page by its name; KeyError if there is none."""
    if name not in NAMES:
        raise KeyError(name)
    return text(f"method/{name}.md" if name in COMPUTED else f"{name}.md")


def text(path: str) -> str:
    """A text by its path below `docs`, or the bibliography; of the package, or of the source tree it runs from."""
    package = resources.files("bluewright")
    copies = package / PACKAGED
    return (copies / path if copies.is_dir() else _in_source_tree(package, path)).read_text(encoding="utf-8")


def _in_source_tree(package: Traversable, path: str) -> Traversable:
    root = Path(str(package)).parents[1]
    return root / path if path == BIBLIOGRAPHY else root / "docs" / path
