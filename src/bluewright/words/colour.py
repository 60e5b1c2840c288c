"""Colours and how they differ, in words; every Lab is named as CIELAB under D65, 2 degree observer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.colour.compare_record import CompareAnswer, Difference
from bluewright.science.colour.depth import INDIGO_NM
from bluewright.science.colour.grades import half_grade
from bluewright.science.colour.hues import Hue, Shade, Sign
from bluewright.science.colour.priors import Size
from bluewright.science.colour.reflectance_record import ReflectanceAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import figure, ranged, sentence, with_range
from bluewright.words.said import Rows, Said

COMPARE: Final = marked(
    "How do these colours differ: lighter or darker, redder or greener, deeper, and does an eye see it?"
)
SPECTRUM: Final = marked("Which colour does this spectrum make, and how deep is its blue?")

HUES: Final[Mapping[Hue, str]] = {
    "red": marked("red"), "orange": marked("orange"), "brown": marked("brown"), "yellow": marked("yellow"),
    "olive": marked("olive"), "yellow-green": marked("yellow-green"), "green": marked("green"),
    "blue-green": marked("blue-green"), "greenish-blue": marked("greenish blue"), "blue": marked("blue"),
    "reddish-blue": marked("reddish blue"), "violet": marked("violet"), "purple": marked("purple"),
    "white": marked("nearly white"), "grey": marked("grey"), "black": marked("nearly black"),
}  # fmt: skip
SHADES: Final[Mapping[Shade, str]] = {
    "very-pale": marked("very pale"), "pale": marked("pale"), "medium": marked("medium"), "deep": marked("deep"),
    "very-deep": marked("very deep"),
}  # fmt: skip
SIGNS: Final[Mapping[Sign, str]] = {
    "lighter": marked("lighter"), "darker": marked("darker"), "brighter": marked("brighter"),
    "duller": marked("duller"), "redder": marked("redder"), "greener": marked("greener"),
    "yellower": marked("yellower"), "bluer": marked("bluer"),
}  # fmt: skip
SIZES: Final[Mapping[Size, str]] = {
    "unseen": marked("hardly an eye sees it"), "beside": marked("seen side by side"), "plain": marked("plain to see"),
    "large": marked("a large difference"), "other": marked("another colour"),
}  # fmt: skip
MINUS: Final = "\u2212"


def named(hue: Hue, shade: Shade) -> str:
    """`deep blue`; white, grey and black say it alone."""
    if hue in {"white", "grey", "black"}:
        return _(HUES[hue])
    return _("%(shade)s %(hue)s") % {"shade": _(SHADES[shade]), "hue": _(HUES[hue])}


def lab_said(lab: Sequence[float]) -> str:
    """`L 30.1, a −2.0, b −22.3`: to be followed by what it is told for."""
    l_star, a_star, b_star = (f"{value + 0.0:.1f}".replace("-0.0", "0.0").replace("-", MINUS) for value in lab)
    return f"L\N{NO-BREAK SPACE}{l_star}, a\N{NO-BREAK SPACE}{a_star}, b\N{NO-BREAK SPACE}{b_star}"


def lab_named() -> str:
    """What every Lab here is told for."""
    return _("CIELAB, D65, 2° observer")


def hue_said(hue_deg: Band) -> str:
    """`h 262° (259 to 265)`; angles run round, so that one end may lie beyond 360."""
    low, mid, high = (f"{value % 360:.0f}°" for value in (hue_deg.p5, hue_deg.p50, hue_deg.p95))
    return f"h {with_range(mid, low, high)}"


def signs_said(signs: Sequence[Sign]) -> str:
    """`darker, greener`."""
    return ", ".join(_(SIGNS[sign]) for sign in signs)


def size_said(difference: Difference) -> str:
    """What the difference is to the eye, or that it is none that was measured."""
    return _(SIZES[difference.size]) if difference.told_apart else _("no more than measuring leaves uncertain")


def grade_said(grade: Band) -> str:
    """`3-4 (3 to 4)`: the half grade, with those of its range."""
    low, mid, high = (_half(value) for value in (grade.p5, grade.p50, grade.p95))
    return mid if low == high else _("%(mid)s (%(low)s to %(high)s)") % {"mid": mid, "low": low, "high": high}


def _half(grade: float) -> str:
    half = float(half_grade(grade))
    return f"{half:.0f}" if half == int(half) else f"{half - 0.5:.0f}-{half + 0.5:.0f}"


def compared(found: CompareAnswer) -> Said:
    """How the colours differ, as a person with two pieces of cloth reads it."""
    names = names_of(found)
    parts: list[str | Rows] = [
        beside(difference, name=name, standard=names[0])
        for difference, name in zip(found.against, names[1:], strict=True)
    ]
    parts += [_colours(found, names), _differences(found, names[1:])]
    parts.append(
        _("Grades are estimates in the manner of ISO 105-A05: no test report. Depth is K/S of the red light.")
        if found.inputs.ground is None
        else _(
            "Grades are estimates in the manner of ISO 105-A05: no test report. Depth is K/S of the red light, "
            "the undyed cloth taken off."
        )
    )
    return Said(parts=tuple(parts), cautions=found.cautions)


def names_of(found: CompareAnswer) -> tuple[str, ...]:
    """What each colour is called; one without a name by its place."""
    return tuple(colour.name or _("colour %(n)s") % {"n": place} for place, colour in enumerate(found.colours, start=1))


def beside(difference: Difference, *, name: str, standard: str) -> str:
    """`Shawl beside sample: darker, greener; plain to see (CIEDE2000 3.2).`"""
    told = {
        "name": sentence(name), "standard": standard, "signs": signs_said(difference.signs),
        "size": size_said(difference), "de": ranged(difference.de00, ""),
    }  # fmt: skip
    if not difference.signs:
        return _("%(name)s beside %(standard)s: %(size)s (CIEDE2000 %(de)s).") % told
    return _("%(name)s beside %(standard)s: %(signs)s; %(size)s (CIEDE2000 %(de)s).") % told


def _colours(found: CompareAnswer, names: Sequence[str]) -> Rows:
    return Rows(
        caption=_("Each colour (%(lab)s)") % {"lab": lab_named()},
        head=(_("colour"), "L, a, b", _("depth K/S")),
        rows=tuple(
            (
                _("%(name)s: %(colour)s, h %(hue)s") % {
                    "name": name, "colour": named(told.hue, told.shade), "hue": f"{told.hue_deg.p50 % 360:.0f}°",
                },
                lab_said(typed.lab), ranged(told.k_over_s, ""),
            )
            for name, told, typed in zip(names, found.colours, found.inputs.colours, strict=True)
        ),
    )  # fmt: skip


def _differences(found: CompareAnswer, names: Sequence[str]) -> Rows:
    return Rows(
        caption=_("Beside the first"),
        head=(_("colour"), _("times as deep"), "CMC(2:1)", _("grade")),
        rows=tuple(
            (
                name, ranged(one.depth_factor, "") if one.depth_factor is not None else "–",
                figure(one.cmc_2_1), grade_said(one.change_grade),
            )
            for name, one in zip(names, found.against, strict=True)
        ),
    )  # fmt: skip


def signed(value: float) -> str:
    """`+1.2` or `−0.4`."""
    text = f"{abs(value):.1f}"
    return "0.0" if text == "0.0" else f"{'+' if value > 0 else MINUS}{text}"


def spectrum_said(found: ReflectanceAnswer) -> Said:
    """The colour of a spectrum, as a person with a spectrometer reads it."""
    told = {
        "colour": sentence(named(found.hue, found.shade)), "lab": lab_said(found.lab), "named": lab_named(),
        "sd": figure(max(found.lab_sd)), "nm": f"{INDIGO_NM.value:.0f}", "k_over_s": ranged(found.k_over_s, ""),
        "red": ranged(found.red_k_over_s, ""), "darkest": f"{found.darkest_nm:.0f}",
    }  # fmt: skip
    parts = [
        _("%(colour)s: %(lab)s (%(named)s; each within about %(sd)s).") % told,
        _("Depth K/S at %(nm)s nm: %(k_over_s)s; as a photo would tell it, in red light: %(red)s.") % told,
    ]
    if found.dye_k_over_s is not None:
        parts.append(_("Of the dye alone: %(dye)s.") % {"dye": ranged(found.dye_k_over_s, "")})
    parts.append(_("It is darkest at %(darkest)s nm.") % told)
    if found.whiteness is not None and found.tint is not None:
        white = {"whiteness": ranged(found.whiteness, ""), "tint": signed(found.tint.p50)}
        parts.append(_("CIE whiteness %(whiteness)s, tint %(tint)s: for whites read by one instrument.") % white)
    return Said(parts=tuple(parts), cautions=found.cautions)
