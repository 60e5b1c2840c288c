"""All messages together: a linear-Gaussian model of parts, solved exactly.

The scores of batch i are z_i = sum over parts of u[part, key of i] + r_i. Every part has the prior N(0, share) for each
score; years of one garden are correlated by exp(-|years apart| / YEARS_ALIKE); r_i is the batch's own, with the share
`batch` times the square of a scatter factor that is itself learned (on a grid, one factor for the chain to the jar,
one for speed and signs: by the evidence, after Bishop 2006, ch. 3.5, key bishop-2006, weighed against a log-normal
prior). With r_i integrated out, a message (P, h) on z_i becomes one on the sum of its parts:

    P' = (P^-1 + R)^-1 = (I + P R)^-1 P,   h' = (I + P R)^-1 h,   log evidence = -ln|I + P R|/2 + h' R (I + P R)^-1 h/2

and adding those up over batches gives the precision of all parts at once.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.sourced import Floats
from bluewright.science.memory.shares import (
    PARTS,
    SCATTER_LOG_SD,
    SCATTERS,
    YEARS_ALIKE,
    YIELD_NAMES,
    Part,
    shares_of,
)
from bluewright.science.memory.told import Told

Keys = Mapping[Part, str]
"""By part the key of the group a batch belongs to; a part that is not known of it is missing."""
Group = tuple[Part, str]
Places = NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A message with the groups of its batch."""

    told: Told
    keys: Keys
    known: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Where in the vector of all unknowns each score of each group stands."""

    names: tuple[str, ...]
    scores: dict[Group, Places]
    """By group the places (within `names`) of the scores that vary by it."""
    start: dict[Group, int]
    size: int

    def places(self, group: Group) -> Places:
        """Places of a group's unknowns in the vector of all."""
        return np.arange(self.start[group], self.start[group] + len(self.scores[group]))

    def groups(self, keys: Keys) -> list[Group]:
        """The groups of a batch that have unknowns here."""
        return [(part, keys[part]) for part in PARTS if part in keys and (part, keys[part]) in self.start]

    def picked(self, groups: Sequence[Group]) -> tuple[Places, Floats]:
        """The unknowns (k,) of a batch of these groups, and the ones and noughts (d, k) that add them up by score."""
        none = np.zeros(0, dtype=np.intp)
        here = np.concatenate([none, *(self.places(group) for group in groups)])
        rows = np.concatenate([none, *(self.scores[group] for group in groups)])
        picks = np.zeros((len(self.names), len(here)))
        picks[rows, np.arange(len(here))] = 1.0
        return here, picks

    def unnamed(self, groups: Sequence[Group]) -> Floats:
        """Variances (d,) of the parts that a batch has but no group here stands for: they scatter as its own do."""
        known: set[Part] = {part for part, _ in groups} | {"batch"}
        return np.array([sum(s for part, s in shares_of(n).items() if part not in known) for n in self.names])


@dataclass(frozen=True, slots=True, kw_only=True)
class Belief:
    """What is believed of all parts: a normal, and the factors of scatter."""

    layout: Layout
    mean: Floats
    covariance: Floats
    scatter: Floats
    """Weights of `SCATTERS` for the chain to the jar."""
    speed_scatter: Floats
    """The same for speed and signs."""

    def of(self, keys: Keys, *, with_batch: bool = True) -> tuple[Floats, Floats]:
        """Mean and covariance of the scores of a batch with these keys; without its own scatter, of its garden.

        A part that a batch has but nothing is known of (a new bed, an unnamed tub) adds its prior's variance.
        """
        groups = self.layout.groups(keys)
        here, picks = self.layout.picked(groups)
        mean = picks @ self.mean[here]
        covariance = picks @ self.covariance[np.ix_(here, here)] @ picks.T
        own = self.layout.unnamed(groups)
        if with_batch:
            own = own + own_scatter(self.layout.names, squares=self.squares)
        return mean, covariance + np.diag(own)

    @property
    def squares(self) -> tuple[float, float]:
        """Mean squares of the factors on the batches' scatter, of the chain to the jar and of the rest."""
        return _mean_square(self.scatter), _mean_square(self.speed_scatter)


SCATTER_PRIOR: Final = np.exp(-0.5 * ((np.log(SCATTERS) + SCATTER_LOG_SD.value**2) / SCATTER_LOG_SD.value) ** 2)
"""Of `SCATTERS`, not adding up to 1: log-normal, so far below 1 that the mean square is 1, as the shares say."""


def layout_of(names: Sequence[str], keys: Sequence[Keys]) -> Layout:
    """Room for every group that a batch belongs to."""
    every = sorted({(part, batch[part]) for batch in keys for part in batch}, key=lambda g: (PARTS.index(g[0]), g[1]))
    scores = {
        group: np.array([k for k, name in enumerate(names) if shares_of(name).get(group[0], 0) > 0]) for group in every
    }
    scores = {group: rows for group, rows in scores.items() if len(rows)}
    start, size = {}, 0
    for group, rows in scores.items():
        start[group] = size
        size += len(rows)
    return Layout(names=tuple(names), scores=scores, start=start, size=size)


def prior_covariance(layout: Layout) -> Floats:
    """Covariance of all unknowns before any batch."""
    found = np.zeros((layout.size, layout.size))
    years = [group for group in layout.scores if group[0] == "year"]
    for group, rows in layout.scores.items():
        shares = np.array([shares_of(layout.names[k])[group[0]] for k in rows])
        here = layout.places(group)
        if group[0] != "year":
            found[here, here] = shares
            continue
        garden, year = _garden_and_year(group[1])
        for other in years:
            other_garden, other_year = _garden_and_year(other[1])
            if garden == other_garden:
                found[here, layout.places(other)] = shares * np.exp(-abs(year - other_year) / YEARS_ALIKE.value)
    return found


def year_key(garden: str, year: int) -> str:
    """The key of a year of a garden."""
    return f"{garden}/{year}"


def _garden_and_year(key: str) -> tuple[str, int]:
    garden, year = key.rsplit("/", 1)
    return garden, int(year)


def learn(said: Sequence[Said], *, layout: Layout, prior: tuple[Floats, Floats] | None = None) -> Belief:
    """What is believed after these messages; `prior` is mean and covariance of all unknowns beforehand."""
    mean, covariance = prior if prior is not None else (np.zeros(layout.size), prior_covariance(layout))
    before = SCATTER_PRIOR / SCATTER_PRIOR.sum()
    if not said:
        return Belief(layout=layout, mean=mean, covariance=covariance, scatter=before, speed_scatter=before)
    stack = _Stack.of(said, layout)
    usual = SCATTERS.index(1.0)
    weights = [np.eye(len(SCATTERS))[usual], np.eye(len(SCATTERS))[usual]]
    for block in (0, 1):
        evidence = []
        for factor in SCATTERS:
            tried = [_mean_square(w) for w in weights]
            tried[block] = factor**2
            evidence.append(stack.joined(mean, covariance, squares=(tried[0], tried[1]))[2])
        raised = SCATTER_PRIOR * np.exp(np.array(evidence) - max(evidence))
        weights[block] = raised / raised.sum()
    squares = (_mean_square(weights[0]), _mean_square(weights[1]))
    found, spread, _ = stack.joined(mean, covariance, squares=squares)
    return Belief(layout=layout, mean=found, covariance=spread, scatter=weights[0], speed_scatter=weights[1])


def _mean_square(weights: Floats) -> float:
    """Of the factors on scatter, by their weights."""
    return float(weights @ np.square(SCATTERS))


def own_scatter(names: Sequence[str], *, squares: tuple[float, float]) -> Floats:
    """Variances of the batches' own scores, (d,), at squared factors of the chain to the jar and of the rest."""
    return np.array([shares_of(name)["batch"] * squares[0 if name in YIELD_NAMES else 1] for name in names])


def softened(told: Told, own: Floats) -> tuple[Floats, Floats]:
    """Precision and push of a message on the sum of its parts: the batch's own scatter (d,) integrated out."""
    inner = np.eye(len(own)) + told.precision * own
    precision = np.linalg.solve(inner, told.precision)
    return 0.5 * (precision + precision.T), np.asarray(np.linalg.solve(inner, told.push))


@dataclass(frozen=True, slots=True)
class _Stack:
    """All messages in arrays, with where each batch's scores stand among the unknowns."""

    layout: Layout
    precision: Floats
    """(n, d, d)"""
    push: Floats
    """(n, d)"""
    rows: list[Places]
    """By batch the scores, once for each of its groups ..."""
    here: list[Places]
    """... and the unknowns that they add to."""
    unnamed: Floats
    """(n, d): variances of parts that the batch has and nobody named."""

    @classmethod
    def of(cls, said: Sequence[Said], layout: Layout) -> _Stack:
        groups = [layout.groups(one.keys) for one in said]
        return cls(
            layout,
            np.stack([one.told.precision for one in said]),
            np.stack([one.told.push for one in said]),
            [np.concatenate([layout.scores[group] for group in mine]) for mine in groups],
            [np.concatenate([layout.places(group) for group in mine]) for mine in groups],
            np.stack([layout.unnamed(mine) for mine in groups]),
        )

    def joined(self, mean: Floats, covariance: Floats, *, squares: tuple[float, float]) -> tuple[Floats, Floats, float]:
        """Mean and covariance of all unknowns after the messages, and their log evidence."""
        own = own_scatter(self.layout.names, squares=squares) + self.unnamed
        inner = np.eye(own.shape[1]) + self.precision * own[:, None, :]
        both = np.linalg.solve(inner, np.concatenate([self.precision, self.push[..., None]], axis=2))
        precision, pushed = both[..., :-1], both[..., -1]
        evidence = 0.5 * float(np.sum(self.push * own * pushed)) - 0.5 * float(np.linalg.slogdet(inner)[1].sum())
        total, push = np.zeros((self.layout.size, self.layout.size)), np.zeros(self.layout.size)
        for one, (rows, here) in enumerate(zip(self.rows, self.here, strict=True)):
            push[here] += pushed[one, rows]
            total[here[:, None], here] += precision[one][rows[:, None], rows]
        missing = push - total @ mean
        whole = np.eye(self.layout.size) + covariance @ total
        spread = np.linalg.solve(whole, covariance)
        gained = spread @ missing
        evidence += float(push @ mean - 0.5 * mean @ total @ mean + 0.5 * missing @ gained)
        evidence -= 0.5 * float(np.linalg.slogdet(whole)[1])
        return mean + gained, 0.5 * (spread + spread.T), evidence
