"""How warm the tub was, is and will be."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bluewright.science.base.bands import BandAtTime
from bluewright.science.media.tub_temp_record import TubTempAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import amount, degree, in_own_units, measured
from bluewright.words.numbers import figure, moment, ranged, with_range
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("How warm was the tub, is it, and will it be, hour by hour?")

BASIS = {
    "prior": marked("the season alone"),
    "air": marked("the air that was read or forecast"),
    "readings": marked("your readings of the tub, and what is known of the air"),
}
HOURS_APART: Final = 12
MOST_ROWS: Final = 12
WORTH_SAYING_C: Final = 0.5


def said(found: TubTempAnswer) -> Said:
    """The answer as a person at the tub reads it."""
    inputs = found.inputs
    name, step = degree()
    now, mean, lowest, highest = (
        measured(one, "temp_c") for one in (found.now_c, found.mean_c, found.lowest_c, found.highest_c)
    )
    degree_h = ranged(found.degree_h, f"{name} h", scale=step)
    told = {
        "now": now, "basis": _(BASIS[found.basis]), "until": moment(inputs.until), "mean": mean, "low": lowest,
        "high": highest, "base": amount(inputs.base_c, "temp_c"), "degree_hours": degree_h,
    }  # fmt: skip
    lines = [
        _("The tub is at %(now)s now, by %(basis)s.") % told,
        _("Mean to %(until)s: %(mean)s; lowest %(low)s, highest %(high)s.") % told,
        _("Degree-hours above %(base)s: %(degree_hours)s.") % told,
        _follows(found),
        *_one_more(found),
    ]
    half_days = found.curve[HOURS_APART::HOURS_APART][:MOST_ROWS]
    rows = tuple((moment(p.time), _whole(p)) for p in half_days)
    table = [Rows(caption=_("Every half day"), head=(_("when"), _("tub")), rows=rows)] if rows else []
    return Said(parts=(*lines, *table), cautions=found.cautions)


def _follows(found: TubTempAnswer) -> str:
    """How fast it follows the air, and what that would be without the readings."""
    if found.tau_h is None:
        return _("A heater holds it, so the air does not matter.")
    told = {"hours": ranged(found.tau_h, "h"), "alone": ranged(found.tau_before_h, "h")}
    if told["alone"] == told["hours"]:
        return _("It makes up two thirds of a change of the air in %(hours)s.") % told
    return (
        _(
            "It makes up two thirds of a change of the air in %(hours)s; by its size and walls alone it would be "
            "%(alone)s."
        )
        % told
    )


def _one_more(found: TubTempAnswer) -> Iterator[str]:
    """What one more reading would tell."""
    more, (name, step) = found.one_more_reading, degree()
    if more is not None and more.mean_width_without_c - more.mean_width_with_c >= WORTH_SAYING_C:
        yield _("One more reading now would narrow the range of the rest from %(wide)s across to %(narrow)s.") % {
            "wide": f"{figure(step * more.mean_width_without_c)} {name}",
            "narrow": f"{figure(step * more.mean_width_with_c)} {name}",
        }
    elif more is not None:
        yield _("One more reading now would tell little; read again when the air has changed.")


def _whole(point: BandAtTime) -> str:
    """`17 C (16 to 18)`, in whole degrees."""
    (low, mid, high), unit = in_own_units((point.p5, point.p50, point.p95), "temp_c")
    return with_range(f"{mid:.0f} {unit}", f"{low:.0f}", f"{high:.0f}")
