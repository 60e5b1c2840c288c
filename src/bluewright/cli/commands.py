"""The table of commands: group, verb, one line of help, and the module that runs it.

Kept free of imports from the science so that `bluewright --help` starts at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True)
class Command:
    """A command by its words; `module` is imported when it is chosen and must define `run(arguments)`."""

    words: tuple[str, ...]
    help: str
    module: str


COMMANDS: Final = (
    Command(("leaf", "potential"), "the most blue a basket can give; what waiting and damage cost", "leaf_potential"),
    Command(("steep", "call"), "strain now, wait until when, and what each moment is expected to give", "steep_call"),
    Command(("strain", "balance"), "liquor out, liquor left in the leaves, squeezing or a rinse", "strain_balance"),
    Command(("schema",), "print the JSON Schema of a record or an answer", "schema"),
)
