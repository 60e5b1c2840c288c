"""Messages joined: against dense conditioning of normals, the rule of own yields, and simulated gardens."""

from datetime import datetime, timedelta

import numpy as np
import pytest

from bluewright.science.base.sourced import Floats
from bluewright.science.media.own_yield import own_yield
from bluewright.science.memory.calls import one_more
from bluewright.science.memory.model import SCATTER_PRIOR, Keys, Said, layout_of, learn, own_scatter, year_key
from bluewright.science.memory.shares import KEPT_NAME, PARTS, SCATTERS, shares_of
from bluewright.science.memory.told import Line, Told
from bluewright.science.steep.record import learnable

START = datetime.fromisoformat("2026-07-01T10:00+01:00")
NAMES = ("content_mmol_per_kg", "kill_25c_per_h", "limpness")


def saying(names: tuple[str, ...], precision: Floats, push: Floats) -> Told:
    line = Line(mean=0.0, slope=np.zeros(len(names)), variance=1.0)
    none = np.zeros(1)
    return Told(
        names=names, precision=precision, push=push, log_g_before=line, share_frac=none, three_days_frac=none
    )  # fmt: skip


def keys(number: int, *, bed: str = "south") -> Keys:
    return {
        "everywhere": "woad", "garden": "here", "plant": "woad", "bed": bed, "age": "woad/young",
        "season": "woad/about", "tub": "1", "reader": "", "year": year_key("here", 2026 + number // 2),
    }  # fmt: skip


def some(rng: np.random.Generator, n: int) -> list[Said]:
    found = []
    for number in range(n):
        root = rng.standard_normal((3, 3))
        precision = root @ root.T + 0.2 * np.eye(3)
        push = precision @ rng.standard_normal(3)
        where = keys(number, bed="south" if number % 2 else "long")
        found.append(Said(told=saying(NAMES, precision, push), keys=where, known=START + timedelta(days=number)))
    return found


def test_every_score_is_shared_out_wholly_and_its_batches_always_scatter() -> None:
    for name in (*learnable("woad"), *learnable("japanese_indigo"), KEPT_NAME):
        shares = shares_of(name)
        assert sum(shares.values()) == pytest.approx(1.0), name
        assert shares["batch"] >= 0.1 and set(shares) <= set(PARTS), name


def test_belief_is_that_of_dense_conditioning() -> None:
    """All scores of all batches and the next in one big normal, conditioned on places with the messages' noise."""
    said = some(np.random.default_rng(3), 5)
    next_keys = keys(4, bed="south")
    belief = learn(said, layout=layout_of(NAMES, [one.keys for one in said]))
    every = [*(one.keys for one in said), next_keys]
    own = own_scatter(NAMES, squares=belief.squares)
    size = 3 * len(every)
    covariance = np.zeros((size, size))
    for i, mine in enumerate(every):
        for j, other in enumerate(every):
            for k, name in enumerate(NAMES):
                alike = 0.0
                for part, share in shares_of(name).items():
                    if part == "year":
                        apart = abs(int(mine[part][-4:]) - int(other[part][-4:]))
                        alike += share * np.exp(-apart / 4.0)
                    elif part != "batch" and mine.get(part) == other.get(part):
                        alike += share
                covariance[3 * i + k, 3 * j + k] = alike + (own[k] if i == j else 0.0)
    seen = 3 * len(said)
    noise = np.zeros((seen, seen))
    places = np.zeros(seen)
    for i, one in enumerate(said):
        noise[3 * i : 3 * i + 3, 3 * i : 3 * i + 3] = np.linalg.inv(one.told.precision)
        places[3 * i : 3 * i + 3] = np.linalg.solve(one.told.precision, one.told.push)
    gain = covariance[seen:, :seen] @ np.linalg.inv(covariance[:seen, :seen] + noise)
    mean, spread = belief.of(next_keys)
    assert mean == pytest.approx(gain @ places, abs=1e-9)
    assert spread == pytest.approx(covariance[seen:, seen:] - gain @ covariance[:seen, seen:], abs=1e-9)


def test_one_part_alone_is_the_rule_of_own_yields() -> None:
    """The plan's and beds' rule (`media.own_yield`) and the memory are one rule, where both apply."""
    names, own_log, seen_sd = ("finish_frac",), (0.4, 1.3, -0.2, 0.9), 0.3
    where: Keys = {"garden": "here"}
    said = [
        Said(told=saying(names, np.eye(1) / seen_sd**2, np.array([y]) / seen_sd**2), keys=where, known=START)
        for y in own_log
    ]
    belief = learn(said, layout=layout_of(names, [where]))
    shares = shares_of("finish_frac")
    batch = float(own_scatter(names, squares=belief.squares)[0]) + shares["everywhere"] + shares["year"]
    rule = own_yield(
        prior_mean_log=0.0,
        prior_sd=np.sqrt(shares["garden"]),
        own_log=own_log,
        batch_sd=np.hypot(np.sqrt(batch), seen_sd),
    )
    assert belief.mean[0] == pytest.approx(rule.mean_log)
    assert np.sqrt(belief.covariance[0, 0]) == pytest.approx(rule.garden_sd)


def test_order_does_not_matter_and_one_after_another_is_all_at_once() -> None:
    said = some(np.random.default_rng(4), 6)
    layout = layout_of(NAMES, [one.keys for one in said])
    belief, other = learn(said, layout=layout), learn(said[::-1], layout=layout)
    assert belief.mean == pytest.approx(other.mean)
    step = learn((), layout=layout)
    own = own_scatter(NAMES, squares=belief.squares)
    for one in said:
        step = one_more(step, one, own)
    assert step.mean == pytest.approx(belief.mean, abs=1e-9)
    assert step.covariance == pytest.approx(belief.covariance, abs=1e-9)


def test_a_new_bed_is_as_unsure_as_a_bed_can_be() -> None:
    said = some(np.random.default_rng(5), 12)
    belief = learn(said, layout=layout_of(NAMES, [one.keys for one in said]))
    known, new = belief.of(keys(3))[1], belief.of(keys(3) | {"bed": "never picked"})[1]
    assert new[0, 0] > known[0, 0]
    assert new[1, 1] == pytest.approx(known[1, 1])  # the speed of a tub hangs on no bed


SIMULATED = 300


def truth_and_belief(rng: np.random.Generator, *, blind: bool = False) -> tuple[float, float]:
    """A garden from the model itself with a scatter of its own; how far its next batch lies from belief, in spreads.

    `blind` belief forgets that batches scatter.
    """
    names = ("finish_frac",)
    shares = shares_of("finish_frac")
    factor = float(rng.choice(SCATTERS, p=SCATTER_PRIOR / SCATTER_PRIOR.sum()))
    common = rng.normal(0, np.sqrt(1 - shares["batch"]))
    truths = common + factor * np.sqrt(shares["batch"]) * rng.standard_normal(13)
    where: Keys = {"everywhere": "woad", "garden": "here", "year": year_key("here", 2026)}
    said = [
        Said(told=saying(names, np.eye(1) / 0.04, np.array([t + rng.normal(0, 0.2)]) / 0.04), keys=where, known=START)
        for t in truths[:-1]
    ]
    belief = learn(said, layout=layout_of(names, [where]))
    mean, covariance = belief.of(where, with_batch=not blind)
    return float(truths[-1] - mean[0]), float(np.sqrt(covariance[0, 0]))


def test_bands_of_simulated_gardens_hold_as_often_as_named() -> None:
    """Within three Monte-Carlo errors; ranks uniform by chi-square of ten bins (23.6: once in two hundred)."""
    rng = np.random.default_rng(2026)
    z = np.array([off / sd for off, sd in (truth_and_belief(rng) for _ in range(SIMULATED))])
    for named, half in ((0.5, 0.6745), (0.9, 1.6449)):
        assert np.mean(np.abs(z) <= half) == pytest.approx(named, abs=3 * np.sqrt(named * (1 - named) / SIMULATED))
    edges = [-99, -1.2816, -0.8416, -0.5244, -0.2533, 0, 0.2533, 0.5244, 0.8416, 1.2816, 99]
    counts = np.histogram(z, bins=edges)[0]
    assert ((counts - SIMULATED / 10) ** 2 / (SIMULATED / 10)).sum() < 23.6


def test_the_check_would_see_a_memory_that_forgets_the_batches_own_scatter() -> None:
    rng = np.random.default_rng(7)
    z = np.array([off / sd for off, sd in (truth_and_belief(rng, blind=True) for _ in range(60))])
    assert np.mean(np.abs(z) <= 1.6449) < 0.7
