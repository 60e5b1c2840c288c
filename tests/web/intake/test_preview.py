"""`/intake/<key>/preview/`: how a file would be read; a person confirms it, then all of it is written."""

import pytest
from django.test import Client

from bluewright.journal.models import AirTemp, Garden, Intake, Steep, TubTemp
from bluewright.journal.queries import tubs
from tests.web.checks import NOBODY, no_rows, only, to_the_start_without_a_garden, url
from tests.web.intake.sent import READ, bring, lines, send

pytestmark = pytest.mark.django_db


@pytest.fixture
def where(client: Client, steeping: Steep) -> str:
    location: str = send(client, lines(), of=steeping)["Location"]
    return location


def test_what_the_text_does_not_tell_is_not_guessed(client: Client, where: str) -> None:
    """No clock is named in the file: the person chooses it, and until then nothing is said to be read."""
    response = client.get(where)
    form, page = response.context["form"], response.context["page"]
    assert (form["delimiter"].value(), form["unit"].value(), form["order"].value()) == ("comma", "c", "ymd")
    assert form["zone"].value() == ""
    assert {row.when for row in page.rows} == {""}
    assert "choose below first" in response.content.decode()


def test_a_look_shows_the_first_lines_as_they_would_be_read_and_writes_nothing(client: Client, where: str) -> None:
    unchanged = no_rows(Intake)
    response = client.post(where, READ | {"do": "look"})
    assert response.status_code == 200
    rows = response.context["page"].rows
    assert [row.temp for row in rows] == ["10.0 C", "10.1 C", "10.2 C", "10.3 C", "10.4 C"]
    assert rows[0].line == 2
    assert rows[0].when.split()[-1] in {"GMT", "BST"}
    unchanged()


def test_it_is_written_whole_and_shown_on_the_tub(client: Client, where: str, steeping: Steep) -> None:
    response = client.post(where, READ)
    intake = Intake.objects.get()
    assert (response.status_code, response["Location"]) == (302, url("intake.show", key=intake.pk))
    assert (intake.steep, intake.file_name, intake.made_by is not None) == (steeping, "log.csv", True)
    assert TubTemp.objects.filter(steep=steeping).count() == 36
    chart = client.get(url("tubs.show", key=steeping.pk)).context["page"].call.chart
    assert f"{round(tubs.logged(steeping)[2].temp_c, 1):g} C" in chart
    assert client.get(where)["Location"] == url("intake.show", key=intake.pk)


def test_the_air_of_the_garden_comes_in_the_same_way(client: Client, garden: Garden) -> None:
    intake = bring(client, lines(), of=None)
    assert intake.steep is None
    assert AirTemp.objects.filter(intake=intake).count() == intake.report["written"]
    assert intake.report["written"] + intake.report["known"] == 36


def test_what_was_confirmed_is_offered_for_the_next_file_of_that_logger(client: Client, steeping: Steep) -> None:
    bring(client, lines(), of=steeping, zone="standard")
    again = send(client, lines(hours=3), of=None)["Location"]
    page = client.get(again)
    assert page.context["page"].remembered
    assert "read last time" in page.content.decode()
    assert page.context["form"]["zone"].value() == "standard"
    assert page.context["page"].rows[0].temp == "10.0 C"
    other = send(client, lines(head="clock,temp"), of=steeping)["Location"]
    assert not client.get(other).context["page"].remembered


@pytest.mark.parametrize(
    ("told", "field", "says"),
    [
        ({"zone": ""}, "zone", "required"),
        ({"unit": ""}, "unit", "required"),
        ({"order": ""}, "order", "required"),
        ({"order": "dmy"}, "__all__", "is no time written that way"),
        ({"temp_column": "0"}, "temp_column", "column of the time"),
        ({"time_column": "7"}, "time_column", "not one of"),
        ({"first_line": "0"}, "first_line", "greater than"),
        ({"first_line": "500"}, "first_line", "first 37 lines"),
        ({"decimal": "comma"}, "__all__", "no temperature written that way"),
        ({"zone": "text"}, "__all__", "says no offset"),
    ],
)
def test_a_mistake_keeps_what_was_told_and_writes_nothing(
    client: Client, where: str, told: dict[str, str], field: str, says: str
) -> None:
    unchanged = no_rows(Intake)
    response = client.post(where, READ | told)
    assert response.status_code == 422
    form = response.context["form"]
    assert says in " ".join(form.errors[field])
    assert {name: form[name].value() for name in READ if name != "do"} == {
        name: text for name, text in (READ | told).items() if name != "do"
    }
    unchanged()
    assert client.post(where, READ).status_code == 302


def test_a_delimiter_that_does_not_part_the_lines_is_said(client: Client, where: str) -> None:
    assert client.post(where, READ | {"delimiter": "tab"}).status_code == 422


def test_as_json_it_is_the_same(client: Client, where: str) -> None:
    assert client.get(where, {"as": "json"}).json()["name"] == "log.csv"


def test_there_is_no_file_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("intake.preview", key=NOBODY)).status_code == 404


def test_a_stranger_s_file_is_not_there(client: Client, where: str, other_garden: Garden) -> None:
    client.post(url("gardens.open", key=other_garden.pk))
    unchanged = no_rows(Intake)
    assert client.get(where).status_code == 404
    assert client.post(where, READ).status_code == 404
    unchanged()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("intake.preview", key=NOBODY))


def test_other_methods_are_refused(client: Client, where: str) -> None:
    only(client, where, "get", "post")
