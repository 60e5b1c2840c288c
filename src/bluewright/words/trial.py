"""What a trial says, in words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.learn.trial_answer import Decision, TrialAnswer, WayAgainst
from bluewright.science.learn.trial_record import TrialTub
from bluewright.words.compare import BELIEFS, SHORT, got_said, grams, range_said, ratio_said
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.numbers import figure, percent, ranged, sentence
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("Was it worth it? What do these few tubs say, and how sure is it?")
DECISIONS: Final[dict[Decision, str]] = {
    "take": marked("Worth it by what you asked (chance %(worth)s)."),
    "leave": marked("Not worth it by what you asked (chance %(worth)s)."),
    "alike": marked("No difference to plan by: within a tenth, nearly surely."),
    "open": marked("Still open: the chance that it is worth it is %(worth)s."),
}


def said(found: TrialAnswer) -> Said:
    """The answer to who stood at the tubs."""
    parts: list[str | Rows] = []
    for one in found.against:
        parts += _one(found, one)
    parts += list(_change(found))
    parts += [_ways(found), _tubs(found)]
    parts += [_beliefs(one) for one in found.against if one.beliefs]
    return Said(parts=tuple(parts), cautions=found.cautions)


def result_said(found: TrialAnswer, one: WayAgainst) -> str:
    """The result in one honest sentence."""
    told = {
        "way": one.way, "beside": one.beside, "what": _(SHORT[found.inputs.outcome]), "count": _count(found, one)
    }  # fmt: skip
    if one.ratio_factor is None:
        ratio = _only_ratio(found, one)
        told["ratio"] = ratio_said(ratio)
        return sentence(
            _("%(way)s gave %(ratio)s %(what)s beside %(beside)s, in the one pair that there is: that has no range.")
            % told
        )
    told |= {"ratio": ratio_said(one.ratio_factor.p50), "range": range_said(one.ratio_factor)}
    return sentence(
        _("%(way)s gives about %(ratio)s %(what)s beside %(beside)s; it could be %(range)s (%(count)s).") % told
    )


def _only_ratio(found: TrialAnswer, one: WayAgainst) -> float:
    if one.by_block:
        return one.by_block[0].ratio_factor
    values = {tub.way: tub.value for tub in found.inputs.tubs if tub.value is not None and not tub.spoilt}
    return values[one.way] / values[one.beside]


def _count(found: TrialAnswer, one: WayAgainst) -> str:
    told = {"count": one.blocks}
    if found.kind == "alone":
        return ngettext("%(count)d tub of each", "%(count)d tubs of each", one.blocks) % told
    return ngettext("%(count)d pair", "%(count)d pairs", one.blocks) % told


def _one(found: TrialAnswer, one: WayAgainst) -> Iterator[str]:
    yield result_said(found, one)
    if one.worth_chance is not None and one.ratio_factor is not None:
        yield _(DECISIONS[one.decision]) % {"worth": percent(one.worth_chance)}
    if one.gain_g is not None:
        yield _gain(one, one.gain_g)
    if one.g_per_more_h is not None:
        yield _for_hours(found, one, one.g_per_more_h)
    if one.flip_chance is None or one.least_flip_chance is None:
        return
    told = {
        "more": one.more_blocks, "of": one.blocks, "chance": percent(one.flip_chance),
        "least": percent(one.least_flip_chance),
    }  # fmt: skip
    if found.kind == "alone":
        yield (
            _("If it made no difference, other lots would do as much in %(chance)s; the least it can say is %(least)s.")
            % told
        )
        return
    yield (
        _(
            "It had more in %(more)d of %(of)d pairs. If it made no difference, other lots would do as much in "
            "%(chance)s; the least so few pairs can say is %(least)s."
        )
        % told
    )


def _gain(one: WayAgainst, gain: Band) -> str:
    told = {"way": one.way, "beside": one.beside, "gain": ranged(gain, "g")}
    if gain.p95 <= 0:
        lost = Band(p5=-gain.p95, p50=-gain.p50, p95=-gain.p5)
        told["gain"] = ranged(lost, "g")
        return _("A tub of %(way)s brings %(gain)s of pure blue less than one of %(beside)s.") % told
    if gain.p5 >= 0:
        return _("A tub of %(way)s brings %(gain)s of pure blue more than one of %(beside)s.") % told
    return _("A tub of %(way)s brings %(gain)s of pure blue more than one of %(beside)s (below 0: less).") % told


def _for_hours(found: TrialAnswer, one: WayAgainst, grams_per_h: Band) -> str:
    """What the hours of work that the ways are apart bring, or cost."""
    hours = {way.name: way.work_h or 0.0 for way in found.inputs.ways}
    more_h = hours[one.way] - hours[one.beside]
    told = {"way": one.way, "hours": figure(abs(more_h)), "grams": ranged(grams_per_h, "g")}
    if more_h > 0:
        return _("It takes %(hours)s h more work a tub: each of these hours brings %(grams)s (below 0: costs).") % told
    return _("It takes %(hours)s h less work a tub: each hour saved costs %(grams)s (below 0: brings).") % told


def _change(found: TrialAnswer) -> Iterator[str]:
    """What would change my mind."""
    for one in found.against:
        if one.turning_factor is not None:
            yield (
                _("What would change it: one more pair with %(ratio)s from %(way)s brings the middle to no difference.")
                % {"ratio": ratio_said(one.turning_factor), "way": one.way}
            )
        if one.lost_low_factor is not None and one.lost_high_factor is not None:
            told = {"low": ratio_said(one.lost_low_factor), "high": ratio_said(one.lost_high_factor), "way": one.way}
            yield (
                _(
                    "Tubs that are spoilt or not weighed are left out. Had they given half or twice what their rivals "
                    "lead one to expect, the middle for %(way)s could lie from %(low)s to %(high)s."
                )
                % told
            )
    if len(found.further) > 1:
        few, more = found.further[0], found.further[1]
        yield (
            _("%(few)d more like these narrow it to plus or minus %(near)s, %(more)d more to %(far)s.")
            % {
                "few": few.more, "near": percent(few.either_way_factor - 1), "more": more.more,
                "far": percent(more.either_way_factor - 1),
            }
        )  # fmt: skip
    if found.measuring_frac is not None:
        yield (
            _("Weighing and measuring make about %(share)s of how unlike tubs of one picking are.")
            % {"share": percent(found.measuring_frac)}
        )


def _ways(found: TrialAnswer) -> Rows:
    hours = any(way.got_g_per_h is not None for way in found.ways)
    best = any(way.best_chance is not None for way in found.ways)
    in_grams = any(way.got_g is not None for way in found.ways)
    head = [_("way"), _("tubs that count"), _("it gives")]
    head += [_("a tub")] if in_grams else []
    head += [_("an hour of work")] if hours else []
    head += [_("is the best")] if best else []
    rows = []
    for way in found.ways:
        row = [way.way, str(way.counted), "–" if way.got is None else got_said(way.got, found.inputs.outcome)]
        row += [grams(way.got_g)] if in_grams else []
        row += [grams(way.got_g_per_h)] if hours else []
        row += ["–" if way.best_chance is None else percent(way.best_chance)] if best else []
        rows.append(tuple(row))
    return Rows(caption=_("Each way"), head=tuple(head), rows=tuple(rows))


def _tubs(found: TrialAnswer) -> Rows:
    """A row for each picking with a column for each way; for tubs that stand alone, a row for each tub."""
    ways = tuple(way.name for way in found.inputs.ways)
    if found.kind == "alone":
        plain = tuple((tub.way, _value(tub, found)) for tub in found.inputs.tubs)
        return Rows(caption=_("Every tub"), head=(_("way"), _("it gave")), rows=plain)
    rows = []
    for block in dict.fromkeys(tub.block for tub in found.inputs.tubs):
        tubs = [tub for tub in found.inputs.tubs if tub.block == block]
        cells = (", ".join(_value(tub, found) for tub in tubs if tub.way == way) or "–" for way in ways)
        rows.append((block or "–", *cells))
    return Rows(caption=_("Every tub"), head=(_("picking"), *ways), rows=tuple(rows))


def _value(tub: TrialTub, found: TrialAnswer) -> str:
    value = "–" if tub.value is None else got_said(tub.value, found.inputs.outcome)
    return _("%(value)s, spoilt: %(why)s") % {"value": value, "why": tub.spoilt} if tub.spoilt else value


def _beliefs(one: WayAgainst) -> Rows:
    rows = tuple(
        (
            sentence(_(BELIEFS[seen.belief])), ratio_said(seen.ratio_factor.p50), range_said(seen.ratio_factor),
            percent(seen.more_chance),
        )
        for seen in one.beliefs
    )  # fmt: skip
    return Rows(
        caption=_("%(way)s, by what is believed beforehand") % {"way": sentence(one.way)},
        head=(_("belief"), _("about"), _("could be"), _("is more")), rows=rows,
    )  # fmt: skip
