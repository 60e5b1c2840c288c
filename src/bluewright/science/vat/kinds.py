"""The kinds of vat as data: how each reduces, what makes it alkaline, and at which pH and warmth, by fibre."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.media.cloth import PROTEIN, Fibre
from bluewright.science.vat.redox import ReductantName

VatKind = Literal["dithionite", "thiourea_dioxide", "fructose", "iron", "ferment"]
"""`dithionite`, `thiourea_dioxide`, `fructose` with lime, `iron` with lime, or `ferment`: bran, madder and alkali,
kept warm."""
VatAlkali = Literal["soda_ash", "potash", "lye", "slaked_lime"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """One kind of vat.

    `excess` is the reductant over what indigo alone takes; `reduce_c` the warmth at which it is set; `ready_h` how
    long until nine tenths of what reduces has; `alkalis` what may make it alkaline, the usual one first.
    """

    words: str
    reductant: ReductantName | None
    sulphur: bool
    """Whether an acid would drive poisonous gas out of it."""
    alkalis: tuple[VatAlkali, ...]
    excess: Sourced | None
    reduce_c: Sourced
    ready_h: Prior


def _excess(value: float, low: float, high: float, source: str, note: str) -> Sourced:
    return Sourced(value=value, unit="1", source=source, low=low, high=high, grade="practice", note=note)


def _warm(value: float, low: float, high: float, source: str = "common-practice", note: str = "") -> Sourced:
    return Sourced(value=value, unit="C", source=source, low=low, high=high, grade="practice", note=note)


def _ready(centre: float, spread: float, source: str, note: str) -> Prior:
    return Prior(kind="lognormal", centre=centre, spread=spread, unit="h", source=source, grade="practice", note=note)


KINDS: Final[dict[VatKind, Kind]] = {
    "dithionite": Kind(
        words="dithionite", reductant="dithionite", sulphur=True, alkalis=("soda_ash", "lye", "potash"),
        excess=_excess(2.0, 1.5, 3.0, "common-practice", "1 to 2 g for a gram of pure indigo; the rest meets air"),
        reduce_c=_warm(50.0, 40.0, 60.0, "mairet-1938", "50 C; above 60 C a stock is ruined"),
        ready_h=_ready(0.75, 0.4, "knecht-rawson-loewenthal-1920", "stand half an hour to an hour"),
    ),
    "thiourea_dioxide": Kind(
        words="thiourea dioxide", reductant="thiourea_dioxide", sulphur=True, alkalis=("soda_ash", "lye", "potash"),
        excess=_excess(1.8, 1.2, 2.4, "common-practice", "0.5 to 1 g for a gram of pure indigo"),
        reduce_c=_warm(50.0, 45.0, 50.0, "common-practice", "it wakes only when warm; never hotter than 50 C for long"),
        ready_h=_ready(1.5, 0.5, "common-practice", "one to two hours"),
    ),
    "fructose": Kind(
        words="fructose and lime", reductant="fructose", sulphur=False,
        alkalis=("slaked_lime", "soda_ash", "potash", "lye"),
        excess=_excess(6.0, 4.4, 10.9, "dean-fructose-vat", "3 g to a gram of powder: 4.4 if it were pure, 10.9 at "
        "40 %"),
        reduce_c=_warm(48.0, 40.0, 60.0, "dean-fructose-vat", "40 to 50 C at the start"),
        ready_h=_ready(2.0, 0.9, "dean-fructose-vat", "half an hour to an hour, often the next day"),
    ),
    "iron": Kind(
        words="iron and lime", reductant="ferrous_sulphate", sulphur=False, alkalis=("slaked_lime",),
        excess=_excess(1.6, 0.94, 2.4, "mairet-1916", "0.94 to 2.4 over the old recipes, by what purity is taken"),
        reduce_c=_warm(20.0, 15.0, 50.0, "mairet-1916", "cold; warm is faster"),
        ready_h=_ready(10.0, 0.6, "mairet-1916", "4 to 24 h: stirred every two hours, then settled"),
    ),
    "ferment": Kind(
        words="fermented", reductant=None, sulphur=False, alkalis=("soda_ash", "potash", "slaked_lime"), excess=None,
        reduce_c=_warm(38.0, 30.0, 45.0, "common-practice", "as warm as a hand likes, day and night"),
        ready_h=_ready(10.0 * 24, 0.5, "ellis-ferment", "7 to 14 days, up to 30"),
    ),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class SetPoints:
    """What to hold while dyeing one family of fibre."""

    ph: Sourced
    """pH of a sample cooled to the warmth of the room."""
    dye_c: Sourced
    dip_min: Sourced


def _ph(value: float, low: float, high: float, source: str, note: str = "") -> Sourced:
    return Sourced(value=value, unit="pH", source=source, low=low, high=high, grade="practice", note=note)


def _dip(value: float, low: float, high: float) -> Sourced:
    return Sourced(value=value, unit="min", source="common-practice", low=low, high=high, grade="practice")


_POINTS: Final[dict[Literal["wool", "silk", "cellulose"], SetPoints]] = {
    "wool": SetPoints(
        ph=_ph(9.0, 8.5, 9.5, "common-practice", "never long above 10: alkali eats wool; below 8.5 the vat clouds"),
        dye_c=_warm(50.0, 45.0, 55.0, "mairet-1938"),
        dip_min=_dip(10.0, 5.0, 20.0),
    ),
    "silk": SetPoints(
        ph=_ph(9.5, 9.0, 10.0, "common-practice", "alkali dulls silk; its uptake falls as the vat gets warmer"),
        dye_c=_warm(38.0, 30.0, 45.0),
        dip_min=_dip(5.0, 1.0, 10.0),
    ),
    "cellulose": SetPoints(
        ph=_ph(
            11.0, 10.5, 11.5, "etters-1996", "one charge on most of the leuco; higher goes in deeper and dyes paler"
        ),
        dye_c=_warm(22.0, 15.0, 30.0, "mairet-1938", "generally dyed cold"),
        dip_min=_dip(10.0, 1.0, 20.0),
    ),
}
_LIME_PH: Final = _ph(
    12.1, 11.0, 12.5, "dye-farm-iron-vat", "lime lies on the bottom: it stands near lime water; at 11 iron is slow"
)
_FERMENT_PH: Final = _ph(9.8, 9.5, 10.5, "ellis-ferment", "9.5 to 11; above 11 what ferments dies")
_SUGAR_C: Final = _warm(38.0, 20.0, 50.0, "dean-fructose-vat", "warm at first, later as the room")


def family(fibre: Fibre) -> Literal["wool", "silk", "cellulose"]:
    """Fibres that are dyed alike."""
    if fibre == "wool":
        return "wool"
    return "silk" if fibre in PROTEIN else "cellulose"


def usual_kind(fibre: Fibre) -> VatKind:
    """The kind that is offered first for a fibre: dithionite, which reduces at the pH that wool and silk bear; for
    cellulose fructose, which needs no sulphur (common practice)."""
    return "dithionite" if fibre in PROTEIN else "fructose"


def set_points(kind: VatKind, fibre: Fibre) -> SetPoints:
    """pH, warmth and dip of this kind of vat for this fibre: those of the fibre, moved where the kind cannot go
    there."""
    found = _POINTS[family(fibre)]
    if kind == "iron":
        return SetPoints(ph=_LIME_PH, dye_c=found.dye_c, dip_min=found.dip_min)
    if kind == "ferment":
        ph = _FERMENT_PH if family(fibre) == "cellulose" else found.ph
        return SetPoints(ph=ph, dye_c=KINDS["ferment"].reduce_c, dip_min=found.dip_min)
    if family(fibre) == "cellulose" and kind == "fructose":
        return SetPoints(ph=found.ph, dye_c=_SUGAR_C, dip_min=found.dip_min)
    return found
