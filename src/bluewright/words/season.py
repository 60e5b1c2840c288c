"""What to cut, fill and strain on which day of the season, and what was given up."""

from __future__ import annotations

import math
from collections.abc import Sequence
from datetime import date
from typing import Final

from bluewright.science.season.answer import (
    Change,
    Limit,
    Moved,
    PlannedCut,
    PlannedSteep,
    PlannedWant,
    Reason,
    SeasonAnswer,
)
from bluewright.science.season.record import SeasonRecord
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.measures import amount, measured
from bluewright.words.numbers import figure, percent, ranged, weekday
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("What is to be cut, steeped and strained on which day of the season?")
WHY: Final[dict[Reason, str]] = {
    "best": marked("its own best days"),
    "tubs": marked("no room in tubs about %(day)s"),
    "hours": marked("too few hours about %(day)s"),
    "drying": marked("no room on trays about %(day)s"),
    "wants": marked("for a date that is wanted; alone it would be %(day)s"),
    "kept": marked("as planned before; alone it would be %(day)s"),
    "others": marked("makes room for other beds; alone it would be %(day)s"),
}
OFTEN: Final = 0.2
"""From this chance on a clash is worth a word."""
WORTH_A_WORD_FRAC: Final = 0.01
"""A limit that costs less than this share of the plan is not spoken of."""


def said(found: SeasonAnswer) -> Said:
    """The plan as a person reads it who will do the work."""
    lines = [_first(found), *(want_said(want) for want in found.wants), *given_up(found), *changes_said(found)]
    lines += [moved_said(one) for one in found.moved]
    lines += [_clash(found), _how_good(found)]
    tables = [*([_cuts(found.cuts)] if found.cuts else []), *([_steeps(found.steeps)] if found.steeps else [])]
    return Said(parts=(*(line for line in lines if line), *tables), cautions=found.cautions)


def _first(found: SeasonAnswer) -> str:
    if not found.cuts:
        if not found.steeps:
            return _("Nothing can be planned: no bed is ready on a day with hours before the last day.")
        return _("No further cut is planned; what steeps now gives %(blue)s.") % {"blue": ranged(found.blue_g, "g")}
    told = {
        "cuts": len(found.cuts), "day": weekday(found.cuts[0].on), "bed": found.cuts[0].bed,
        "blue": ranged(found.blue_g, "g"),
    }  # fmt: skip
    return (
        ngettext(
            "%(cuts)s cut gives %(blue)s of pure blue: %(bed)s on %(day)s.",
            "%(cuts)s cuts give %(blue)s of pure blue; the first is %(bed)s on %(day)s.",
            len(found.cuts),
        )
        % told
    )


def want_said(want: PlannedWant) -> str:
    """Whether a want is met in time."""
    told = {
        "name": want.name, "wanted": figure(want.wanted_g), "day": weekday(want.on),
        "chance": percent(want.met_chance), "got": ranged(want.in_time_g, "g"),
    }  # fmt: skip
    if want.name:
        return _("%(name)s, %(wanted)s g by %(day)s: chance %(chance)s; it gets %(got)s in time.") % told
    return _("%(wanted)s g by %(day)s: chance %(chance)s; it gets %(got)s in time.") % told


def given_up(found: SeasonAnswer) -> list[str]:
    """What the limits cost, and which of them."""
    lines = []
    lost = 1 - found.plan_g / found.alone_g if found.alone_g > 0 else 0.0
    if lost >= WORTH_A_WORD_FRAC:
        told = {"share": percent(lost)}
        lines.append(_("Tubs, hours, trays and dates cost %(share)s of what the beds could give.") % told)
    if found.standing_kg > 0.05:
        lines.append(_("Leaf left standing: %(leaf)s.") % {"leaf": amount(found.standing_kg, "mass_kg")})
    if found.uncut:
        lines.append(_("No cut is planned of %(beds)s.") % {"beds": ", ".join(found.uncut)})
    return lines + [_limit(one) for one in found.limits if one.more_g >= WORTH_A_WORD_FRAC * max(found.plan_g, 1e-9)]


def _limit(found: Limit) -> str:
    told = {"more": figure(found.more_g)}
    if found.limit == "tub":
        size = amount(found.volume_l or 0.0, "volume_l")
        return _("One more tub of %(size)s would bring up to %(more)s g more.") % (told | {"size": size})
    if found.limit == "hour":
        return _("One more free hour on each working day would bring up to %(more)s g more.") % told
    return _("Room to dry one more tub's blue would bring up to %(more)s g more.") % told


def changes_said(found: SeasonAnswer) -> list[str]:
    """Cuts that differ from the plan before, each with why it stands where it does now."""
    if not found.changes:
        return []
    cuts = {(cut.bed, cut.on): cut for cut in found.cuts}
    told = [
        _change(one, cuts.get((one.bed, one.now)) if one.now else None, found.inputs)
        for one in found.changes[:MOST_CHANGES]
    ]
    more = len(found.changes) - len(told)
    told += [ngettext("and %(more)s more", "and %(more)s more", more) % {"more": more}] if more else []
    return [_("Changed against the plan before: %(changes)s.") % {"changes": "; ".join(told)}]


MOST_CHANGES: Final = 6


def _change(one: Change, cut: PlannedCut | None, record: SeasonRecord) -> str:
    told = {"bed": one.bed, "why": "" if cut is None else why_said(cut)}
    if one.was is not None and not _has_hours(one.was, record):
        told["why"] = _("there are no hours on that day any more")
    if one.now is None:
        return _("cut of %(bed)s on %(was)s given up") % (told | {"was": "" if one.was is None else weekday(one.was)})
    now = told | {"now": weekday(one.now)}
    if one.was is None:
        return _("new cut of %(bed)s on %(now)s: %(why)s") % now
    return _("cut of %(bed)s moved from %(was)s to %(now)s: %(why)s") % (now | {"was": weekday(one.was)})


def moved_said(one: Moved) -> str:
    """A straining that is on another day now, and whether looks at the tub did it."""
    told = {"tub": one.tub, "was": weekday(one.was), "now": weekday(one.now)}
    if one.looked:
        return _("Straining of %(tub)s moved from %(was)s to %(now)s: the looks at it put its best there.") % told
    return _("Straining of %(tub)s moved from %(was)s to %(now)s.") % told


def _has_hours(on: date, record: SeasonRecord) -> bool:
    away = any(one.first <= on <= one.last for one in record.away)
    return not away and on <= record.last and record.free_h[on.weekday()] > 0


def _clash(found: SeasonAnswer) -> str:
    """The tub most likely to be still steeping when it is wanted."""
    worst = max(found.steeps, key=lambda one: one.clash_chance, default=None)
    if worst is None or worst.clash_chance < OFTEN or worst.next_fill_on is None:
        return ""
    told = {
        "tub": tub_name(worst), "day": weekday(worst.next_fill_on), "chance": percent(worst.clash_chance),
    }  # fmt: skip
    return _("%(tub)s may still be short of its best when it is due again on %(day)s (chance %(chance)s).") % told


def _how_good(found: SeasonAnswer) -> str:
    told = {"gap": f"{max(1, math.ceil(100 * found.gap_frac))}%", "days": found.every_d}
    if found.every_d == 1:
        return _("No plan on these working days can be better by more than %(gap)s.") % told
    return _(
        "No plan can be better by more than %(gap)s, as far as cuts beyond three weeks fall on every %(days)s. working "
        "day; plan again as they come near."
    ) % (told | {"days": found.every_d})


def tub_name(one: PlannedSteep) -> str:
    """`tub 2 of 60 L`; of one that steeps already `Tub by the wall (tub 2 of 60 L)`."""
    place = tub_said(one.volume_l, one.tub)
    return _("%(name)s (%(place)s)") % {"name": one.id, "place": place} if one.id else place


def tub_said(volume_l: float, number: int) -> str:
    """`tub 2 of 60 L`."""
    return _("tub %(number)s of %(size)s") % {"number": number, "size": amount(volume_l, "volume_l")}


def why_said(cut: PlannedCut) -> str:
    """Why a cut is on its day."""
    return _(WHY[cut.reason]) % {"day": weekday(cut.best_on)}


def cut_said(cut: PlannedCut) -> str:
    """`Long bed`; `Long bed, half of it`."""
    if cut.share_frac > 0.999:
        return cut.bed
    return _("%(bed)s, %(share)s of it") % {"bed": cut.bed, "share": percent(cut.share_frac)}


def _cuts(cuts: Sequence[PlannedCut]) -> Rows:
    rows = tuple(
        (
            weekday(cut.on), cut_said(cut), measured(cut.leaf_kg, "mass_kg"), ranged(cut.blue_g, "g"), why_said(cut),
        )
        for cut in cuts
    )  # fmt: skip
    head = (_("cut on"), _("bed"), _("leaf"), _("pure blue"), _("why then"))
    return Rows(caption=_("Cuts"), head=head, rows=rows)


def _steeps(steeps: Sequence[PlannedSteep]) -> Rows:
    rows = tuple(
        (
            weekday(one.fill_on), tub_name(one), amount(one.leaf_kg, "mass_kg"), weekday(one.strain_on),
            weekday(one.ready_on),
        )
        for one in steeps
    )  # fmt: skip
    head = (_("filled"), _("tub"), _("leaf"), _("strained"), _("in the jar"))
    return Rows(caption=_("Tubs"), head=head, rows=rows)
