"""From signs to causes: a small network of causes and signs, summed over every set of up to three causes.

    P(sign | causes) = 1 - (1 - leak) * product over the causes at work of (1 - how often each shows it)
    P(causes | signs) by Bayes, each cause at work by itself or beside others with its base chance

Signs that come of one look are damped (`fault_table.ALIKE`), since they hang together beyond what their causes
explain. The table is a judgement: it is drawn 300 times, each number off by its own doubt, and the chances are told
with that range.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations
from typing import Final, get_args

import numpy as np

from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Floats
from bluewright.science.vat.dangers import DANGERS
from bluewright.science.vat.fault_table import (
    ALIKE,
    BASE_CHANCE,
    CURE_HAZARDS,
    CURES,
    LEAK,
    ONLY_IN,
    SAME_LOOK,
    SHOWS,
    SOUR_IN,
)
from bluewright.science.vat.faults_record import Cause, CauseFound, Cure, FaultAnswer, FaultRecord, NextTest, SignName
from bluewright.science.vat.kinds import KINDS, VatKind, set_points
from bluewright.science.vat.order import HAZARDS
from bluewright.science.vat.recipe_record import Hazard

DRAWS: Final = 300
MOST_AT_ONCE: Final = 3
DOUBT_LOGIT: Final = 0.5
"""Standard deviation of the logit by which each number of the table may be off (guess)."""
SHOWN_TESTS: Final = 4
LOOK_TABLES: Final = 40
"""Tables over which the worth of a look is taken: it is a mean, and fewer are enough."""
CLEARLY_PH: Final = 0.2
CLEARLY_C: Final = 3.0
"""So far beyond its range a reading counts as high, low or cold."""
SIGNS: Final[tuple[SignName, ...]] = get_args(SignName)


@dataclass(frozen=True, slots=True, kw_only=True)
class Network:
    """The table for one kind of vat: sets of causes, and what each set shows."""

    causes: tuple[Cause, ...]
    at_work_frac: Floats
    """Which causes each set holds, 0 or 1, (sets, causes)."""
    log_base_chance: Floats
    """Log of the chance of each set, (tables, sets)."""
    log_leak_chance: Floats
    """Log of the chance that nothing shows a sign though nothing is wrong, (tables, signs)."""
    log_spared_chance: Floats
    """Log of the chance that a cause does not show a sign, (tables, causes, signs)."""

    def shows_frac(self, name: SignName) -> Floats:
        """Chance of a sign in each set of causes, (tables, sets): unless leak and every cause at work spare it."""
        place = SIGNS.index(name)
        spared = self.log_leak_chance[:, place, None] + self.log_spared_chance[:, :, place] @ self.at_work_frac.T
        return np.asarray(-np.expm1(spared))


def faults(record: FaultRecord, *, rng: np.random.Generator) -> FaultAnswer:
    """What probably ails the vat, and which look would tell most.

    Formula: the module's, over all sets of up to three causes; a look is worth the mutual information between it and
    the set of causes. Raises nothing beyond the record's own InputError. Sources: Mairet 1938 and an encyclopaedia
    name the signs; every number is a judgement.
    """
    net = network(record.kind, rng=rng)
    seen = observed(record)
    posterior = weigh(net, seen)
    mean = posterior.mean(axis=0)
    each = posterior @ net.at_work_frac
    order = np.argsort(-each.mean(axis=0), kind="stable")
    doubt = _entropy(mean)
    found = tuple(_found(record, net.causes[k], each[:, k]) for k in order)
    return FaultAnswer(
        id=record.id,
        causes=found,
        nothing_chance=significant(float(mean[0]), 3),
        next_tests=tuple(_tests(record, net, mean, seen, doubt)),
        doubt_bits=significant(doubt, 3),
        basis="readings" if seen else "prior",
        inputs=record,
        cautions=tuple(_cautions(record, found)),
        sources=_sources(net),
    )


def network(kind: VatKind, *, rng: np.random.Generator, tables: int = DRAWS) -> Network:
    """The network of one kind of vat; its first table is the printed one, the others are it within its doubt."""
    causes = tuple(cause for cause in BASE_CHANCE if kind in ONLY_IN.get(cause, frozenset({kind})))
    sets = [chosen for size in range(MOST_AT_ONCE + 1) for chosen in combinations(range(len(causes)), size)]
    at_work_frac = np.array([[float(k in chosen) for k in range(len(causes))] for chosen in sets])
    base = _doubted(np.array([BASE_CHANCE[cause].value for cause in causes]), tables, rng)
    strength = np.array([[_strength(cause, sign) for sign in SIGNS] for cause in causes])
    leak = _doubted(np.array([LEAK[sign].value for sign in SIGNS]), tables, rng)
    return Network(
        causes=causes, at_work_frac=at_work_frac,
        log_base_chance=np.log(base) @ at_work_frac.T + np.log1p(-base) @ (1.0 - at_work_frac).T,
        log_leak_chance=np.log1p(-leak), log_spared_chance=np.log1p(-_doubted(strength, tables, rng)),
    )  # fmt: skip


def observed(record: FaultRecord) -> dict[SignName, bool]:
    """The signs that were looked at; pH and warmth are turned into signs by the set points of this vat."""
    seen = {name: value for name in SIGNS if (value := getattr(record, name, None)) is not None}
    points = set_points(record.kind, record.fibre)
    if record.ph is not None:
        seen["ph_high"] = record.ph > points.ph.high + CLEARLY_PH
        seen["ph_low"] = record.ph < points.ph.low - CLEARLY_PH
    if record.temp_c is not None:
        seen["cold"] = record.temp_c < min(points.dye_c.low, KINDS[record.kind].reduce_c.low) - CLEARLY_C
    return seen


def weigh(net: Network, seen: dict[SignName, bool]) -> Floats:
    """Chance of each set of causes given the signs, (tables, sets); each table's chances add up to 1."""
    total = net.log_base_chance.copy()
    for name, present in seen.items():
        shown = net.shows_frac(name)
        total = total + _weight(name, seen) * np.log(shown if present else 1.0 - shown)
    raised = np.exp(total - total.max(axis=1, keepdims=True))
    return np.asarray(raised / raised.sum(axis=1, keepdims=True))


def _weight(name: SignName, seen: dict[SignName, bool]) -> float:
    """Of m signs of one look each counts 1 / (1 + alike (m - 1))."""
    together = next((group for group in SAME_LOOK if name in group), frozenset({name}))
    return 1.0 / (1.0 + ALIKE.value * (len(together & set(seen)) - 1))


def _strength(cause: Cause, sign: SignName) -> float:
    found = SHOWS[cause].get(sign)
    return 0.0 if found is None else found.value


def _doubted(values: Floats, tables: int, rng: np.random.Generator) -> Floats:
    """So many tables, the first as printed; what is 0 stays 0."""
    noise = DOUBT_LOGIT * rng.standard_normal((tables, *values.shape))
    noise[0] = 0.0
    odds = values / (1.0 - values) * np.exp(noise)
    return np.asarray(odds / (1.0 + odds))


def _tests(
    record: FaultRecord, net: Network, mean: Floats, seen: dict[SignName, bool], doubt: float
) -> Iterator[NextTest]:
    """The looks not taken yet that are expected to take most of the doubt away."""
    possible = [name for name in SIGNS if name not in seen and _can_be_seen(record, name)]
    few = replace(
        net, log_leak_chance=net.log_leak_chance[:LOOK_TABLES], log_spared_chance=net.log_spared_chance[:LOOK_TABLES]
    )
    worth = {name: _information(few, mean, name) for name in possible}
    for name in sorted(possible, key=lambda one: -worth[one])[:SHOWN_TESTS]:
        yield NextTest(sign=name, tells_frac=significant(min(worth[name] / max(doubt, 1e-9), 1.0), 3))


def _can_be_seen(record: FaultRecord, name: SignName) -> bool:
    """Whether this look makes sense at this vat: no life in a chemical one, no tin for a fermented one."""
    if name == "lifeless":
        return record.kind == "ferment"
    if name in {"cup_clears", "fresh_tin_clears"}:
        return record.kind != "ferment"
    return name != "harsh" or record.fibre in {"wool", "silk"}


def _information(net: Network, mean: Floats, name: SignName) -> float:
    """Mutual information, bits, between a look and the set of causes: doubt about the look less that within each
    set."""
    shown = net.shows_frac(name).mean(axis=0)
    whole = float(mean @ shown)
    return max(float(_coin(np.array([whole]))[0]) - float(mean @ _coin(shown)), 0.0)


def _coin(chance: Floats) -> Floats:
    """Entropy of a yes or no, bits."""
    inside = np.clip(chance, 1e-12, 1.0 - 1e-12)
    return np.asarray(-inside * np.log2(inside) - (1.0 - inside) * np.log2(1.0 - inside))


def _entropy(chances: Floats) -> float:
    """Doubt in bits."""
    inside = chances[chances > 0.0]
    return max(float(-np.sum(inside * np.log2(inside))), 0.0)


def cure_of(cause: Cause, kind: VatKind) -> Cure:
    """What helps; an acid only where it can do no harm."""
    cure = CURES[cause]
    return "thin_and_stand" if cure == "sour_gently" and kind not in SOUR_IN else cure


def _found(record: FaultRecord, cause: Cause, chance: Floats) -> CauseFound:
    cure = cure_of(cause, record.kind)
    hazards: tuple[Hazard, ...] = CURE_HAZARDS.get(cure, ())
    reductant = KINDS[record.kind].reductant
    if cure in {"sharpen", "fresh_tin"} and reductant is not None:
        hazards = HAZARDS[reductant]
    return CauseFound(
        cause=cause, at_work_chance=significant(float(chance.mean()), 3), chance_range_frac=band(chance, digits=3),
        cure=cure,
        hazards=hazards,
    )  # fmt: skip


def _cautions(record: FaultRecord, found: tuple[CauseFound, ...]) -> Iterator[Caution]:
    """What could hurt with the likeliest cures and at this vat, then what the answer rests on."""
    met = {hazard for one in found[:3] for hazard in one.hazards}
    if KINDS[record.kind].sulphur:
        met.add("sulphur_gas")
    if record.kind == "ferment":
        met.add("foul_air")
    yield from (DANGERS[hazard] for hazard in sorted(met, key=list(DANGERS).index))
    yield caution(
        "table-judged",
        "How often a cause shows a sign is judged, not counted: take the order of the causes more seriously "
        "than the figures, and try a cure on a cup first.",
        source="bluewright-vat",
    )


def _sources(net: Network) -> tuple[str, ...]:
    used = {BASE_CHANCE[cause].source for cause in net.causes}
    used |= {one.source for cause in net.causes for one in SHOWS[cause].values()}
    return tuple(sorted(used | {ALIKE.source}))
