"""How much of a dry pigment is indigo: as measured, or by how it was made."""

from __future__ import annotations

from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.records import LEAST, record
from bluewright.science.base.sourced import Prior
from bluewright.science.media.basket import Plant

Make = Literal["unlimed", "limed", "acid_washed", "unknown"]
"""How the pigment was made, as far as its purity goes."""

Share = Annotated[float, Field(ge=LEAST, lt=1)]


@record
class Known:
    """A share with how well it is known."""

    mean_frac: Share
    """The share, between 0 and 1."""
    sd_frac: Annotated[float, Field(ge=0.001, le=0.5)]
    """Its standard deviation."""


def known_share(known: Known) -> Prior:
    """A share with its standard deviation as a logit-normal: spread = sd / (m (1 - m)), at most 2."""
    spread = min(known.sd_frac / (known.mean_frac * (1 - known.mean_frac)), 2.0)
    return Prior(
        kind="logitnormal", centre=known.mean_frac, spread=spread, unit="1", source="bluewright-yield", grade="guess",
        note="given in the record",
    )  # fmt: skip


def _purity(centre: float, spread: float, source: str, note: str) -> Prior:
    return Prior(kind="logitnormal", centre=centre, spread=spread, unit="1", source=source, grade="guess", note=note)


PURITY: Final[dict[Make, dict[Plant, Prior]]] = {
    "unlimed": {
        "woad": _purity(0.28, 0.6, "bluewright-yield", "woad without lime, washed: 15 to 50 %"),
        "japanese_indigo": _purity(0.33, 0.6, "bluewright-yield", "between woad and Indigofera"),
        "indigofera": _purity(0.40, 0.5, "hartl-2024", "best, hot, no lime 55 %; trade cake 35 to 45 %"),
    },
    "limed": {
        "woad": _purity(0.06, 0.8, "sare-fs10-241", "2 to 3 % from a farm; 7 to 13 % if lime is all that is there"),
        "japanese_indigo": _purity(0.06, 0.8, "sare-fs10-241", "2 to 3 % from a farm; 7 to 13 % if only lime"),
        "indigofera": _purity(0.08, 0.8, "indigo-naturalis", "2.3 % in a heavily limed product; higher with less lime"),
    },
    "acid_washed": {
        "woad": _purity(0.22, 0.6, "cusia-washing-2023", "3 % limed became 20 to 22 % by alkali and acid washes"),
        "japanese_indigo": _purity(0.25, 0.6, "cusia-washing-2023", "3 % became 20 to 22 % by washes"),
        "indigofera": _purity(0.32, 0.6, "cusia-washing-2023", "3 % became 20 to 22 % by washes; trade 35 to 45 %"),
    },
    "unknown": {
        "woad": _purity(0.18, 0.95, "bluewright-yield", "limed or not, washed or not"),
        "japanese_indigo": _purity(0.20, 0.95, "bluewright-yield", "limed or not, washed or not"),
        "indigofera": _purity(0.25, 0.95, "bluewright-yield", "limed or not, washed or not"),
    },
}  # fmt: skip
"""Indigo in the dry pigment, by how it was made."""
