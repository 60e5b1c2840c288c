"""How far should the strain call trust the memory? A table of the docs page *The garden's memory*, made anew.

    python -m benchmarks.study_trust FILE [GARDENS [FIRST]]

Each garden of either law, in a warm season, is taught by eight batches. Of its next two tubs the looks of the first day
are foretold by the priors and by the memory with several trusts: the log score is the log of the chance that was given
to what was seen. Beside it the loss, as a share of the best, where one strains as advised before the tub began and as
advised at the last of these looks. All is paired by tub; errors are those of a mean over gardens. On `TUNED_ON`, since
the trust was chosen by it. Results are kept in FILE, one garden a line: what is there is not made again.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from typing import Final

import numpy as np
from benchmarks.kept_results import Plain, gathered
from benchmarks.memory_gardens import LAWS, TUNED_ON, TWICE_H, Tub, followed
from benchmarks.study_calls import COMING, taught_of

from bluewright.science import thread
from bluewright.science.base.sourced import Floats
from bluewright.science.steep.decide import decide, outlook
from bluewright.science.steep.record import Garden

SEASON: Final = "warm"
TRUSTS: Final = (0.5, 0.8, 0.98)
"""The last is full but for a whiff."""
LOOKS_H: Final = TWICE_H[:2]
MEMBERS: Final = 600
SHOWN: Final = ("log score", "before it began", "after a day")


def one(law: str, number: int) -> Plain:
    """A garden and its next tubs: of each by trust, none first, what is `SHOWN`."""
    garden = followed(law, SEASON, seed=TUNED_ON, number=number, coming=COMING, to_the_end=True)
    tubs = []
    for k, tub in enumerate(garden.coming):
        taught = [None, *(taught_of(garden, tub, trust_frac=trust) for trust in TRUSTS)]
        tubs.append([_called(tub, each, seed=(number, k)) for each in taught])
    return {"tubs": tubs}


def _called(tub: Tub, taught: Garden | None, *, seed: tuple[int, int]) -> tuple[float, float, float]:
    before, _ = _advised(tub, taught, upto=0, seed=seed)
    after, log_score = _advised(tub, taught, upto=len(LOOKS_H), seed=seed)
    return log_score, 1 - tub.share(before), 1 - tub.share(after)


def _advised(tub: Tub, taught: Garden | None, *, upto: int, seed: tuple[int, int]) -> tuple[float, float]:
    """The hour advised after so many looks, at any hour of the day, and the log chance of what they showed."""
    steep, rng = tub.batch.steep, np.random.default_rng(seed)
    now = steep.started + timedelta(hours=LOOKS_H[upto - 1] if upto else 0.0)
    known = replace(steep, garden=taught, can_strain=None, now=now, readings=steep.readings[:upto])
    ensemble = thread.begin_steep(known, rng=rng, members=MEMBERS)
    decision = decide(known, outlook(ensemble.setting.course(ensemble.population.z), ensemble.weights))
    return float(decision.option_h[decision.chosen]), ensemble.population.log_evidence


def table(law: str, gardens: list[Plain]) -> None:
    """Print a row a trust: what is gained upon the priors alone."""
    found: Floats = np.array([np.mean(garden["tubs"], axis=0) for garden in gardens])
    for place, trust in enumerate(TRUSTS, start=1):
        gained = (found[:, place] - found[:, 0]) * [1, 100, 100]
        error = gained.std(axis=0, ddof=1) / np.sqrt(len(gained))
        cells = [f"{mean:+.2f} +- {sd:.2f}" for mean, sd in zip(gained.mean(axis=0), error, strict=True)]
        print(f"| {law}, {len(gardens)} gardens | {trust} | {' | '.join(cells)} |", flush=True)


def main(keep: Path, gardens: int = 16, first: int = 12) -> None:
    """So many gardens of both laws, from that number on."""
    asked = [(law, number) for number in range(first, first + gardens) for law in LAWS]
    found = dict(zip(asked, gathered(one, asked, keep=keep), strict=True))
    print(f"| truth | trust | {' | '.join(SHOWN)} |")
    for law in LAWS:
        table(law, [garden for (of, _), garden in found.items() if of == law])


if __name__ == "__main__":
    main(Path(sys.argv[1]), *map(int, sys.argv[2:]))
