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
    parts = [part_said(part) for part in found.parts]
    return Said(
        parts=(_(ADVICE[found.advice]), *parts, *(text for _figure, text in told(found))), cautions=found.cautions
    )


def told(found: VatAnswer) -> Iterator[tuple[str, str]]:
    """What the answer tells beside its advice, a sentence each, with the figure that it is of."""
    yield "ready_chance", _ready(found)
    yield from _stock(found)
    yield from _rest(found)


def stands(found: VatAnswer) -> str:
    """How it stands, in one short sentence."""
    return _("%(active)s dissolved, ready to dye; pure indigo in it: %(total)s.") % {
        "active": ranged(found.active_g_per_l, "g/L"), "total": ranged(found.total_g, "g"),
    }  # fmt: skip


def part_said(part: SmallPart) -> str:
    """One small part, with what could hurt there."""
    line = _("Now %(mass)s of %(what)s.") % {
        "mass": dosed_band(part.mass_g, "g"), "what": _(SUBSTANCES[part.what]),
    }  # fmt: skip
    return f"{line} {beside(part.hazards)}".rstrip()


def _ready(found: VatAnswer) -> str:
    told = {
        "time": moment(found.look_again_at), "now": percent(found.ready_chance),
        "then": percent(found.ready_then_chance),
    }  # fmt: skip
    if told["now"] == told["then"]:
        return _("Look again %(time)s. Chance that it is ready: %(now)s; with nothing added no other by then.") % told
    return _("Look again %(time)s. Chance that it is ready: now %(now)s; then, with nothing added, %(then)s.") % told


def _stock(found: VatAnswer) -> Iterator[tuple[str, str]]:
    words = {
        "active": ranged(found.active_g_per_l, "g/L"),
        "total": ranged(found.total_g, "g"),
        "reduced": ranged(found.reduced_g, "g"),
        "unreduced": ranged(found.unreduced_g, "g"),
    }
    yield "active_g_per_l", _("Dissolved and ready to dye: %(active)s.") % words
    yield (
        "total_g",
        _("Pure indigo in it, which is stock: %(total)s, of it %(reduced)s reduced and %(unreduced)s not.") % words,
    )
    if found.taken_g.p95 > 0:
        yield "taken_g", _("Cloth has taken %(taken)s.") % {"taken": ranged(found.taken_g, "g")}


def _rest(found: VatAnswer) -> Iterator[tuple[str, str]]:
    if found.reductant_g_per_l is not None:
        left = {"left": ranged(found.reductant_g_per_l, "g/L"), "short": percent(found.short_chance)}
        yield (
            "reductant_g_per_l",
            _("Reductant left: %(left)s; chance that it does not suffice for the indigo left: %(short)s.") % left,
        )
    read = {
        "ph": ph_band(found.ph), "low": percent(found.low_ph_chance), "high": percent(found.high_ph_chance),
        "temp": measured(found.temp_c, "temp_c"),
    }  # fmt: skip
    yield "ph", _("pH %(ph)s; chance that it is too low: %(low)s, too high: %(high)s. Warmth %(temp)s.") % read
    if found.sharpened:
        times = {"times": found.sharpened}
        yield (
            "sharpened",
            ngettext("Sharpened once since it was set.", "Sharpened %(times)s times since it was set.", found.sharpened)
            % times,
        )
