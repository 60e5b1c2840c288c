"""Answers as plain text. Expected texts are own hand."""

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.words.numbers import amount, measured
from bluewright.words.said import Rows, Said, text

HURTS = Caution(code="hot", text="It scalds.", source="common-practice")
KNOW = Caution(code="slow", text="It is slow.", source="common-practice")


def test_a_table_stands_between_blank_lines_with_its_columns_under_each_other() -> None:
    rows = Rows(caption="Moments", head=("when", "share"), rows=(("now", "94%"), ("Sunday", "96%")), advised=1)
    said = Said(parts=("Wait.", rows, "Look again."), cautions=())
    assert text(said).splitlines() == [
        "Wait.", "", "Moments:", "  when     share", "  now      94%", "  Sunday   96%  <- advised", "", "Look again.",
    ]  # fmt: skip


def test_no_blank_line_is_left_at_the_end() -> None:
    said = Said(parts=("Wait.", Rows(head=("a",), rows=(("b",),))), cautions=())
    assert text(said) == "Wait.\n\n  a\n  b"


def test_what_could_hurt_is_told_first_and_apart() -> None:
    said = Said(parts=("Wait.",), cautions=(KNOW, HURTS))
    assert text(said) == "Wait.\n\nTake care: It scalds.\nNote: It is slow."
    assert (said.first, said.take_care, said.to_know) == ("Wait.", ("It scalds.",), ("It is slow.",))


def test_measures_are_said_in_the_units_asked_for() -> None:
    """NIST SP 811: a US gallon is 3.785411784 L, an inch 25.4 mm, a pound 0.45359237 kg; 20 C are 68 °F."""
    assert measured(Band(p5=15.14, p50=18.93, p95=22.71), "volume_l", "us") == "5 gal (4 to 6)"
    assert measured(Band(p5=15.0, p50=18.93, p95=22.71), "volume_l", "metric") == "19 L (15 to 23)"
    assert measured(Band(p5=15.0, p50=20.0, p95=25.0), "temp_c", "us") == "68 °F (59 to 77)"
    assert measured(Band(p5=25.4, p50=50.8, p95=127.0), "length_mm", "us") == "2 in (1 to 5)"
    assert amount(0.90718474, "mass_kg", "us") == "2 lb"
    assert amount(2.4, "volume_l", "us") == "2.5 qt"
    assert amount(2.4, "volume_l", "metric") == "2.4 L"
