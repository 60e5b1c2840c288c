"""`bluewright photo measure`, as people type it."""

import json
import re
from pathlib import Path

import pytest

from bluewright.cli.main import main
from bluewright.science.base.records import dump, read
from bluewright.science.photo.record import PhotoRecord
from tests.science.photo.rendering import Faults, Shot, photograph
from tests.science.photo.test_rendered import CLOTH, SCENE, lab, np
from tests.science.photo.test_rendered import record as record_of

WHITE, SAMPLE = "48,0,816,48", "336,48,96,96"


@pytest.fixture
def photos(tmp_path: Path) -> list[str]:
    """Three photos of the invented ladder."""
    names = []
    for seed in range(3):
        rng = np.random.default_rng(seed)
        data = photograph(SCENE, Shot(exposure=0.7 + 0.05 * seed), faults=Faults(), rng=rng)
        names.append(str(tmp_path / f"cloth-{seed}.jpg"))
        Path(names[-1]).write_bytes(data)
    return names


def run(*words: str) -> int:
    try:
        return main(["photo", "measure", *words])
    except SystemExit as end:
        return int(end.code or 0)


def test_boxes_typed_give_the_colour_and_what_it_may_be_compared_with(
    photos: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    white = ",".join(f"{each:.2f}" for each in lab(SCENE.ground))
    assert run(photos[0], "--white", WHITE, f"--white-lab={white}", "--sample", SAMPLE) == 0
    out, err = capsys.readouterr()
    assert err == ""
    assert re.match(r"Very pale greenish blue, give or take \d\.\d\.\n", out), "the palest step"
    assert re.search(r"1: very pale greenish blue +L\s\d\d\.\d, a\s−\d\.\d, b\s−\d\.\d ", out)
    assert "Compare it with photos beside the same white" in out
    assert "CIELAB, D65, 2° observer" in out


def test_several_photos_are_one_answer(photos: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert run(*photos, "--json", "--white", WHITE, "--sample", SAMPLE) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["photos"] == 3
    assert "repeats" in found["reasons"]


def test_boxes_can_come_from_a_record_for_all_or_for_each(
    photos: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "boxes.json"
    path.write_text(json.dumps(dump(record_of())))
    assert run(*photos[:2], "--json", "--record", str(path)) == 0
    found = json.loads(capsys.readouterr().out)
    assert found["samples"][3]["lab"] == pytest.approx(CLOTH[3], abs=2.5)
    assert run(*photos, "--record", str(path), "--record", str(path)) == 2
    assert "there are 2 records for 3 photos" in capsys.readouterr().err
    assert run(*photos, "--record", str(path), "--sample", SAMPLE) == 2
    assert "boxes are typed too" in capsys.readouterr().err


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ([], "nothing is to be measured; give a box: --sample X,Y,W,H"),
        (["--sample", "1,2,3"], "sample 1: '1,2,3' is no box; write a box as X,Y,W,H"),
        (["--sample", SAMPLE, "--white", "a,b,c,d"], "white: 'a,b,c,d' is no box"),
        (["--sample", SAMPLE, "--white", WHITE, "--white-lab", "95"], "white_lab: '95' is no colour"),
        (["--sample", SAMPLE, "--neutral", WHITE], "neutral: '' is no colour"),
        (["--sample", "336,48,9600,96"], "samples[0]: the box leaves the picture"),
        (["--sample", SAMPLE, "--white", SAMPLE], "white: this box lies over samples[0]"),
    ],
)
def test_what_is_wrong_is_said_in_one_line(
    photos: list[str], words: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(photos[0], *words) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("bluewright photo measure: ")
    assert says in err
    assert err.count("\n") == 1


def test_the_example_is_a_record_that_is_read(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run("--example") == 0
    made = read(PhotoRecord, capsys.readouterr().out)
    assert made.white is not None and made.black is not None
    assert run("--sample", SAMPLE) == 2
    assert "name a photo" in capsys.readouterr().err


def test_what_is_no_photo_is_refused_by_its_name(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "notes.txt"
    path.write_text("Tub 3 was green today.")
    assert run(str(path), "--sample", SAMPLE) == 2
    assert "notes.txt: this is no photo" in capsys.readouterr().err
    assert run(str(tmp_path / "gone.jpg"), "--sample", SAMPLE) == 2
    assert "gone.jpg: No such file" in capsys.readouterr().err
