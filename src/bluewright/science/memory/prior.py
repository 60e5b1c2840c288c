"""What is believed of a garden before its batches: the priors of the model of parts, with what other gardens taught."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.memory.model import Layout, prior_covariance
from bluewright.science.memory.pool_record import Message, Prepared, matrix
from bluewright.science.memory.shares import shares_of


def prepared_prior(layout: Layout, prepared: Prepared | None) -> tuple[Floats, Floats]:
    """Mean and covariance of all unknowns of a garden before its batches, with what a pool has taught."""
    mean, covariance = np.zeros(layout.size), prior_covariance(layout)
    for message in prepared.beliefs if prepared is not None else ():
        group = ("everywhere", message.plant)
        if group not in layout.start:
            continue
        rows, here = layout.scores[group], layout.places(group)
        names = [layout.names[k] for k in rows]
        both = [name for name in message.names if name in names]
        inside = [message.names.index(name) for name in both]
        there = here[[names.index(name) for name in both]]
        # Of names unknown here nothing is believed but their prior: they are integrated out first.
        precision, push = _among(message, inside)
        first = covariance[np.ix_(there, there)]
        spread = np.linalg.inv(np.linalg.inv(first) + precision)
        mean[there] = spread @ push
        covariance[np.ix_(there, there)] = spread
    return mean, covariance


def _among(message: Message, inside: Sequence[int]) -> tuple[Floats, Floats]:
    """A message among some of its names, the others integrated over their prior."""
    precision, push = matrix(message), np.array(message.push)
    gone = [k for k in range(len(message.names)) if k not in set(inside)]
    first = np.array([1 / shares_of(message.names[k]).get("everywhere", 1e-9) for k in gone])
    inner = precision[np.ix_(gone, gone)] + np.diag(first)
    across = np.linalg.solve(inner, precision[np.ix_(gone, inside)])
    return precision[np.ix_(inside, inside)] - precision[np.ix_(inside, gone)] @ across, push[inside] - across.T @ push[
        gone
    ]
