"""What a garden's finished batches have taught, and what several gardens teach."""

from __future__ import annotations

import math
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.memory.pool_record import Common, PoolAnswer
from bluewright.science.memory.record import GardenAnswer, LeftOut, Lesson, Place, Score
from bluewright.words.language import gettext as _
from bluewright.words.language import marked, ngettext
from bluewright.words.measures import of_leaf
from bluewright.words.numbers import by_scale, day, frac, percent, ranged, weekday
from bluewright.words.said import Rows, Said
from bluewright.words.signs import NAMES as SIGN_NAMES

QUESTION: Final = marked(
    "What have this garden's finished batches taught, and how much better have the forecasts become?"
)
POOL_QUESTION: Final = marked("What do several gardens together teach about gardens?")
SHOWN_LESSONS: Final = 10
SHOWN_PLACES: Final = 8
TOLD_FRAC: Final = 0.05
"""What is told less than this is not shown: it is still what it was."""

LESSONS: Final[dict[str, str]] = {
    "content_mmol_per_kg": marked("what the leaf holds"),
    "kill_25c_per_h": marked("how fast the leaf dies at 25 C"),
    "kill_q10": marked("how much warmth hastens that"),
    "heat_kill_48c_per_h": marked("how fast heat kills the leaf"),
    "microbe_kill_30c_per_h": marked("how far microbes help it die"),
    "leach_25c_per_h": marked("how fast it leaches"),
    "cut_scatter": marked("how finely the leaf is cut"),
    "half_mmol_per_l": marked("how the leaf's enzyme saturates"),
    "enzyme_25c_mmol_per_kg_h": marked("how fast the enzyme splits"),
    "enzyme_loss_60c_per_h": marked("how fast heat ends the enzyme"),
    "self_split_ph7_per_h": marked("how fast isatans split alone"),
    "side_loss_25c_per_h": marked("loss of blue in the tub, by itself"),
    "microbe_loss_30c_per_h": marked("loss of blue in the tub, to microbes"),
    "growth_best_per_h": marked("how fast microbes grow"),
    "flora_start": marked("microbes at the start"),
    "acid_30c_per_h": marked("how fast it sours"),
    "acid_drop_ph": marked("how sour it gets"),
    "sap_drop_ph": marked("how sour the sap is"),
    "water_ph": marked("pH of the water"),
    "surface_cm_per_h": marked("air through the surface"),
    "leaf_breath_mmol_per_l_h": marked("breathing of the leaf"),
    "flora_breath_mmol_per_l_h": marked("breathing of the microbes"),
    "oxidation_ph7_per_mmol_h": marked("how fast air makes it blue"),
    "brown_25c_per_h": marked("how fast it browns"),
    "finish_frac": marked("share that straining, alkali and air turn into blue"),
    "kept_frac": marked("share that washing and drying keep"),
    "ph": marked("your pH readings"),
    "temp_c": marked("your thermometer in the tub"),
    "dissolved_oxygen_mg_l": marked("your oxygen readings"),
    "dye_index": marked("your jars made blue"),
    "light_l": marked("your photos of liquor, lightness"),
    "light_a": marked("your photos of liquor, red and green"),
    "light_b": marked("your photos of liquor, yellow and blue"),
}
"""What each score stands for; signs by their own names."""
UNITS: Final[dict[str, str]] = {"1": "", "level": marked("levels"), "sd": marked("of its usual error"), "pH": ""}
PARTS: Final[dict[str, str]] = {
    "bed": marked("bed"),
    "age": marked("leaf age"),
    "season": marked("part of the season"),
    "tub": marked("vessel"),
    "reader": marked("who reads"),
    "year": marked("year"),
}
KEYS: Final[dict[str, str]] = {
    "young": marked("young"), "mixed": marked("mixed"), "old": marked("old"),
    "before": marked("before its best time"), "about": marked("about its best time"),
    "after": marked("after its best time"), "": marked("not named"),
}  # fmt: skip


def said(found: GardenAnswer) -> Said:
    """The answer as the gardener reads it."""
    parts: list[str | Rows] = [
        _("The next batch gives %(now)s.") % {"now": per_leaf(found.pure_g_per_kg)},
        _rests_on(found), _better(found), timing_said(found),
    ]  # fmt: skip
    parts += [line for line in (_left_out(found),) if line]
    of_tubs = tuple(one for one in found.lessons if one.unit not in ("level", "sd"))[:SHOWN_LESSONS]
    of_eyes = tuple(one for one in found.lessons if one.unit in ("level", "sd"))[:SHOWN_LESSONS]
    if any(one.told_frac >= TOLD_FRAC for one in of_tubs):
        parts.append(lessons_table(of_tubs, caption=_("What was learned of leaf and tubs")))
    if any(one.told_frac >= TOLD_FRAC for one in of_eyes):
        parts.append(lessons_table(of_eyes, caption=_("How signs and instruments are read here, above what is usual")))
    if found.places:
        parts.append(places_table(found.places[:SHOWN_PLACES]))
    if found.calls:
        parts.append(calls_table(found))
    if found.scores:
        parts.append(scores_table(found.scores))
    return Said(parts=tuple(parts), cautions=found.cautions)


def name_said(name: str) -> str:
    """A score by what it stands for: `what the leaf holds`, `your reading of scum`."""
    for sign, known in SIGN_NAMES.items():
        if sign == name:
            return _("your reading of %(sign)s") % {"sign": _(known)}
    return _(LESSONS[name])


def _rests_on(found: GardenAnswer) -> str:
    """What the first sentence rests on, and what would be believed of any garden."""
    told = {"before": per_leaf(found.before_g_per_kg), "n": found.batches}
    return (
        ngettext(
            "That is pure blue as you strain, learned from %(n)s batch; of any garden it would be %(before)s.",
            "That is pure blue as you strain, learned from %(n)s batches; of any garden it would be %(before)s.",
            found.batches,
        )
        % told
    )


def _better(found: GardenAnswer) -> str:
    if not found.scores:
        return _("With fewer than two yields nothing can be said yet of how good the forecasts are.")
    last = found.scores[-1]
    told = {"before": _off(last.before_error_log), "now": _off(last.foretold_error_log), "n": last.batches}
    if last.said == "late":
        return (
            _("Over the later %(n)s yields forecasts were off by a factor of %(now)s; without memory %(before)s.")
            % told
        )
    return _("Over %(n)s yields forecasts were off by a factor of %(now)s; without memory %(before)s.") % told


def timing_said(found: GardenAnswer) -> str:
    """How well it was strained, beside the plainest rule."""
    told = {"own": frac(found.strained_frac), "rule": frac(found.three_days_frac)}
    return (
        _("Your strainings gave %(own)s of the best moment; always after three days would have been %(rule)s.") % told
    )


def _left_out(found: GardenAnswer) -> str:
    if not found.left_out:
        return ""
    whys = "; ".join(_tub_left_out(one, tub=found.inputs.batches[one.index].tub) for one in found.left_out)
    return _("Not learned from: %(whys)s.") % {"whys": whys}


def _tub_left_out(one: LeftOut, *, tub: str) -> str:
    """`Tub 2 of 5 Jul 2026: half of it was spilt`."""
    told = {"tub": tub, "day": day(one.started), "why": one.why}
    return (_("%(tub)s of %(day)s: %(why)s") if tub else _("the tub of %(day)s: %(why)s")) % told


def lessons_table(lessons: tuple[Lesson, ...], *, caption: str) -> Rows:
    """What is believed before and after, with how much of the doubt is gone."""
    return Rows(
        caption=caption,
        head=(_("of"), _("any garden"), _("your next batch"), _("doubt gone")),
        rows=tuple(
            (name_said(one.name), in_unit(one.before, one.unit), in_unit(one.now, one.unit), percent(one.told_frac))
            for one in lessons
            if one.told_frac >= TOLD_FRAC
        ),
    )


def changes_table(pairs: tuple[tuple[Lesson, Lesson], ...]) -> Rows:
    """What another beginning moves of what is believed of the next batch, the farthest first."""
    moved = [pair for pair in sorted(pairs, key=lambda pair: -_moved(*pair)) if _moved(*pair) >= TOLD_FRAC]
    return Rows(
        caption=_("What they would change here"),
        head=(_("of"), _("your next batch now"), _("with what they taught")),
        rows=tuple(
            (name_said(now.name), in_unit(now.now, now.unit), in_unit(then.now, then.unit))
            for now, then in moved[:SHOWN_LESSONS]
        ),
    )


def _moved(now: Lesson, then: Lesson) -> float:
    """How far ends and middle move, as a share of the range that they have now."""
    ends = zip((now.now.p5, now.now.p50, now.now.p95), (then.now.p5, then.now.p50, then.now.p95), strict=True)
    return max(abs(after - before) for before, after in ends) / max(now.now.p95 - now.now.p5, 1e-12)


def places_table(places: tuple[Place, ...]) -> Rows:
    """Where something differs from the garden's usual."""
    return Rows(
        caption=_("Where it differs"),
        head=(_("where"), _("what"), _("by"), _("batches")),
        rows=tuple((place_said(one), name_said(one.name), by_said(one), str(one.batches)) for one in places),
    )


def place_said(place: Place) -> str:
    """`bed: south`."""
    key = _(KEYS[place.key]) if place.key in KEYS else place.key
    return _("%(part)s: %(key)s") % {"part": _(PARTS[place.part]), "key": key}


def by_said(place: Place) -> str:
    """A difference: a factor, or of a sign or instrument a step."""
    if place.name in SIGN_NAMES or place.name not in LESSONS or place.name in STEPS:
        return ranged(place.factor, "")
    return _("times %(factor)s") % {"factor": ranged(place.factor, "")}


STEPS: Final = frozenset(
    {"ph", "temp_c", "dissolved_oxygen_mg_l", "dye_index", "light_l", "light_a", "light_b", "water_ph", "acid_drop_ph",
     "sap_drop_ph"}
)  # fmt: skip
"""What differs by a step, not by a factor."""


def calls_table(found: GardenAnswer) -> Rows:
    """Foretold against got, the last first."""
    return Rows(
        caption=_("Foretold and got, pure blue"),
        head=(_("begun"), _("any garden"), _("foretold"), _("got")),
        rows=tuple(
            (weekday(one.started), ranged(one.before_g, "g"), ranged(one.foretold_g, "g"), f"{by_scale(one.got_g)} g")
            for one in reversed(found.calls)
        ),
    )


def scores_table(scores: tuple[Score, ...]) -> Rows:
    """How good the forecasts were: error, width, and how often the bands held what was got."""
    names = {"all": _("all"), "early": _("first half"), "late": _("second half")}
    return Rows(
        caption=_("How good the forecasts were"),
        head=(_("batches"), _("off, any garden"), _("off, foretold"), _("width of 90%"), _("in 50%"), _("in 90%")),
        rows=tuple(
            (
                _("%(part)s (%(n)s)") % {"part": names[one.said], "n": one.batches},
                _off(one.before_error_log),
                _off(one.foretold_error_log),
                _("times %(factor)s, was %(before)s")
                % {"factor": by_scale(one.foretold_width_factor), "before": by_scale(one.before_width_factor)},
                percent(one.held_half_frac),
                percent(one.held_ninety_frac),
            )
            for one in scores
        ),
    )


def _off(error_log: float) -> str:
    """A mean error of a logarithm as people say it: a factor above or below."""
    return by_scale(round(math.exp(error_log), 2))


def in_unit(band: Band, unit: str) -> str:
    """A band in the unit of a score."""
    return ranged(band, _(UNITS[unit]) if unit in UNITS else unit)


def per_leaf(band: Band) -> str:
    """Grams of a kilogram of leaf, or as the reader measures leaf."""
    unit, _name, scale = of_leaf()
    return ranged(band, f"g/{unit}", scale=scale)


def pool_said(found: PoolAnswer) -> Said:
    """The pool as its keeper reads it."""
    told = {"gardens": found.gardens, "batches": found.batches}
    table = common_table(found.common)
    first = ngettext(
        "%(gardens)s garden with %(batches)s batches.",
        "%(gardens)s gardens with %(batches)s batches.",
        found.gardens,
    )
    return Said(parts=(first % told, *((table,) if table.rows else ())), cautions=found.cautions)


def common_table(common: tuple[Common, ...]) -> Rows:
    """What several gardens change of what is believed of the next."""
    return Rows(
        caption=_("What they teach of gardens"),
        head=(_("of"), _("before"), _("a garden not yet seen"), _("common doubt gone")),
        rows=tuple(
            (name_said(one.name), in_unit(one.before, one.unit), in_unit(one.now, one.unit), percent(one.told_frac))
            for one in common[:SHOWN_LESSONS]
            if one.told_frac >= TOLD_FRAC
        ),
    )
