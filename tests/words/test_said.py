"""Answers as plain text. Expected texts are own hand."""

from bluewright.science.base.cautions import Caution
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
