"""The seven signs of a steep as small pictures, four levels each, told apart at a glance and without colour."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final, TypeVar

from bluewright.charts import signs_at_hand, signs_in_tub
from bluewright.charts.palette import LINEN
from bluewright.charts.svg import box, element, number, words
from bluewright.science.base.errors import InputError
from bluewright.science.base.levels import LEVELS
from bluewright.science.steep.signs import SignName
from bluewright.words.signs import AnySign, seen_said

S = TypeVar("S", bound=AnySign)

SIDE: Final = 96.0
"""Side of the square, in the picture's own units; it is meant for 56 px and more."""

_PICTURES: Final[dict[SignName, Callable[[int], str]]] = {
    "bubbles": signs_in_tub.bubbles,
    "scum": signs_in_tub.scum,
    "blue_cast": signs_in_tub.blue_cast,
    "limpness": signs_at_hand.limpness,
    "darkness": signs_at_hand.darkness,
    "smell": signs_at_hand.smell,
    "alkali_green": signs_at_hand.alkali_green,
}


def sign_drawing(sign: SignName, level: int) -> str:
    """The picture of `sign` at `level` (0 to 3) as SVG text, 96 units square; its title says both in words.

    Raises `InputError` for a sign that does not exist and for a level that is not 0, 1, 2 or 3.
    """
    return framed(sign, level, pictures=_PICTURES)


def framed(sign: S, level: int, *, pictures: Mapping[S, Callable[[int], str]]) -> str:
    """The picture of a sign at a level out of `pictures`, in its square, with its words; raises as `sign_drawing`."""
    if sign not in pictures:
        raise InputError(where="sign", what=f"there is no sign {sign!r}", right=f"one of {', '.join(pictures)}")
    checked = check_level(level, where="level")
    return (
        element(
            "svg",
            element("title", words(seen_said(sign, checked))),
            box(0, 0, SIDE, SIDE, rx=8.0, fill=LINEN),
            pictures[sign](checked),
            xmlns="http://www.w3.org/2000/svg",
            viewBox=f"0 0 {number(SIDE)} {number(SIDE)}",
            role="img",
        )
        + "\n"
    )


def check_level(level: int, *, where: str) -> int:
    """`level` itself if it is one of the four; else an `InputError`."""
    if isinstance(level, bool) or not isinstance(level, int) or not 0 <= level < LEVELS:
        raise InputError(where=where, what=f"{level!r} is no level", right="0, 1, 2 or 3")
    return level
