"""Sharing and pooling: nothing personal goes, precisions add up, and a new garden begins wiser."""

import json
from importlib import resources

import numpy as np
import pytest

from bluewright.cli.main import main
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from bluewright.science.memory.garden import Learned
from bluewright.science.memory.model import Keys, Said, layout_of, learn
from bluewright.science.memory.pool import message_of, pool, share
from bluewright.science.memory.pool_record import PoolRecord, SharedGarden, matrix
from bluewright.science.memory.prior import prepared_prior
from tests.science.memory.test_model import NAMES, START, saying

EXAMPLE = resources.files("bluewright").joinpath("examples", "learned.json").read_text("utf-8")


@pytest.fixture(scope="module")
def shared(made: Learned) -> SharedGarden:
    return share(made)


def test_nothing_that_names_a_garden_a_place_or_a_day_is_given_away(shared: SharedGarden) -> None:
    text = json.dumps(dump(shared))
    plain = json.loads(EXAMPLE)
    words = {plain["id"], *(b[key] for b in plain["batches"] for key in ("bed", "tub")), "2026-", "spilt"}
    assert not [word for word in words if word in text]
    assert read(SharedGarden, text) == shared, "what is read back is what was shown"
    assert len(shared.batches) == 4, "a batch left out is not given away either"


def test_two_gardens_pooled_are_one_model_of_two_gardens() -> None:
    """Each garden's message on the common part, added up, is what all batches at once say of it."""
    rng = np.random.default_rng(8)

    def batches(garden: str) -> list[Said]:
        where: Keys = {"everywhere": "woad", "plant": f"woad {garden}", "reader": garden}
        return [
            Said(told=saying(NAMES, 0.3 * np.eye(3), 0.3 * rng.standard_normal(3)), keys=where, known=START)
            for _ in range(4)
        ]

    both = [batches("one"), batches("two")]
    every = [*both[0], *both[1]]
    at_once = learn(every, layout=layout_of(NAMES, [said.keys for said in every]))
    messages = []
    for said in both:
        layout = layout_of(NAMES, [one.keys for one in said])
        messages.append(message_of(learn(said, layout=layout), prior=prepared_prior(layout, None))[0])
    found = pool(PoolRecord(gardens=tuple(SharedGarden(messages=(one,)) for one in messages)))
    layout = layout_of(NAMES, [both[0][0].keys])
    mean, covariance = prepared_prior(layout, found.prior)
    here, there = layout.places(("everywhere", "woad")), at_once.layout.places(("everywhere", "woad"))
    assert mean[here] == pytest.approx(at_once.mean[there], abs=0.02)
    assert np.diag(covariance)[here] == pytest.approx(np.diag(at_once.covariance)[there], rel=0.02)


def test_a_new_garden_begins_wiser_and_is_still_its_own(shared: SharedGarden) -> None:
    found = pool(PoolRecord(gardens=(shared, shared, shared)))
    leaf = next(one for one in found.common if one.name == "content_mmol_per_kg")
    assert leaf.now.p50 < leaf.before.p50 and 0.2 < leaf.told_frac < 1
    assert leaf.now.p95 / leaf.now.p5 > 0.5 * leaf.before.p95 / leaf.before.p5, "gardens differ as before"
    assert {caution.code for caution in found.cautions} == {"same-garden"}
    thrice = np.array([matrix(m) for m in found.prior.beliefs])
    assert thrice == pytest.approx(3 * np.array([matrix(m) for m in shared.messages]), rel=1e-3, abs=1e-3)


@pytest.mark.parametrize(
    ("names", "push", "precision", "where"),
    [
        (["beauty"], [1.0], [[2.0]], "names"),
        (["water_ph"], [1.0], [[2.0]], "names"),
        (["kill_q10", "kill_q10"], [1.0, 1.0], [[2.0], [0.0, 2.0]], "names"),
        (["kill_q10"], [1.0], [[-50.0]], "precision"),
        (["kill_q10", "half_mmol_per_l"], [1.0, 1.0], [[1.0], [1e9, 1.0]], "precision"),
        (["kill_q10"], [1e9], [[0.0]], "precision"),
        (["kill_q10"], [1.0, 2.0], [[1.0]], "precision"),
    ],
)
def test_a_file_that_no_garden_can_have_written_is_refused_in_words(names, push, precision, where) -> None:
    """It comes from strangers: a name not known here or not shared, doubt that grows, a place beyond all gardens."""
    told = {"plant": "woad", "names": names, "push": push, "precision": precision}
    with pytest.raises(InputError, match=where):
        read(PoolRecord, {"gardens": [{"messages": [told]}]})


def test_the_commands_share_pool_and_learn_with_the_pool(tmp_path, capsys: pytest.CaptureFixture[str]) -> None:
    record, given, prior = tmp_path / "garden.json", tmp_path / "given.json", tmp_path / "prior.json"
    plain = json.loads(EXAMPLE)
    record.write_text(json.dumps(plain | {"batches": plain["batches"][:1]}))
    assert main(["share", str(record)]) == 0
    given.write_text(capsys.readouterr().out)
    assert main(["pool", str(given), "--prior", str(prior)]) == 0
    assert "1 garden with 1 batches" in capsys.readouterr().out
    assert main(["learned", str(record), "--prior", str(prior)]) == 0
    assert "count twice" in capsys.readouterr().out
    assert main(["learned", str(record), "--prior", str(given)]) == 2
    assert "given.json" in capsys.readouterr().err
    assert main(["pool", str(tmp_path / "none.json")]) == 2
    assert "none.json" in capsys.readouterr().err
