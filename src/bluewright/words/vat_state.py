"""How a vat stands, and what to do with it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bluewright.science.vat.state_record import Advice, SmallPart, VatAnswer
from bluewright.words.alkali import ph_band
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.measures import dosed_band, measured
from bluewright.words.numbers import moment, percent, ranged
from bluewright.words.said import Said
from bluewright.words.vat import SUBSTANCES, beside

QUESTION: Final = marked(
    "How does this vat stand: how much blue can dye now, what is left of the reductant, and what to do?"
)
ADVICE: Final[dict[Advice, str]] = {
    "dye": marked("Dye now: a strip first, then the cloth that is to be darkest."),
    "wait": marked("Leave it alone, covered and warm: it is on its way."),
    "sharpen": marked("Sharpen it with half of what it lacks, and look again before the other half."),
    "feed": marked("Feed it a little, keep it warm, and look again tomorrow."),
    "warm": marked("Warm it first, slowly and covered: it is too cold for its work."),
    "more_alkali": marked("More alkali, a small part: the pH is too low."),
    "less_alkali": marked(
        "No more alkali. Let it stand until the pH has come down, thin it, or dye cotton or linen in it now."
    ),
    "rest": marked("Let it rest an hour, covered: it has worked, and will clear by itself."),
    "add_indigo": marked("Hardly any indigo is left in it: use it for pale shades, or add powder as for a new vat."),
    "retire": marked(
        "It was sharpened again and again without coming back: air it until it is blue, let it settle, and keep the "
        "sediment as stock."
    ),
}


def said(found: VatAnswer) -> Said:
    """The answer as a person at the vat reads it."""
    lines = [_(ADVICE[found.advice])]
    lines += [_part(part) for part in found.parts]
    told = {"time": moment(found.look_again_at), "now": percent(found.ready_chance)}
    told |= {"then": percent(found.ready_then_chance)}
    lines.append(
        _("Look again %(time)s. Chance that it is ready: now %(now)s, then, with nothing added, %(then)s.") % told
    )
    lines += _stock(found)
    lines += _rest(found)
    return Said(parts=tuple(lines), cautions=found.cautions)


def _part(part: SmallPart) -> str:
    line = _("Now %(mass)s of %(what)s.") % {
        "mass": dosed_band(part.mass_g, "g"), "what": _(SUBSTANCES[part.what]),
    }  # fmt: skip
    return f"{line} {beside(part.hazards)}".rstrip()


def _stock(found: VatAnswer) -> Iterator[str]:
    told = {
        "active": ranged(found.active_g_per_l, "g/L"),
        "total": ranged(found.total_g, "g"),
        "reduced": ranged(found.reduced_g, "g"),
        "unreduced": ranged(found.unreduced_g, "g"),
    }
    yield _("Dissolved and ready to dye: %(active)s.") % told
    yield _("Pure indigo in it, which is stock: %(total)s, of it %(reduced)s reduced and %(unreduced)s not.") % told
    if found.taken_g.p95 > 0:
        yield _("Cloth has taken %(taken)s.") % {"taken": ranged(found.taken_g, "g")}


def _rest(found: VatAnswer) -> Iterator[str]:
    if found.reductant_g_per_l is not None:
        yield _("Reductant left: %(left)s; chance that it does not suffice for the indigo left: %(short)s.") % {
            "left": ranged(found.reductant_g_per_l, "g/L"),
            "short": percent(found.short_chance),
        }
    yield _("pH %(ph)s; chance that it is too low: %(low)s, too high: %(high)s. Warmth %(temp)s.") % {
        "ph": ph_band(found.ph),
        "low": percent(found.low_ph_chance),
        "high": percent(found.high_ph_chance),
        "temp": measured(found.temp_c, "temp_c"),
    }
    if found.sharpened:
        yield ngettext(
            "Sharpened once since it was set.", "Sharpened %(times)s times since it was set.", found.sharpened
        ) % {"times": found.sharpened}
