"""`bluewright photo register`: a card out, and of each photo what became of it."""

import json

import pytest

from bluewright.cli.main import main
from bluewright.science.base.records import read
from bluewright.science.photo.card_record import RegisteredCard
from tests.photographed import Shot, jpeg_of

PLAIN = Shot(size_px=(750, 1000), number=5)


@pytest.fixture(scope="module")
def photos(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    folder = tmp_path_factory.mktemp("photos")
    for seed in (1, 2, 3):
        (folder / f"shade-{seed}.jpg").write_bytes(jpeg_of(PLAIN, seed=seed))
    (folder / "blank.jpg").write_bytes(b"")
    return [str(path) for path in sorted(folder.iterdir())]


def test_the_card_goes_out_and_the_rest_beside_it(photos: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["photo", "register", *photos, "--paper-lab", "95,0,3"]) == 0
    out, beside = capsys.readouterr()
    card = read(RegisteredCard, out)
    assert (card.number, card.paper_lab, card.paper_measured) == (5, (95.0, 0.0, 3.0), True)
    assert card.photos[0].name == "blank.jpg"
    assert "blank.jpg: It cannot be opened. The file is empty" in beside
    assert "Card 5 registered" in beside


def test_too_few_photos_give_no_card(photos: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["photo", "register", *photos[:3]]) == 2
    out, beside = capsys.readouterr()
    assert out == ""
    assert "at least 3 photos" in beside


@pytest.mark.parametrize("typed", [["--paper-lab", "95"], ["--paper-lab", "950,0,0"], ["--number", "x"]])
def test_what_is_typed_wrong_is_said(photos: list[str], typed: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["photo", "register", *photos, *typed]) == 2
    assert "--paper-lab is like" in capsys.readouterr().err


def test_a_file_that_is_not_there_ends_it(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["photo", "register", "nowhere.jpg"]) == 2
    assert "nowhere.jpg" in capsys.readouterr().err


def test_what_is_printed_is_json_alone(photos: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    main(["photo", "register", *photos])
    assert json.loads(capsys.readouterr().out)["layout"] == 1
