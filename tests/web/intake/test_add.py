"""`/intake/add/`: send a logger's file."""

from pathlib import Path

import pytest
from django.conf import settings
from django.test import Client

from bluewright.journal.loggers import lines as limits
from bluewright.journal.loggers.waiting import KEPT_FOR_S
from bluewright.journal.models import Garden, Intake, Steep
from tests.cast import a_garden
from tests.web.checks import flat, no_rows, only, to_the_start_without_a_garden, url
from tests.web.intake.sent import lines, send

pytestmark = pytest.mark.django_db
WHERE = "/intake/add/"


def waiting() -> set[Path]:
    return set((Path(settings.HOME) / "waiting").glob("*"))


def test_a_file_waits_for_a_person_to_say_how_to_read_it(client: Client, steeping: Steep) -> None:
    unchanged = no_rows(Intake)
    assert client.get(WHERE).status_code == 200
    response = send(client, lines(), of=steeping)
    key = response["Location"].split("/")[2]
    assert (response.status_code, response["Location"]) == (302, url("intake.preview", key=key))
    assert key in {path.name for path in waiting()}
    unchanged()


def test_the_tub_that_led_here_is_chosen_already(client: Client, steeping: Steep) -> None:
    assert client.get(WHERE, {"of": str(steeping.pk)}).context["form"]["of"].value() == str(steeping.pk)


def test_what_nobody_confirmed_for_a_day_is_thrown_away(client: Client, steeping: Steep) -> None:
    import os
    import time

    old = send(client, lines(), of=steeping)["Location"]
    (folder,) = [path for path in waiting() if path.name in old]
    os.utime(folder, (time.time() - KEPT_FOR_S - 60,) * 2)
    send(client, lines(), of=steeping)
    assert folder not in waiting()
    assert client.get(old).status_code == 404


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "empty"),
        (b"\n\n", "empty"),
        (b"time,temp\n", "a single line without a reading"),
        (b"Dear Rowan,\nthe tub is lovely.\n", "time and a number"),
        (b'{"a": 1}', "without a reading"),
        (b"PK\x03\x04 a spreadsheet", "spreadsheet"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\1\2\3\4\5", "no text"),
    ],
    ids=["empty", "blank", "head only", "letter", "json", "spreadsheet", "picture"],
)
def test_what_is_no_logger_s_file_is_refused_and_nothing_stays(
    client: Client, steeping: Steep, content: bytes, says: str
) -> None:
    before = waiting()
    response = send(client, content, of=steeping)
    assert response.status_code == 422
    assert says in " ".join(response.context["form"].errors["file"])
    assert response.context["form"]["of"].value() == str(steeping.pk)
    assert waiting() == before


def test_a_file_too_long_is_refused_with_what_would_be_right(
    client: Client, steeping: Steep, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(limits, "MOST_LINES", 10)
    response = send(client, lines(), of=steeping)
    assert "up to 10 lines at once, in parts" in " ".join(response.context["form"].errors["file"])
    monkeypatch.setattr("bluewright.web.pages.intake.forms.MOST_BYTES", 100)
    response = send(client, lines(), of=steeping)
    assert "MB at once, in parts" in " ".join(response.context["form"].errors["file"])


def test_tub_and_file_must_be_chosen(client: Client, garden: Garden) -> None:
    response = client.post(WHERE, {})
    assert response.status_code == 422
    assert set(response.context["form"].errors) == {"of", "file"}


def test_a_stranger_s_tub_is_no_choice(client: Client, garden: Garden, strangers_tub: Steep) -> None:
    assert send(client, lines(), of=strangers_tub).status_code == 422
    assert str(strangers_tub.pk) not in client.get(WHERE).content.decode()


def test_in_an_empty_garden_there_is_the_air(client: Client) -> None:
    a_garden()
    assert "the air of Chalk Row" in client.get(WHERE).content.decode()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")


def test_more_tubs_need_no_more_statements(client: Client, garden: Garden) -> None:
    from tests.cast import a_tub

    flat(client, WHERE, lambda: [a_tub(garden) for _ in range(3)])
