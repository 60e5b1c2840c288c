"""`/law/check/`: I checked, on a day, with whom."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, LawCheck
from tests import cast
from tests.web.checks import no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/law/check/"


def typed(**other: str) -> dict[str, str]:
    return {"plant": "woad", "day": cast.a_day(2).isoformat(), "whom": "the county", "note": "not listed"} | other


def test_it_is_written_down_with_who_wrote_it(client: Client, garden: Garden) -> None:
    response = client.post(WHERE, typed())
    assert (response.status_code, response["Location"]) == (302, url("law.index"))
    row = LawCheck.objects.get()
    assert (row.garden, row.plant, row.day, row.whom, row.note) == (
        garden, "woad", cast.a_day(2), "the county", "not listed"
    )  # fmt: skip
    assert row.made_by is not None


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [("whom", "", "required"), ("day", "2999-01-01", "still to come"), ("day", "soon", "valid date"),
     ("plant", "oak", "not one of")],
)  # fmt: skip
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    unchanged = no_rows(LawCheck)
    refused(client, WHERE, typed(**{field: text}), field=field, says=says)
    unchanged()


def test_only_posts(client: Client, garden: Garden) -> None:
    only(client, WHERE, "post")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE, "post")
