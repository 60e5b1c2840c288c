"""`bluewright photo measure --card`: the registered card found in a photo, and what lies in its window measured."""

import json
from pathlib import Path

import numpy as np
import pytest

from bluewright.cli.main import main
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.spaces import lab_of_linear
from tests.photographed import PAPER, SAMPLE, Shot, inks, jpeg_of

PLAIN = Shot(size_px=(750, 1000), number=5)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("photos")
    for seed in (1, 2, 3):
        (made / f"shade-{seed}.jpg").write_bytes(jpeg_of(PLAIN, seed=seed))
    faded = 0.5 * inks() + 0.5 * PAPER
    others = {
        "lit": Shot(size_px=(750, 1000), number=5, light=(1.0, 0.75, 0.5), turn_deg=25, filled=0.6, gradient=0.3),
        "other": Shot(size_px=(750, 1000), number=6),
        "none": Shot(size_px=(750, 1000), shift_px=(0.0, 3000.0)),
        "faded": Shot(
            size_px=(750, 1000), number=5, patches=np.where(np.ptp(inks(), axis=1)[:, None] > 0.06, faded, inks())
        ),
    }
    for name, shot in others.items():
        (made / f"{name}.jpg").write_bytes(jpeg_of(shot, seed=9))
    return made


@pytest.fixture(scope="module")
def card(folder: Path) -> Path:
    from contextlib import redirect_stdout
    from io import StringIO

    with redirect_stdout(StringIO()) as out:
        lightness, a, b = lab_of_linear(PAPER)
        photos = [str(folder / f"shade-{seed}.jpg") for seed in (1, 2, 3)]
        assert main(["photo", "register", *photos, "--paper-lab", f"{lightness},{a},{b}"]) == 0
    (folder / "card.json").write_text(out.getvalue())
    return folder / "card.json"


def test_the_window_s_sample_is_measured_in_any_light(
    folder: Path, card: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The truth is the invented sample's own linear light."""
    assert main(["photo", "measure", str(folder / "lit.jpg"), "--card", str(card), "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["trust"] == "same_card"
    assert ciede2000(np.array(found["samples"][0]["lab"]), lab_of_linear(SAMPLE)) < 1.5
    assert not {"card-drifted", "card-spot"} & {caution["code"] for caution in found["cautions"]}


def test_a_box_may_be_given_all_the_same(folder: Path, card: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert (
        main(["photo", "measure", str(folder / "lit.jpg"), "--card", str(card), "--sample", "330,430,90,90", "--json"])
        == 0
    )
    assert json.loads(capsys.readouterr().out)["inputs"]["samples"] == [
        {"x_px": 330, "y_px": 430, "w_px": 90, "h_px": 90}
    ]


@pytest.mark.parametrize(("photo", "says"), [("other", "shows card 6"), ("none", "no card is seen")])
def test_without_its_card_a_photo_is_refused(
    folder: Path, card: Path, photo: str, says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["photo", "measure", str(folder / f"{photo}.jpg"), "--card", str(card)]) == 2
    assert says in capsys.readouterr().err


def test_a_faded_card_is_said(folder: Path, card: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["photo", "measure", str(folder / "faded.jpg"), "--card", str(card)]) == 0
    assert "it has faded or is dirty" in capsys.readouterr().out


def test_what_is_no_card_is_refused(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "no.json").write_text("{}")
    assert main(["photo", "measure", str(folder / "lit.jpg"), "--card", str(folder / "no.json")]) == 2
    assert "missing" in capsys.readouterr().err
