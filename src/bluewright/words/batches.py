"""What many batches say of their causes, in words."""

from __future__ import annotations

from typing import Final

from bluewright.science.learn.mixed_record import BatchesAnswer, CauseFound, Luck
from bluewright.words.compare import SHORT, range_said, ratio_said
from bluewright.words.fields import name_said, value_said
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.measures import degree, in_us
from bluewright.words.numbers import figure, percent, sentence
from bluewright.words.plan_cloth import PLANTS
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("What do many batches say of ways, warmth, hours and seasons, each by itself?")
LUCK: Final[dict[Luck, str]] = {
    "season": marked("from season to season"), "bed": marked("from bed to bed"), "day": marked("from day to day"),
    "rest": marked("what is left"),
}  # fmt: skip


def said(found: BatchesAnswer) -> Said:
    """The answer to who has a list of batches."""
    told = {"n": found.counted, "what": _(SHORT[found.inputs.outcome])}
    parts: list[str | Rows] = [
        *(_way(found, cause) for cause in found.causes if cause.cause == "way"),
        ngettext(
            "%(n)d batch counts; each cause is told as if all else that was noted were equal.",
            "%(n)d batches count; each cause is told as if all else that was noted were equal.",
            found.counted,
        )
        % told,
    ]
    if found.causes:
        parts.append(_causes(found))
    parts.append(
        Rows(
            caption=_("How unlike batches are besides"), head=(_("luck"), _("one such step")),
            rows=tuple((sentence(_(LUCK[one.of])), _spread(one.log_sd.p50)) for one in found.spreads),
        )
    )  # fmt: skip
    if found.not_used:
        names = ", ".join(name_said(field) for field in found.not_used)
        parts.append(_("Noted too rarely, or the same for all: %(names)s.") % {"names": names})
    return Said(parts=tuple(parts), cautions=found.cautions)


def cause_said(one: CauseFound) -> str:
    """`Temperature: 5 °C more`, `Alkali: soda ash beside ammonia`; a way as it is called."""
    if one.beside:
        told = {"name": sentence(name_said(one.cause)), "kind": _kind(one.is_), "usual": _kind(one.beside)}
        said_so = _("%(kind)s beside %(usual)s") if one.cause == "way" else _("%(name)s: %(kind)s beside %(usual)s")
        return said_so % told
    return _("%(name)s: %(step)s more") % {"name": sentence(name_said(one.cause)), "step": _step(one)}


def _step(one: CauseFound) -> str:
    """So much more of a cause; five degrees more of Celsius are nine of Fahrenheit, not 41."""
    more = float(one.is_)
    if one.cause == "temp_c" and in_us():
        unit, per = degree()
        return f"{figure(per * more)} {unit}"
    return value_said(more, f"more_{one.cause}")


def _kind(name: str) -> str:
    """A plant by its name; any other kind as it is called."""
    return _(PLANTS[name]) if name in PLANTS else name


def _way(found: BatchesAnswer, one: CauseFound) -> str:
    told = {
        "way": one.is_, "beside": one.beside, "what": _(SHORT[found.inputs.outcome]),
        "ratio": ratio_said(one.ratio_factor.p50), "range": range_said(one.ratio_factor),
    }  # fmt: skip
    return sentence(_("%(way)s: about %(ratio)s %(what)s beside %(beside)s; it could be %(range)s.") % told)


def _causes(found: BatchesAnswer) -> Rows:
    rows = tuple(
        (
            cause_said(one), ratio_said(one.ratio_factor.p50), range_said(one.ratio_factor),
            percent(one.more_chance), "–" if one.plain_factor is None else ratio_said(one.plain_factor),
        )
        for one in found.causes
    )  # fmt: skip
    head = (_("cause"), _("about"), _("could be"), _("is more"), _("bare means"))
    return Rows(caption=_("Each cause, all else equal"), head=head, rows=rows)


def _spread(log_sd: float) -> str:
    """A standard deviation on the logarithm as per cent up."""
    return f"± {100 * log_sd:.0f}%"
