"""The ways of assaying a pigment: what each is called, needs, and is good to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from bluewright.words.language import marked


@dataclass(frozen=True, slots=True, kw_only=True)
class WayWords:
    """One way in words, each a message to be translated."""

    name: str
    needs: str
    good_to: str


WAYS: Final[Mapping[str, WayWords]] = {
    "dyeing": WayWords(
        name=marked("test dyeing"),
        needs=marked("Pure indigo, cloth, a scale, twelve small vats, and one photo or a meter. No laboratory."),
        good_to=marked("Good to a tenth or a fifth of the result."),
    ),
    "ash": WayWords(
        name=marked("ash and acid wash"),
        needs=marked("An oven and a scale; a furnace or some vinegar. Says only how much it can be at most."),
        good_to=marked("An upper bound."),
    ),
    "powder": WayWords(
        name=marked("colour of the powder"),
        needs=marked("A photo of the dry powder, and eight or more assays of your own with theirs."),
        good_to=marked("As good as your own rule."),
    ),
    "led": WayWords(
        name=marked("one-lamp meter"),
        needs=marked("A simple meter with an orange or red lamp, a solvent, pure indigo."),
        good_to=marked("Good to a twentieth or a tenth."),
    ),
    "spectrum": WayWords(
        name=marked("spectrum"),
        needs=marked("A spectrophotometer, a solvent, best with pure indigo beside. Reads the instrument's table."),
        good_to=marked("Good to a twentieth with a standard, to a tenth without."),
    ),
    "titration": WayWords(
        name=marked("titration or nitrogen"),
        needs=marked("A laboratory: strong acid, titrants, training."),
        good_to=marked("Good to a thirtieth or a tenth."),
    ),
    "given": WayWords(name=marked("typed with the jar"), needs="", good_to=""),
}
"""By method, those that a garden can do first."""
