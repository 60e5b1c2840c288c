"""Undyed linen, one scale of indigo, and the tan-to-green of liquor. Text keeps 7:1 against the ground."""

from __future__ import annotations

from typing import Final

LINEN: Final = "#f7f1e3"
"""The ground."""
NIGHT: Final = "#e9e0cb"
"""The ground by night: a shade of the same linen."""
INK: Final = "#16244a"
"""Text and axes."""
SOFT_INK: Final = "#3a4567"
"""Small text: units, ticks."""
GRID: Final = "#cfc5ac"
"""Grid lines."""
INDIGO: Final = ("#dbe1ee", "#b4c0dc", "#8194c2", "#4f66a3", "#2b427f", "#16244a")
"""From palest to deepest."""
TAN: Final = "#8a5a1c"
"""The tan of fresh liquor: lines and hatching."""
TAN_INK: Final = "#5c3a0c"
"""The same, dark enough for text."""
GREEN: Final = "#3f5a2a"
"""The green of liquor that has met air: targets."""
LIQUOR: Final = ("#f3eac8", "#e0c878", "#b4803a", "#5c3a0c")
"""Liquor from pale through straw and tea to dark brown: the four levels of darkness."""
LIQUOR_GREEN: Final = ("#c3bb5c", "#7f9a45", GREEN)
"""Liquor with alkali, from yellowish to deep green."""
LEAF: Final = ("#5c8040", "#86994f", "#8d8744", "#ded6b4")
"""Leaf from crisp through olive to see-through: the four levels of limpness."""

WIDTH: Final = 480.0
"""Width of every drawing in its own units; a drawing scales with the page. 390 px on a phone make 0.81 px of one."""
TITLE_SIZE: Final = 20.0
TEXT_SIZE: Final = 15.0
SMALL_SIZE: Final = 13.5
FONT: Final = "system-ui, 'Segoe UI', 'Helvetica Neue', 'DejaVu Sans', sans-serif"


def contrast(one: str, other: str) -> float:
    """Contrast of two colours `#rrggbb`, 1 to 21.

    Formula: (L1 + 0.05) / (L2 + 0.05), L the relative luminance of the lighter and the darker
    (Web Content Accessibility Guidelines 2.1, W3C 2018, definition of contrast ratio).
    """
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
