"""How good are the memory's forecasts? The first two tables of the docs page *The garden's memory*, made anew.

    python -m benchmarks.study_memory FILE [GARDENS [SEED]]
    python -m benchmarks.study_memory FILE ranks [GARDENS [SEED]]

Results are kept in FILE, one garden a line: what is there is not made again. The second asks only whether bands and
ranks are right: of more gardens of the model, one coming tub each.

Each garden is taught by eight batches; then four of its next are foretold, by the priors alone and by what the first
one, two, four and eight taught: the same four tubs each time. Errors are paired by garden, and stand with the standard
error of a ratio of means over gardens. *Floor* is the error of a forecaster who knows all that is the garden's own:
what scatters from batch to batch and on the scales nobody can learn. Of gardens of the model the table of calibration
asks how often the bands of each score of the ninth batch held its truth, and whether their ranks are even.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass, replace
from math import erf, log, sqrt
from pathlib import Path
from typing import Final

import numpy as np
from benchmarks.kept_results import Plain, gathered
from benchmarks.memory_gardens import LAWS, REPORTED_ON, TAUGHT, Followed, Tub, followed
from tests.science.memory.gardens import NAMES

from bluewright.science.base.sourced import Floats
from bluewright.science.memory.joining import keys_of, widened
from bluewright.science.memory.model import Belief, Said, layout_of, learn
from bluewright.science.memory.told import Line, told

GARDENS: Final = 40
COMING: Final = 4
RANKED: Final = 160
RANKED_ON: Final = 6300
"""Gardens asked only for their ranks, and their seed, named before any was run."""
KNOWN: Final = (0, 1, 2, 4, TAUGHT)
BINS: Final = 10
CHI_SQUARE_95: Final = 16.92
"""Of nine degrees of freedom: passed by chance once in twenty."""


@dataclass(frozen=True)
class Call:
    """One tub foretold by so many batches."""

    known: int
    before: float
    """Error of the priors' forecast, ln."""
    now: float
    floor: float
    z: float
    """Error of the forecast in its own spreads."""


@dataclass(frozen=True)
class Result:
    """What one garden shows."""

    calls: Sequence[Call]
    z: Sequence[float] | None
    """By `NAMES`, the ninth batch's true scores in spreads of what eight taught."""


def one(law: str, seed: int, number: int, coming: int = COMING) -> Plain:
    """A garden taught and foretold, as it is kept: see `Result`."""
    garden = followed(law, "mild", seed=seed, number=number, coming=coming)
    said = _said(garden)
    layout = layout_of(NAMES, [each.keys for each in said])
    beliefs = {known: learn(said[:known], layout=layout) for known in KNOWN}
    calls = []
    for tub in garden.coming:
        line = _line(tub)
        calls += [_call(tub, line, known, belief) for known, belief in beliefs.items()]
    first = garden.coming[0]
    z = None
    if first.scores is not None:
        mean, covariance = beliefs[TAUGHT].of(keys_of(first.batch))
        z = ((first.scores - mean) / np.sqrt(np.diag(covariance))).tolist()
    return {"calls": [asdict(call) for call in calls], "z": z}


def read(plain: Plain) -> Result:
    """A result as it was kept."""
    return Result([Call(**call) for call in plain["calls"]], plain["z"])


def _said(garden: Followed) -> list[Said]:
    batches = [tub.batch for tub in garden.past]
    return [
        Said(told=widened(message, NAMES), keys=keys_of(batches[k]), known=batches[k].known)
        for k, message in sorted(garden.messages.items())
    ]


def _line(tub: Tub) -> Line:
    """The chain to the jar of a tub of which nothing was seen yet."""
    steep = replace(tub.batch.steep, readings=())
    bare = replace(tub.batch, steep=steep, pure_g=None)
    return widened(told(bare, rng=np.random.default_rng(steep.seed)), NAMES).log_g_before


def _call(tub: Tub, line: Line, known: int, belief: Belief) -> Call:
    mean, covariance = belief.of(keys_of(tub.batch))
    assert tub.batch.pure_g is not None
    got = log(tub.batch.pure_g)
    now = got - line.mean - float(line.slope @ mean)
    variance = float(line.slope @ covariance @ line.slope) + line.variance + tub.batch.pure_log_sd**2
    return Call(known, got - line.mean, now, got - tub.best_log_g(line), now / sqrt(variance))


def forecasts(law: str, results: Sequence[Result]) -> None:
    """Print the errors by how many batches were known."""
    for known in KNOWN:
        calls = [[call for call in result.calls if call.known == known] for result in results]
        before, now, floor = (
            np.array([np.mean([abs(getattr(call, name)) for call in of_one]) for of_one in calls])
            for name in ("before", "now", "floor")
        )
        fall, error = _ratio(now, before)
        z = np.array([[call.z for call in of_one] for of_one in calls])
        held = " | ".join(_share(np.abs(z) <= half) for half in (0.6745, 1.6449))
        learnable = (before.mean() - now.mean()) / (before.mean() - floor.mean())
        print(
            f"| {law} | {known} | {before.mean():.2f} | {now.mean():.2f} | {floor.mean():.2f} | "
            f"{100 * (1 - fall):.0f} +- {100 * error:.0f} % | {100 * learnable:.0f} % | {held} |",
            flush=True,
        )


def _ratio(over: Floats, under: Floats) -> tuple[float, float]:
    """Ratio of means of what is paired, and its standard error (delta method)."""
    ratio = over.mean() / under.mean()
    return float(ratio), float(np.std(over - ratio * under, ddof=1) / np.sqrt(len(over)) / under.mean())


def _share(held: Floats) -> str:
    """A share in percent with its error over gardens, whose tubs are alike."""
    of_garden = held.reshape(len(held), -1).mean(axis=1)
    return f"{100 * of_garden.mean():.0f} +- {100 * of_garden.std(ddof=1) / np.sqrt(len(of_garden)):.0f}"


def calibration(results: Sequence[Result]) -> None:
    """Print for every score how often its bands held, how far off their middle truth lay (in spreads, the mean over
    gardens), and chi-square of the ranks."""
    z = np.array([result.z for result in results])
    passed = 0
    for name, column in [*zip(NAMES, z.T, strict=True), ("yield", _ninth_yields(results))]:
        ranks = np.array([0.5 * (1 + erf(value / sqrt(2))) for value in column])
        counts = np.bincount(np.minimum((ranks * BINS).astype(int), BINS - 1), minlength=BINS)
        chi2 = float(((counts - len(ranks) / BINS) ** 2 / (len(ranks) / BINS)).sum())
        passed += chi2 > CHI_SQUARE_95
        held = " | ".join(f"{100 * np.mean(np.abs(column) <= half):.0f}" for half in (0.6745, 1.2816, 1.96))
        print(f"| `{name}` | {held} | {column.mean():+.2f} | {chi2:.1f} |", flush=True)
    for named, half in ((50, 0.6745), (80, 1.2816), (95, 1.96)):
        inside = np.mean(np.abs(z) <= half, axis=1)
        print(f"all scores, {named} %: {100 * inside.mean():.1f} +- {100 * inside.std(ddof=1) / np.sqrt(len(z)):.1f}")
    print(f"chi-square above {CHI_SQUARE_95}: {passed} of {len(NAMES) + 1}")


def _ninth_yields(results: Sequence[Result]) -> Floats:
    found: Iterable[list[Call]] = ([call for call in result.calls if call.known == TAUGHT] for result in results)
    return np.array([calls[0].z for calls in found])


def main(keep: Path, gardens: int = GARDENS, seed: int = REPORTED_ON) -> None:
    """So many gardens of both laws, in turn."""
    asked = [(law, seed, number) for number in range(gardens) for law in LAWS]
    found = gathered(one, asked, keep=keep)
    every = {law: [read(each) for (of, *_), each in zip(asked, found, strict=True) if of == law] for law in LAWS}
    for law, results in every.items():
        forecasts(law, results)
    calibration(every["the model"])


def ranks(keep: Path, gardens: int = RANKED, seed: int = RANKED_ON) -> None:
    """Bands and ranks of so many gardens of the model."""
    asked = [("the model", seed, number, 1) for number in range(gardens)]
    calibration([read(each) for each in gathered(one, asked, keep=keep)])


if __name__ == "__main__":
    path, *rest = sys.argv[1:]
    if rest[:1] == ["ranks"]:
        ranks(Path(path), *map(int, rest[1:]))
    else:
        main(Path(path), *map(int, rest))
