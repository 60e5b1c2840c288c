"""Numbers as people type them: decimal point or comma, fractions, any minus sign. What could mean two is refused.

A number is read as an exact fraction, so that what was typed in the canonical unit comes back to the last digit.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import Final

from bluewright.science.base.errors import InputError

_SAME: Final = {
    **dict.fromkeys("−–‒—﹣－⁻", "-"),
    **dict.fromkeys("°º˚∘ᵒ", "°"),
    **dict.fromkeys("'′’‘`´", "'"),
    **dict.fromkeys('"″”“', '"'),
    **dict.fromkeys("⁄∕/", "/"),
}
"""Signs that look alike on paper and are told apart only by a machine."""

_WITH_BAR = re.compile(r"(?:(\d+)[ -])?(\d+) ?/ ?(\d+)")
_WITH_MARK = re.compile(r"\d*[.,]?\d+")
_THOUSANDS_OR_NOT = re.compile(r"[1-9]\d{0,2},\d{3}")


def plain(text: str) -> str:
    """`text` with one sign for each meaning: `1½ lb` becomes `1 1/2 lb`, `−5 ℃` becomes `-5 °C`, spaces become one.

    Raises InputError for raised, lowered or circled figures, of which only a raised 2 or 3 after a letter is clear.
    """
    said: list[str] = []
    for sign in text:
        raised = sign in "²³" and bool(said) and said[-1].isalpha()
        if sign in _SAME:
            said.append(_SAME[sign])
        elif sign.isspace():
            said.append(" ")
        elif sign.isdecimal():
            said.append(str(unicodedata.decimal(sign)))
        elif unicodedata.decomposition(sign).startswith("<fraction>"):
            said.append(f" {unicodedata.normalize('NFKC', sign).replace('⁄', '/')} ")
        elif sign.isnumeric() and not raised:
            raise _error(text, "has a figure that cannot be read", f"write {sign} as plain figures")
        else:
            said.append(sign if raised else unicodedata.normalize("NFKC", sign))
    return " ".join("".join(said).replace("''", '"').split())


def number(text: str) -> Fraction:
    """The number written as `5`, `5.5`, `5,5`, `.5`, `1/2`, `1 1/2` or `1-1/2`, without sign; `text` is plain.

    Raises InputError where it is no number, two numbers, a range, or could mean two numbers (`1,234`).
    """
    if fits := _WITH_BAR.fullmatch(text):
        return _with_bar(text, *fits.groups())
    if "-" in text:
        raise _error(text, "is a range", "give one value")
    if " " in text:
        raise _error(text, "is two numbers", "leave out the space, or write a unit after each number")
    if _THOUSANDS_OR_NOT.fullmatch(text):
        whole, part = text.split(",")
        raise _error(text, "could mean two numbers", f"write {whole}{part}, or {whole}.{part} for the small one")
    if not _WITH_MARK.fullmatch(text):
        raise _error(text, "is no clear number", "write it with one decimal mark and no thousands marks, like 1234.5")
    return Fraction(text.replace(",", "."))


def signed(text: str) -> float:
    """The number of a plain text that may begin with a minus. Raises InputError as `number`."""
    found = float(number(text.removeprefix("-")))
    return -found if text.startswith("-") else found


def _with_bar(text: str, whole: str | None, over: str, under: str) -> Fraction:
    if int(under) == 0:
        raise _error(text, "divides by nothing", "write a fraction like 1/2")
    if whole is not None and int(over) >= int(under):
        raise _error(text, "is no clear number", "after a whole number, write a fraction below one, like 1 1/2")
    return int(whole or 0) + Fraction(int(over), int(under))


def _error(text: str, what: str, right: str) -> InputError:
    return InputError(where="", what=f"'{text}' {what}", right=right)
