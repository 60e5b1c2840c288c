"""What a jar of liquor says against a jar of water."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.photo.jar_record import JarAnswer, JarFound
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.numbers import figure, frac, percent, with_range
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("Is there blue dye in this jar, is it still forming, or is it only haze?")

VERDICTS: Final = {
    "blue_dye": marked("Blue dye is there (chance %(chance)s)."),
    "haze": marked("Haze, not evidence of blue (chance of blue dye %(chance)s)."),
    "no_blue": marked("No blue dye to be seen (chance %(chance)s)."),
    "unclear": marked("It cannot be told yet (chance of blue dye %(chance)s): let it settle, and take another photo."),
    "too_dark": marked("Too dark to tell: thin the liquor or take a narrower jar."),
}
COURSES: Final = {
    "rising": marked("The blue is still forming: look again in some minutes."),
    "level": marked("The dye index has come to rest: no more blue is forming (chance %(chance)s)."),
    "falling": marked("The dye index falls: blue is sinking, or is being lost."),
    "unclear": marked("Whether blue is still forming cannot be told from these looks."),
}
HUES: Final = (
    (20.0, marked("red")), (45.0, marked("orange")), (80.0, marked("brown-yellow")), (100.0, marked("yellow")),
    (125.0, marked("yellow-green")), (160.0, marked("green")), (215.0, marked("blue-green")),
    (285.0, marked("blue")), (330.0, marked("violet")), (361.0, marked("red")),
)  # fmt: skip
"""Words for the hues of liquor, by the end of each (CIELAB; judgements)."""
WORTH_SAYING_FRAC: Final = 0.05


def said(found: JarAnswer) -> Said:
    """The answer as a person with a jar reads it."""
    chance = {"chance": percent(found.blue_chance)}
    parts: list[str | Rows] = [_(VERDICTS[found.verdict]) % chance]
    if found.course in COURSES:
        parts.append(_(COURSES[found.course]) % {"chance": percent(found.level_chance or 0.0)})
    parts += _changes(found)
    if found.turbid_frac is not None and found.turbid_frac.p50 >= WORTH_SAYING_FRAC:
        parts.append(_("Of what takes the light, %(share)s is haze that settles.") % {"share": frac(found.turbid_frac)})
    parts.append(_table(found))
    last = found.looks[-1]
    if last.dye_index_per_cm is not None:
        parts.append(_("For each cm of undiluted liquor: %(dye)s.") % {"dye": signed(last.dye_index_per_cm)})
    if last.over_black_hue_deg is not None:
        parts.append(_("Lit from the side before black: %(hue)s.") % {"hue": hue_said(last.over_black_hue_deg)})
    if last.foam_blue_frac is not None or last.foam_hue_deg is not None:
        parts.append(_foam(last))
    return Said(parts=tuple(parts), cautions=found.cautions)


def _changes(found: JarAnswer) -> list[str]:
    lines = []
    if found.turn_to_yellow is not None:
        lines.append(_("Turn to yellow with the alkali: %(turn)s.") % {"turn": signed(found.turn_to_yellow)})
    if found.dye_rise is not None and found.dye_rise_per_h is not None:
        told = {"rise": signed(found.dye_rise), "pace": signed(found.dye_rise_per_h)}
        lines.append(_("Dye index since the first look: %(rise)s; lately %(pace)s an hour.") % told)
    return lines


def _table(found: JarAnswer) -> Rows:
    """Each look in figures."""
    return Rows(
        head=(_("minutes"), _("dye index"), _("yellow index"), _("colour")),
        rows=tuple(
            (
                _minutes(look), _or_dark(look.dye_index), _or_dark(look.yellow_index),
                "–" if look.hue_deg is None else hue_said(look.hue_deg.p50),
            )
            for look in found.looks
        ),
    )  # fmt: skip


def _minutes(look: JarFound) -> str:
    """`5`; `5, shaken`."""
    after = figure(look.after_min)
    return after if look.stood == "settled" else _("%(minutes)s, shaken") % {"minutes": after}


def _or_dark(band: Band | None) -> str:
    return _("too dark") if band is None else signed(band)


def signed(band: Band) -> str:
    """`+0.31 (+0.29 to +0.33)`: an index with its sign, to two decimals."""
    return with_range(*(f"{value:+.2f}".replace("-", "−") for value in (band.p50, band.p5, band.p95)))


def dye_index_said(per_cm: float) -> str:
    """`dye index of a jar +0.47 for each cm`."""
    return _("dye index of a jar %(dye)s for each cm") % {"dye": f"{per_cm:+.2f}".replace("-", "−")}


def hue_said(hue_deg: float) -> str:
    """`yellow-green, 105°`."""
    name = next(word for end, word in HUES if hue_deg % 360.0 < end)
    return _("%(hue)s, %(degrees)s°") % {"hue": _(name), "degrees": f"{hue_deg % 360.0:.0f}"}


def _foam(look: JarFound) -> str:
    hue = "" if look.foam_hue_deg is None else hue_said(look.foam_hue_deg)
    if look.foam_blue_frac is None:
        return _("Foam: %(hue)s.") % {"hue": hue}
    told = {"hue": hue, "share": percent(look.foam_blue_frac)}
    return (_("Foam: %(hue)s; %(share)s of it is blue.") if hue else _("Of the foam %(share)s is blue.")) % told
