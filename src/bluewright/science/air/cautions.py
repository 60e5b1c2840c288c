"""What may hurt, or what the figures should not be trusted for, with this batch's numbers."""

from __future__ import annotations

from typing import Final

from bluewright.science.air.members import Members, bubbling, ph_read, pouring, scores
from bluewright.science.air.priors import STUDIED_PH, STUDIED_STIRRED_L
from bluewright.science.air.record import AirRecord
from bluewright.science.air.transfer import BUBBLES, POURS
from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.media.oxygen import STUDIED as STUDIED_OXYGEN

SCALD: Final = Sourced(
    value=45.0, unit="C", source="moritz-henriques-1947", low=44.0, high=52.0, grade="memory",
    note="liquor thrown about at this warmth hurts; a few degrees more scald in minutes",
)  # fmt: skip
LIFTED_KG: Final = Sourced(
    value=10.0, unit="kg", source="common-practice", low=8.0, high=15.0, grade="practice",
    note="lifted again and again",
)  # fmt: skip
CAUSTIC_PH: Final = Sourced(
    value=10.5, unit="1", source="common-practice", low=10.0, high=11.5, grade="practice",
    note="splashes of such liquor hurt eyes whatever made it alkaline",
)  # fmt: skip
HIGH_PH: Final = Sourced(
    value=11.5, unit="1", source="common-practice", low=11.0, high=12.0, grade="guess",
    note="above it nothing is gained in speed",
)  # fmt: skip
LOW_PH: Final = 8.5
WATCH_PH: Final = 9.0
FALL_PH: Final = 0.2
"""A fall of pH by more than this in half an hour means acids in the making, not air alone."""


def cautions(record: AirRecord, *, z: Floats, group: Members, ammonia_loss_frac: Band | None) -> tuple[Caution, ...]:
    """All cautions of this batch, those about people first."""
    found = [
        *_people(record, ammonia_loss_frac),
        *_alkali(record, group),
        *_range(record, z),
    ]
    return tuple(found)


def ph_now(record: AirRecord) -> float | None:
    """The last pH read, if any."""
    seen = ([record.ph] if record.ph is not None else []) + [r.ph for r in record.readings if r.ph is not None]
    return seen[-1] if seen else None


def _people(record: AirRecord, lost: Band | None) -> list[Caution]:
    found = []
    if lost is not None:
        found.append(
            caution(
                "ammonia-air",
                f"Airing drives ammonia out, here about {100 * lost.p50:.2g}% of it and perhaps "
                f"{100 * lost.p95:.2g}%. Work outdoors or in a through draught, with your face away from the vessel; "
                "the bottle's label and local rules go first.",
                source="niosh-ammonia",
            )
        )
    if (record.ph or 0) >= CAUSTIC_PH.value or record.alkali in {"lye", "potassium_lye", "slaked_lime", "ash_lye"}:
        found.append(
            caution(
                "alkaline-splash",
                "This liquor is caustic and airing throws drops: goggles and gloves; in the eye rinse with water "
                "at once for 20 minutes and call for help. The label of the alkali goes first.",
            )
        )
    lifted = record.pour is not None and (record.pour.pour_l or min(record.liquor_l, 15.0))
    if lifted and lifted > LIFTED_KG.value:
        found.append(
            caution(
                "lifting", f"Each pour lifts about {lifted:.0f} kg. Pour smaller parts with a jug, or share the work."
            )
        )
    if record.temp_c > SCALD.value:
        found.append(
            caution(
                "scald",
                f"The liquor is at {record.temp_c:.0f} C: it scalds when poured or splashed. Let it cool, or "
                "keep the fall low.",
            )
        )
    return found


def _alkali(record: AirRecord, group: Members) -> list[Caution]:
    found = []
    now = ph_now(record)
    if now is not None and now < WATCH_PH:
        found.append(
            caution(
                "ph-low",
                f"The pH reads {now:.1f}. Below {LOW_PH:g} to {WATCH_PH:g} the blue forms slowly and falls out "
                "poorly: measure again, and add alkali in small parts before airing on.",
            )
        )
    fall = _fall_per_half_hour(record, float(group.done_h.mean()))
    if fall > FALL_PH:
        found.append(
            caution(
                "ph-falling",
                f"The pH has fallen by about {fall:.1f} in half an hour. Airing alone takes off less than "
                f"{FALL_PH:g}: acids are being made, or ammonia is going. Watch it and be ready to add alkali.",
            )
        )
    if (now or 0) > HIGH_PH.value:
        found.append(
            caution(
                "ph-high",
                f"The pH reads {now:.1f}. Above 11 nothing is gained in speed, and more of the blue is destroyed.",
            )
        )
    return found


def _fall_per_half_hour(record: AirRecord, done_h: float) -> float:
    """The steepest fall of pH in half an hour from any earlier reading to the last; shorter spans count as half."""
    times = [0.0] if record.ph is not None else []
    times += [record.session_frac(r) for r in record.readings if r.ph is not None]
    if len(times) < 2:
        return 0.0
    last = float(ph_read(record, times[-1]))
    falls = [
        (float(ph_read(record, before)) - last) * 0.5 / max((times[-1] - before) * done_h, 0.5) for before in times[:-1]
    ]
    return max(falls)


def _range(record: AirRecord, z: Floats) -> list[Caution]:
    """One caution that names everything outside what was studied, with the source of the first."""
    outside: dict[str, str] = {}
    if not STUDIED_OXYGEN["temp_c"].holds(record.temp_c):
        outside["the temperature (oxygen in water was studied from 0 to 40 C)"] = STUDIED_OXYGEN["temp_c"].source
    ph = ph_now(record)
    if ph is not None and not STUDIED_PH.holds(ph):
        outside["the pH (the rate is taken from 6 to 11)"] = STUDIED_PH.source
    at = scores(z)
    if record.pour is not None:
        fall = pouring(record, record.pour, at)
        if all(set(rival.outside(fall)) - {"temp_c"} for rival in POURS.values()):
            outside["the fall (studied up to about 4 m)"] = POURS["gameson"].source
    if record.bubble is not None:
        blown = bubbling(record, record.bubble, at)
        if all(rival.outside(blown) for rival in BUBBLES.values()):
            outside["the bubbling (studied in deeper or far livelier vessels)"] = BUBBLES["column"].source
    if record.way in {"whisk", "paddle"} and not STUDIED_STIRRED_L.holds(record.liquor_l):
        outside["the volume (hand tools are judged for 2 to 100 L)"] = STUDIED_STIRRED_L.source
    if not outside:
        return []
    text = f"Outside the range that the formulas rest on: {'; '.join(outside)}. Trust the signs over the minutes."
    return [caution("outside-range", text, source=next(iter(outside.values())))]
