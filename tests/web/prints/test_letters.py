"""What the fonts of a PDF have no picture of is spelled out: no boxes."""

import pytest

from bluewright.web.prints.typeset import spelled


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("Küpe ½ → 48 °C, Ωλ Ж שלום ☃ ✓", "Küpe ½ → 48 °C, Ωλ Ж שלום ☃ ✓"),
        ("Vat \U0001f33f", "Vat (herb)"),
        ("\U0001f499\U0001f499", "(blue heart)(blue heart)"),
        ("\U0001f44d\U0001f3fd", "(thumbs up sign)"),
        ("藍", "(U+85CD)"),
    ],
)
def test_a_letter_without_a_picture_is_spelled(typed: str, printed: str) -> None:
    """Names of the Unicode standard."""
    assert spelled(typed) == printed
