"""What to do with a vat as it stands: one small thing, and when to look again. Sharpening goes in half doses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.bands import band
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.media.alkalis import KINDS as ALKALIS
from bluewright.science.media.cloth import PROTEIN
from bluewright.science.vat.amounts import HIGH_SODA_PH
from bluewright.science.vat.kinds import KINDS, VatAlkali, set_points
from bluewright.science.vat.liquor import INDIGO_ELECTRONS, Batch, Now
from bluewright.science.vat.order import HAZARDS
from bluewright.science.vat.priors import LOW_FEED_G_PER_L
from bluewright.science.vat.recipe_record import Substance
from bluewright.science.vat.redox import REDUCTANTS
from bluewright.science.vat.setting import HYDROXIDE_PER_MOL, Setting
from bluewright.science.vat.state_priors import LEAST_ACTIVE_G_PER_L
from bluewright.science.vat.state_record import Advice, SmallPart, VatRecord

HALF: Final = 0.5
SURE: Final = Sourced(
    value=0.65, unit="1", source="bluewright-vat", low=0.5, high=0.9, grade="guess",
    note="chance of being ready from which cloth may go in: a strip first",
)  # fmt: skip
PERHAPS: Final = Sourced(
    value=0.55,
    unit="1",
    source="bluewright-vat",
    low=0.4,
    high=0.8,
    grade="guess",
    note="chance from which a lack is met",
)
COLD_C: Final = Sourced(
    value=3.0,
    unit="C",
    source="bluewright-vat",
    low=1.0,
    high=6.0,
    grade="guess",
    note="below its warmth, from which it is warmed",
)
RESERVE_MMOL_PER_L: Final = Sourced(
    value=4.0, unit="mmol/L", source="common-practice", low=3.0, high=6.0, grade="practice",
    note="electrons kept in hand: 0.3 to 0.5 g/L of dithionite",
)  # fmt: skip
MOST_SHARPENED: Final = 4
"""Sharpened so often without coming back, a vat is given fresh stock or retired (common practice)."""
WORK_H: Final = 3.0
REST_H: Final = 1.0
MANY_DIPS: Final = 4
"""A vat rests an hour after three hours of work (Mairet 1938); so many dips count as work (guess)."""
BETTER_CHANCE: Final = 0.02
"""So much more probable must it become for waiting to be worth it."""
FERMENT_SLOWER: Final = 24.0
"""How much later one looks again at a fermented vat."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """What the ensemble says, as far as advice rests on it."""

    active_g_per_l: Floats
    ready_chance: float
    short_chance: float
    low_ph_chance: float
    high_ph_chance: float
    reachable_g_per_l: Floats
    ahead_chance: tuple[tuple[float, float], ...]
    """Hours from now on, and the chance of being ready then if nothing is added."""
    temp_c: float
    sharpened: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """The advice."""

    advice: Advice
    parts: tuple[SmallPart, ...]
    look_h: float


def advise(made: Setting, view: Outlook, batch: Batch, now: Now, weights: Floats) -> Chosen:
    """The next small thing: in this order indigo, pH, warmth, rest, reductant, patience."""
    advice = _advice(made, view, weights)
    slower = FERMENT_SLOWER if made.record.kind == "ferment" else 1.0
    look = {
        "dye": 2.0, "rest": REST_H, "warm": 1.0, "more_alkali": 0.5 * slower, "less_alkali": 12.0, "sharpen": 0.75,
        "feed": slower, "retire": 24.0, "add_indigo": KINDS[made.record.kind].ready_h.centre,
        "wait": _wait_h(made, view),
    }[advice]  # fmt: skip
    return Chosen(advice=advice, parts=_parts(made, advice, batch, now, weights), look_h=look)


def _advice(made: Setting, view: Outlook, weights: Floats) -> Advice:
    """The first of these that holds."""
    record, ready = made.record, view.ready_chance >= SURE.value
    lacking, low_ph = view.short_chance >= PERHAPS.value, view.low_ph_chance
    worked = sum((record.now - dip.time).total_seconds() <= WORK_H * 3600.0 for dip in record.dips) >= MANY_DIPS
    cold_to_dye = view.temp_c < made.points.dye_c.low - COLD_C.value
    cold_to_reduce = view.temp_c < KINDS[record.kind].reduce_c.low - COLD_C.value
    ferments, ph_read = record.kind == "ferment", any(one.ph is not None for one in record.readings)
    rules: tuple[tuple[bool, Advice], ...] = (
        (float(weights @ view.reachable_g_per_l) < LEAST_ACTIVE_G_PER_L.value, "add_indigo"),
        (ready and view.high_ph_chance >= SURE.value and record.fibre in PROTEIN, "less_alkali"),
        (ph_read and low_ph >= (SURE.value if ready else PERHAPS.value), "more_alkali"),
        (cold_to_dye if ready else cold_to_reduce, "warm"),
        (ready, "dye"),
        (ferments and (_hungry(made) or _stuck(made, view)), "feed"),
        (worked and not lacking and not ferments, "rest"),
        (not lacking or ferments, "wait"),
        (view.sharpened >= MOST_SHARPENED, "retire"),
    )
    return next((advice for holds, advice in rules if holds), "sharpen")


def _hungry(made: Setting) -> bool:
    """Whether a fermented vat has gone its time since it was last fed."""
    record = made.record
    fed_h = max((made.hour(one.time) for one in record.additions if one.what in {"bran", "madder"}), default=0.0)
    return float(made.hours[-1]) - fed_h > made.priors["fed_h"].centre


def _stuck(made: Setting, view: Outlook) -> bool:
    """Whether a fermented vat has had its time to wake and will not get better by waiting."""
    better = max((chance for _, chance in view.ahead_chance), default=0.0) > view.ready_chance + BETTER_CHANCE
    return float(made.hours[-1]) > 2.0 * made.priors["wakes_h"].centre and not better


def _wait_h(made: Setting, view: Outlook) -> float:
    """Until it is probably ready; if it never is, half the time that such a vat usually takes."""
    found = next((hours for hours, chance in view.ahead_chance if chance >= SURE.value), None)
    return found if found is not None else HALF * KINDS[made.record.kind].ready_h.centre


def _parts(made: Setting, advice: Advice, batch: Batch, now: Now, weights: Floats) -> tuple[SmallPart, ...]:
    if advice == "more_alkali":
        return (_alkali(made, now, _lacking(made, batch, now), weights),)
    if advice == "feed":
        grams = np.full_like(now.ph, HALF * LOW_FEED_G_PER_L.value * now.volume_l)
        return (_part("bran", grams, weights), _part("madder", HALF * grams, weights))
    if advice != "sharpen":
        return ()
    name = KINDS[made.record.kind].reductant
    assert name is not None
    own = REDUCTANTS[name]
    lacking = np.maximum(INDIGO_ELECTRONS * now.waiting_mmol - now.electrons_mmol, 0.0) + RESERVE_MMOL_PER_L.value
    mmol = HALF * lacking / own.to_indigo.electrons
    grams = mmol / batch["kept"] * own.molar_g_per_mol / 1000.0 * now.volume_l
    hydroxide = HYDROXIDE_PER_MOL * mmol + _lacking(made, batch, now)
    return (_part(name, grams, weights), _alkali(made, now, hydroxide, weights))


def _lacking(made: Setting, batch: Batch, now: Now) -> Floats:
    """Half the hydroxide, mmol in a litre, that brings the pH back to the wanted one."""
    return HALF * np.maximum(made.wanted_ph - now.ph, 0.0) * batch["buffer_mmol_per_l"]


def alkali_at_hand(record: VatRecord) -> VatAlkali:
    """The alkali that this vat was last given, else the usual one of its kind."""
    used = [one.what for one in record.additions if one.what in KINDS[record.kind].alkalis]
    usual = KINDS[record.kind].alkalis
    if used:
        return next(name for name in usual if name == used[-1])
    high = set_points(record.kind, record.fibre).ph.value > HIGH_SODA_PH.value
    return "lye" if high and KINDS[record.kind].sulphur else usual[0]


def _alkali(made: Setting, now: Now, hydroxide: Floats, weights: Floats) -> SmallPart:
    name = alkali_at_hand(made.record)
    own = ALKALIS[name]
    grams = hydroxide / own.charge / own.purity.centre * own.molar.value / 1000.0 * now.volume_l
    return _part(name, grams, weights)


def _part(what: Substance, grams: Floats, weights: Floats) -> SmallPart:
    return SmallPart(what=what, mass_g=band(grams, weights=weights, digits=2), hazards=HAZARDS[what])
