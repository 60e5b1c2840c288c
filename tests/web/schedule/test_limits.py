"""`/plan/schedule/limits/`: tubs, hours, room to dry."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Limits
from tests import cast
from tests.web.checks import only, refused, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/plan/schedule/limits/"


def typed(**other: str) -> dict[str, str]:
    plain = {"last_day": cast.a_day(-100).isoformat(), "size_1": "60 L", "count_1": "2", "free_5": "6"}
    return plain | other


def test_they_are_written_down_as_typed(client: Client, garden: Garden) -> None:
    assert client.post(WHERE, typed(size_2="15 gal", count_2="1", places="3"))["Location"] == "/plan/schedule/"
    row = Limits.objects.get(garden=garden)
    assert [(one["typed"], one["count"]) for one in row.tubs] == [("60 L", 2), ("15 gal", 1)]
    assert row.tubs[1]["volume_l"] == pytest.approx(15 * 3.785411784)  # a US gallon (NIST SP 811)
    assert row.free_h == [0, 0, 0, 0, 0, 6, 0]
    assert row.places == 3


def test_what_is_there_is_corrected_and_not_doubled(client: Client, garden: Garden) -> None:
    cast.some_limits(garden)
    assert client.get(WHERE).context["form"]["size_1"].value() == "60 L"
    client.post(WHERE, typed(count_1="5"))
    assert Limits.objects.get(garden=garden).tubs[0]["count"] == 5


@pytest.mark.parametrize(
    ("other", "field", "says"),
    [
        ({"count_1": ""}, "count_1", "required"),
        ({"size_2": "30 L"}, "count_2", "How many are there?"),
        ({"size_2": "60 L", "count_2": "1"}, "size_2", "stands there twice"),
        ({"free_5": "0"}, "free_0", "Some day of the week must have hours."),
        ({"last_day": "2001-01-01"}, "last_day", "Give a day to come, within a year."),
        ({"size_1": "a lot"}, "size_1", "a lot"),
    ],
)
def test_a_mistake_keeps_the_typing(
    client: Client, garden: Garden, other: dict[str, str], field: str, says: str
) -> None:
    refused(client, WHERE, typed(**other), field=field, says=says)
    assert not Limits.objects.exists()


def test_it_is_read_and_posted(client: Client) -> None:
    only(client, WHERE, "get", "post")
    to_the_start_without_a_garden(client, WHERE)
