"""The card on paper: drawn by the typesetter, looked at as a picture, and measured with a ruler of points."""

from datetime import date
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from bluewright.pictures.markers import card_in
from bluewright.science.photo.card import FRAME_MM, PATCHES
from bluewright.science.photo.homography import moved
from bluewright.web.pages.prints.card_sheet import SHEETS_MM, card_sheet
from bluewright.web.prints import typeset
from tests.web.prints.pdf import pages

PPI = 127.0
PX_PER_MM = PPI / 25.4


@pytest.mark.parametrize("paper", SHEETS_MM)
def test_on_paper_every_patch_has_its_place_in_millimetres_and_its_ink(paper: str) -> None:
    """ISO 216 and ANSI sheets, the frame in their middle; within a tenth of a millimetre, and a code of 255."""
    sheet = card_sheet(number=42, paper=paper, printed=date(2026, 3, 1), garden="Marl Bank")
    (drawn,) = typeset.typeset("card", sheet, to="png", ppi=PPI)
    picture = np.asarray(Image.open(BytesIO(drawn)).convert("RGB"))
    wide_mm, high_mm = SHEETS_MM[paper]
    assert picture.shape[:2] == pytest.approx((high_mm * PX_PER_MM, wide_mm * PX_PER_MM), abs=1)
    found = card_in(picture)
    assert found is not None
    assert found.number == 42
    centres_mm = np.array([patch.centre_mm() for patch in PATCHES])
    on_sheet_mm = moved(centres_mm, by=found.to_picture) / PX_PER_MM
    left_mm, top_mm = (wide_mm - FRAME_MM[0]) / 2, (high_mm - FRAME_MM[1]) / 2
    assert on_sheet_mm == pytest.approx(centres_mm + np.array([left_mm, top_mm]), abs=0.1)
    for patch, (x, y) in zip(PATCHES, on_sheet_mm * PX_PER_MM, strict=True):
        asked = [int(patch.ink[k : k + 2], 16) for k in (1, 3, 5)] if patch.ink else [255] * 3
        assert picture[int(y), int(x)] == pytest.approx(asked, abs=1), patch.name


@pytest.mark.parametrize("paper", SHEETS_MM)
def test_the_pdf_is_one_page_and_the_same_bytes_each_time(paper: str) -> None:
    sheet = card_sheet(number=1, paper=paper, printed=date(2026, 3, 1))
    assert pages(typeset.pdf("card", sheet)) == 1
    assert typeset.pdf("card", sheet) == typeset.pdf("card", sheet)
