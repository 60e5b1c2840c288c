"""Pictures of signs and tubs: what each holds, and what it refuses. Expected geometry is own hand."""

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import pairwise
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.charts import pen
from bluewright.charts.signs_at_vat import VAT_SIGNS, vat_sign_drawing
from bluewright.charts.signs_at_work import WORK_SIGNS, work_sign_drawing
from bluewright.charts.signs_drawn import SIDE, sign_drawing
from bluewright.charts.tub_contents import TubStage
from bluewright.charts.tub_drawn import SHOWN, TubLook, tub_drawing
from bluewright.charts.vat_drawn import VatLook, vat_drawing
from bluewright.science.base.errors import InputError
from bluewright.science.base.levels import LEVELS
from bluewright.science.steep.signs import SIGNS, SignName
from bluewright.words.signs import WorkSign, levels_said
from tests.charts.samples import HOSTILE

SVG = "{http://www.w3.org/2000/svg}"
SEEN = TubLook(
    short_name="Tub 3", fill_frac=0.8, darkness=2, blue_cast=1, limpness=2, scum=1, bubbles=1, covered=True
)  # fmt: skip
PICTURES = {f"{sign} {level}": sign_drawing(sign, level) for sign in SIGNS for level in range(LEVELS)}
TUBS = {
    "seen": tub_drawing(SEEN),
    "unseen": tub_drawing(TubLook(short_name="8", fill_frac=0.5)),
    "empty": tub_drawing(replace(SEEN, fill_frac=0.0)),
    **{stage: tub_drawing(replace(SEEN, stage=stage)) for stage in get_args(TubStage)},
}
WORK = {f"{sign} {level}": work_sign_drawing(sign, level) for sign in sorted(WORK_SIGNS) for level in range(LEVELS)}
VAT = {f"{sign} {level}": vat_sign_drawing(sign, level) for sign in VAT_SIGNS for level in range(LEVELS)}
VATS = {
    "unseen": vat_drawing(VatLook(short_name="Vat 1")),
    "ended": vat_drawing(VatLook(short_name="Vat 1", empty=True)),
    **{
        f"{level}": vat_drawing(
            VatLook(short_name="Vat 1", liquor_look=level, film=level, grains_seen=3 - level, covered=level == 0)
        )
        for level in range(LEVELS)
    },
}
ALL = {
    **PICTURES, **TUBS, **WORK, **VAT, **{f"vat {name}": drawing for name, drawing in VATS.items()},
}  # fmt: skip


def title(drawing: str) -> str:
    return ET.fromstring(drawing)[0].text or ""


def without_colour(drawing: str) -> str:
    """What is left for an eye that sees no colour at all, not even light and dark; and no title either."""
    return re.sub(r"<title>.*?</title>| (fill|stroke|fill-opacity|stroke-opacity)=\"[^\"]*\"", "", drawing)


@pytest.mark.parametrize("drawing", ALL.values(), ids=ALL)
def test_a_picture_is_well_formed_scales_and_names_itself(drawing: str) -> None:
    root = ET.fromstring(drawing)
    assert root.tag == f"{SVG}svg"
    assert root.get("role") == "img"
    assert root.get("width") is None, "it takes the width of its place"
    assert root[0].tag == f"{SVG}title"
    assert title(drawing)
    assert re.findall(r"https?://[^\"]*", drawing) == ["http://www.w3.org/2000/svg"]


@pytest.mark.parametrize("drawing", ALL.values(), ids=ALL)
def test_any_number_of_pictures_can_stand_on_one_page(drawing: str) -> None:
    """Presentation attributes only: no class, style, script, link, and no id that could clash."""
    assert not re.search(r"<(style|script|image|use|a)\b|\b(class|style|href|id)=|url\(", drawing)


@pytest.mark.parametrize("drawing", ALL.values(), ids=ALL)
def test_nothing_is_cut_off_at_the_edge(drawing: str) -> None:
    """Every corner, handle of a curve and circle lies on the sheet, half the weight of its line included."""
    root = ET.fromstring(drawing)
    _, _, wide, high = (float(v) for v in root.get("viewBox", "").split())
    for part in root.iter():
        half = float(part.get("stroke-width", "0")) / 2
        for x, y in reach(part):
            assert half <= x <= wide - half, (part.tag, part.attrib, x)
            assert half <= y <= high - half, (part.tag, part.attrib, y)


def reach(part: ET.Element) -> list[tuple[float, float]]:
    def read(*names: str) -> list[float]:
        return [float(part.get(name, "nan")) for name in names]

    match part.tag.removeprefix(SVG):
        case "path":
            numbers = [float(n) for n in re.findall(r"-?\d+\.?\d*", part.get("d", ""))]
            return list(zip(numbers[::2], numbers[1::2], strict=True))
        case "line":
            x1, y1, x2, y2 = read("x1", "y1", "x2", "y2")
            return [(x1, y1), (x2, y2)]
        case "circle":
            x, y, r = read("cx", "cy", "r")
            return [(x - r, y - r), (x + r, y + r)]
        case "ellipse":
            x, y, across, up = read("cx", "cy", "rx", "ry")
            return [(x - across, y - up), (x + across, y + up)]
    return []


@pytest.mark.parametrize("sign", SIGNS)
def test_the_title_says_the_sign_and_its_level_in_words(sign: SignName) -> None:
    for level, said in enumerate(SIGNS[sign].levels):
        assert title(sign_drawing(sign, level)).endswith(f": {said}")
    assert title(sign_drawing("blue_cast", 3)) == "blue cast: strong, like a gemstone"
    assert title(sign_drawing("alkali_green", 0)) == "green with alkali: stays brown"


@pytest.mark.parametrize("sign", SIGNS)
def test_the_four_levels_differ_by_more_than_colour(sign: SignName) -> None:
    assert len({without_colour(sign_drawing(sign, level)) for level in range(LEVELS)}) == LEVELS


@pytest.mark.parametrize("sign", sorted(WORK_SIGNS))
def test_a_sign_of_the_work_says_its_level_and_shows_it_without_colour(sign: WorkSign) -> None:
    for level, said in enumerate(levels_said(sign)):
        assert title(work_sign_drawing(sign, level)).endswith(f": {said}")
    assert len({without_colour(work_sign_drawing(sign, level)) for level in range(LEVELS)}) == LEVELS


def test_a_sign_of_the_work_that_does_not_exist_is_refused() -> None:
    with pytest.raises(InputError, match="one of foam, liquor, blue_in_decant"):
        work_sign_drawing("taste", 1)  # type: ignore[arg-type]
    with pytest.raises(InputError, match="0, 1, 2 or 3"):
        work_sign_drawing("foam", 4)


def test_bubbles_grow_in_number() -> None:
    counts = [sign_drawing("bubbles", level).count("<circle") for level in range(LEVELS)]
    assert counts[0] == 0
    assert all(after > before + 2 for before, after in pairwise(counts))


def test_the_hatching_of_a_darker_jar_is_closer() -> None:
    lines = [sign_drawing("darkness", level).count("M") for level in range(LEVELS)]
    assert all(after > before for before, after in pairwise(lines))


@pytest.mark.parametrize("level", [-1, 4, True, 1.0, "2", None])
def test_a_level_that_does_not_exist_is_refused(level: object) -> None:
    with pytest.raises(InputError, match="0, 1, 2 or 3") as caught:
        sign_drawing("scum", level)  # type: ignore[arg-type]
    assert caught.value.where == "level"


def test_a_sign_that_does_not_exist_is_refused() -> None:
    with pytest.raises(InputError, match="one of bubbles, scum"):
        sign_drawing("taste", 1)  # type: ignore[arg-type]


def test_the_title_of_a_tub_says_all_that_is_drawn() -> None:
    assert title(TUBS["seen"]) == (
        "Tub 3: 80% full; leaf under water; covered; limpness: limp, olive; darkness: tea; "
        "blue cast: a hint at the edge; scum: a thin shimmer; bubbles: a few at the rim"
    )
    assert title(TUBS["unseen"]) == (
        "8: 50% full; leaf under water; open; not looked at: limpness, darkness, blue cast, scum, bubbles"
    )
    assert title(TUBS["empty"]) == "Tub 3: empty; covered"
    assert title(TUBS["aired"]) == ("Tub 3: 80% full; aired; covered; scum: a thin shimmer; bubbles: a few at the rim")


@pytest.mark.parametrize("name", SHOWN)
def test_a_tub_looks_different_at_each_level_of_each_sign(name: SignName) -> None:
    """Without colour too; and a sign that was not looked at is not drawn like one that is absent, but for bubbles:
    none seen and none looked for leave the same still liquor.
    """
    drawn = {level: tub_drawing(replace(SEEN, covered=False, **{name: level})) for level in (None, 0, 1, 2, 3)}
    assert len({without_colour(drawn[level]) for level in range(LEVELS)}) == LEVELS
    pictures = {re.sub(r"<title>.*?</title>", "", drawing) for drawing in drawn.values()}
    assert len(pictures) == (LEVELS if name in {"bubbles", "blue_cast"} else LEVELS + 1)


def test_the_stages_differ_by_more_than_colour() -> None:
    looks = [tub_drawing(replace(SEEN, stage=stage, darkness=None)) for stage in get_args(TubStage)]
    assert len({without_colour(look) for look in looks}) == len(looks)


def test_an_empty_tub_holds_nothing() -> None:
    assert TUBS["empty"].count("<path") < TUBS["seen"].count("<path") / 3


@given(
    fill_frac=st.floats(0, 1),
    stage=st.sampled_from(get_args(TubStage)),
    levels=st.tuples(*[st.none() | st.integers(0, 3)] * 5),
    covered=st.booleans(),
    short_name=st.text(min_size=1).filter(str.strip),
)
def test_any_tub_can_be_drawn(
    fill_frac: float, stage: TubStage, levels: tuple[int | None, ...], covered: bool, short_name: str
) -> None:
    signs = dict(zip(SHOWN, levels, strict=True))
    look = TubLook(short_name=short_name, fill_frac=fill_frac, stage=stage, covered=covered, **signs)
    test_nothing_is_cut_off_at_the_edge(tub_drawing(look))


def test_hostile_names_are_escaped() -> None:
    drawing = tub_drawing(replace(SEEN, short_name=HOSTILE))
    assert "<script" not in drawing
    assert title(drawing).startswith('<script>alert("1")</script> &')


def test_tubs_of_one_look_differ_by_their_names_alone() -> None:
    one, other = (tub_drawing(replace(SEEN, short_name=name)) for name in ("Oak", "Tin"))
    assert one != other
    assert one.replace("Oak", "Tin") == other


def test_a_long_name_is_drawn_as_far_as_there_is_room_and_said_whole() -> None:
    drawing = tub_drawing(replace(SEEN, short_name="The old copper by the well"))
    (text,) = ET.fromstring(drawing).iter(f"{SVG}text")
    assert re.fullmatch(r"The old.*…", text.text or "")
    assert title(drawing).startswith("The old copper by the well: ")


@pytest.mark.parametrize(
    ("changed", "where"),
    [
        ({"short_name": "  "}, "short_name"),
        ({"fill_frac": 1.01}, "fill_frac"),
        ({"fill_frac": -0.01}, "fill_frac"),
        ({"fill_frac": math.nan}, "fill_frac"),
        ({"stage": "forgotten"}, "stage"),
        ({"scum": 4}, "scum"),
        ({"limpness": True}, "limpness"),
    ],
)
def test_a_tub_that_cannot_be_is_refused(changed: dict[str, object], where: str) -> None:
    with pytest.raises(InputError) as caught:
        replace(SEEN, **changed)  # type: ignore[arg-type]
    assert caught.value.where == where


def test_hatching_stays_inside_its_outline() -> None:
    """Own hand: level lines 3 apart in a 10 by 10 square stand at 3, 6 and 9, as long as the square is wide."""
    drawn = pen.hatching([(0, 0), (10, 0), (10, 10), (0, 10)], gap=3, angle_deg=0, stroke="#000")
    assert re.findall(r"M([\d. ]+)L([\d. ]+)", drawn) == [
        ("0 0", "10 0"),
        ("0 3", "10 3"),
        ("0 6", "10 6"),
        ("0 9", "10 9"),
    ]


def test_a_smooth_line_passes_through_its_points() -> None:
    points = [(0.0, 0.0), (10.0, 5.0), (20.0, 0.0)]
    assert set(points) <= set(pen.sampled(points))


def test_the_square_of_a_sign_is_as_documented() -> None:
    assert ET.fromstring(PICTURES["scum 1"]).get("viewBox") == f"0 0 {SIDE:g} {SIDE:g}" == "0 0 96 96"
    assert ET.fromstring(TUBS["seen"]).get("viewBox") == "0 0 240 180"


def test_a_tub_with_hardly_anything_in_it_is_not_called_empty_or_0_percent() -> None:
    assert title(tub_drawing(replace(SEEN, fill_frac=0.002))).startswith("Tub 3: under 1% full;")
