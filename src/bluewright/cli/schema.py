"""`bluewright schema NAME`: print a published JSON Schema."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from importlib import resources


def names() -> list[str]:
    """The names of the schemas in the package, in order."""
    folder = resources.files("bluewright").joinpath("schemas")
    return sorted(f.name.removesuffix(".schema.json") for f in folder.iterdir() if f.name.endswith(".schema.json"))


def run(arguments: Sequence[str]) -> int:
    """Print the schema named in `arguments`; without a name, list the names."""
    if not arguments or arguments[0] in {"-h", "--help"}:
        print("usage: bluewright schema NAME\n\nexample: bluewright schema steep-record\n\nnames:")
        print("\n".join(f"  {name}" for name in names()))
        return 0 if arguments else 2
    if len(arguments) > 1 or arguments[0] not in names():
        print(
            f"bluewright schema: there is no '{' '.join(arguments)}'; names: {', '.join(names())}",
            file=sys.stderr,
        )
        return 2
    print(
        resources.files("bluewright").joinpath("schemas", f"{arguments[0]}.schema.json").read_text("utf-8"),
        end="",
    )
    return 0
