"""`/growing/<bed>/look/`: plants counted, leaves scored, a season begun."""

import pytest
from django.test import Client

from bluewright.journal.models import Bed, BedLook, Garden
from tests import cast
from tests.web.checks import no_rows, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def where(bed: Bed) -> str:
    return url("growing.look", key=bed.pk)


def today() -> str:
    return cast.a_day().isoformat()


def test_it_is_written_down_with_what_was_typed(client: Client, bed: Bed) -> None:
    """A square foot is 0.09290304 m2 by definition."""
    typed = {
        "counts": "14 22; 0 31", "frame": "4 sq ft", "bolting": "3", "spotted": "0 0.5 20", "eaten": "1",
        "cause": "slugs", "day": today(),
    }  # fmt: skip
    response = client.post(where(bed), typed)
    assert (response.status_code, response["Location"]) == (302, url("growing.show", key=bed.pk))
    row = BedLook.objects.get(bed=bed, began="")
    assert row.frame_m2 == pytest.approx(0.37161216)
    assert (row.counts, row.bolting, row.frame_typed) == ("14 22 0 31", 3, "4 sq ft")
    assert (row.spotted, row.eaten, row.cause) == ("0 0.5 20", "1", "slugs")
    assert row.made_by is not None


def test_the_beginning_of_a_season_is_enough_and_counts(client: Client, garden: Garden) -> None:
    garden.latitude_deg = 51.0
    garden.save()
    bed = cast.a_bed(garden)
    client.post(where(bed), {"began": "planted", "day": cast.a_day(30).isoformat()})
    page = client.get(url("growing.show", key=bed.pk)).context["page"]
    assert page.answer is not None
    assert page.looks[0].said == "It was planted out"


def test_a_sowing_to_come_is_written_down_and_said_to_be_so(client: Client, bed: Bed) -> None:
    typed = {"began": "sown", "day": cast.a_day(-30).isoformat()}
    client.post(url("growing.look", key=bed.pk), typed)
    assert BedLook.objects.filter(bed=bed, day=cast.a_day(-30), began="sown").exists()
    rows = client.get(url("growing.show", key=bed.pk)).context["page"].looks
    assert any(row.said.startswith("Still to come: ") for row in rows)


def test_the_same_form_sent_twice_is_one_look(client: Client, bed: Bed) -> None:
    html = client.get(url("growing.show", key=bed.pk)).content.decode()
    once = html.split('name="once" value="')[1].split('"')[0]
    before = BedLook.objects.count()
    for _ in range(2):
        client.post(where(bed), {"spotted": "0 5", "day": today(), "once": once})
    assert BedLook.objects.count() == before + 1


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({}, "__all__", "Say what was counted"),
        ({"counts": "3 4"}, "frame", "How large was the frame?"),
        ({"counts": "3 four", "frame": "0.25 m2"}, "counts", "numbers with spaces"),
        ({"counts": "3 4.5", "frame": "0.25 m2"}, "counts", "whole numbers"),
        ({"counts": "3 -4", "frame": "0.25 m2"}, "counts", "from 0 to"),
        ({"counts": "1 1", "frame": "0.25 m2", "bolting": "3"}, "bolting", "more than were counted"),
        ({"spotted": "0 120"}, "spotted", "from 0 to 100"),
        ({"spotted": "1 " * 400}, "spotted", "At most 300"),
        ({"eaten": "5", "day": "2999-01-01"}, "day", "still to come"),
        ({"began": "sown", "eaten": "5", "day": cast.a_day(-30).isoformat()}, "day", "still to come"),
        ({"began": "sown", "day": "2999-01-01"}, "day", "more than a year"),
        ({"eaten": "5", "cause": "elves"}, "cause", "elves"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, bed: Bed, typed: dict[str, str], field: str, says: str) -> None:
    unchanged = no_rows(BedLook)
    response = client.post(where(bed), {"day": today()} | typed)
    assert response.status_code == 422
    form = response.context["form"]
    assert says in " ".join(form.errors[field])
    for name, text in typed.items():
        assert form[name].value() == text
    assert response.context["page"].answer is not None, "the forecast stays beside it"
    unchanged()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange = cast.a_bed(other_garden)
    posts_only_to_what_is_there(client, "growing.look", other_garden=other_garden, key=strange.pk)


def test_a_beginning_after_cabbages_is_warned_of(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden)
    cast.a_year(bed, years_ago=1)
    typed = {"began": "sown", "day": cast.a_day(1).isoformat()}
    early = "It came 3 years too early after the cabbage family"
    assert early in client.post(where(bed), typed, follow=True).content.decode()
    assert early not in client.post(where(bed), typed | {"began": "overwintered"}, follow=True).content.decode()


def test_lengths_are_kept_in_millimetres_and_as_typed(client: Client, bed: Bed) -> None:
    """An inch is 25.4 mm by definition; bare numbers are centimetres, in a US garden inches."""
    for typed, mm, kept in (("12 9,5 14", "120 95 140", "12 9,5 14 cm"), ("4 1 in", "101.6 25.4", "4 1 in")):
        client.post(where(bed), {"longest": typed, "day": today()})
        row = BedLook.objects.exclude(longest_mm="").latest("made_at")
        assert (row.longest_mm, row.longest_typed) == (mm, kept)
    bed.garden.system = "us"
    bed.garden.save()
    client.post(where(bed), {"longest": "4", "day": today()})
    assert BedLook.objects.exclude(longest_mm="").latest("made_at").longest_mm == "101.6"


@pytest.mark.parametrize(
    ("typed", "says"), [("600 cm", "5 m long"), ("12 cm 14", "numbers with spaces"), ("1 " * 101, "At most 100")]
)
def test_lengths_that_cannot_be_keep_the_typing(client: Client, bed: Bed, typed: str, says: str) -> None:
    response = client.post(where(bed), {"longest": typed, "day": today()})
    assert response.status_code == 422
    assert says in " ".join(response.context["form"].errors["longest"])


def test_marked_plants_are_learned_from(client: Client, bed: Bed) -> None:
    before = client.get(url("growing.show", key=bed.pk)).context["page"]
    client.post(where(bed), {"longest": "12 14 9 11 13 10 12 11 12 9 cm", "day": today()})
    page = client.get(url("growing.show", key=bed.pk)).context["page"]
    assert page.looks[0].said == "Longest leaves: 12 14 9 11 13 10 12 11 12 9 cm"
    assert "Marked plants were measured on 1 day." in " ".join(page.answer.lines)
    assert page.answer.first != before.answer.first
