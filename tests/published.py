"""Published values, one file a source in `tests/published/`, read once and named in every test id.

A file holds `[source]` (key of sources.bib, citation, how it was read) and rows under `[[row]]`, each with `what`,
inputs, the `value`, and a tolerance (`abs` or `rel`) from the printed digits or the stated error.
"""

import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parent / "published"


@dataclass(frozen=True, slots=True)
class Row:
    """One published value with what it was published for."""

    what: str
    value: float
    given: dict[str, float]
    abs: float
    rel: float

    def agrees(self, found: float) -> bool:
        return abs(found - self.value) <= max(self.abs, self.rel * abs(self.value))


def rows(stem: str, what: str | None = None) -> list[Row]:
    """The rows of `published/<stem>.toml`, those of one quantity if `what` is given."""
    data = tomllib.loads((FOLDER / f"{stem}.toml").read_text(encoding="utf-8"))
    assert data["source"]["key"] and data["source"]["read"], stem
    found = [_row(entry) for entry in data["row"] if what is None or entry["what"] == what]
    assert found, f"{stem} has no rows for {what}"
    return found


def _row(entry: dict[str, Any]) -> Row:
    fixed = {"what", "value", "abs", "rel"}
    return Row(
        what=entry["what"],
        value=entry["value"],
        given={name: value for name, value in entry.items() if name not in fixed},
        abs=entry.get("abs", 0.0),
        rel=entry.get("rel", 0.0),
    )
