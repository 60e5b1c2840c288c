"""`python -m bluewright.cli.publish`: write the JSON Schemas of all records and answers into the package.

Run it after any change to a record or an answer; a test fails while the files differ from the code.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any, Final

from bluewright.cli.schemas import PUBLISHED
from bluewright.science.base.records import schema

FOLDER: Final = Path(__file__).parents[1] / "schemas"
ENDING: Final = ".schema.json"
TIME: Final = r"^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:?\d{2})$"
"""A time with its offset from UTC, seconds or not."""


def schema_text(name: str) -> str:
    """The schema file of the record or answer `name`: keywords in alphabetical order, fields in their own."""
    return json.dumps(_ordered(schema(PUBLISHED[name])), indent=1, ensure_ascii=False) + "\n"


def publish(folder: Path) -> list[str]:
    """Bring `folder` up to date; returns the names of the files that were written or removed."""
    folder.mkdir(exist_ok=True)
    wanted = {f"{name}{ENDING}": schema_text(name) for name in PUBLISHED}
    stale = sorted(path.name for path in folder.glob(f"*{ENDING}") if path.name not in wanted)
    for name in stale:
        (folder / name).unlink()
    changed = [name for name, text in sorted(wanted.items()) if _held(folder / name) != text]
    for name in changed:
        (folder / name).write_text(wanted[name], encoding="utf-8", newline="\n")
    return stale + changed


def _held(path: Path) -> str | None:
    return path.read_text(encoding="utf-8") if path.exists() else None


def _ordered(part: Any, *, fields: bool = False) -> Any:
    """`part` in alphabetical order, except the fields of an object; without the titles that only repeat names."""
    if isinstance(part, list):
        return [_ordered(each) for each in part]
    if not isinstance(part, dict):
        return part
    if fields:
        return {name: _ordered(_without_title(field)) for name, field in part.items()}
    found = {key: _ordered(part[key], fields=key == "properties") for key in sorted(part)}
    if found.get("format") == "date-time":  # that format asks for seconds, which nobody types
        del found["format"]
        found["pattern"] = TIME
    return found


def _without_title(field: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in field.items() if key != "title"}


if __name__ == "__main__":
    print("\n".join(publish(FOLDER)) or "the schemas are up to date")
    sys.exit(0)
