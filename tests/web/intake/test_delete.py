"""`/intake/<key>/delete/`: a file out with its temperatures, and back."""

import pytest
from django.test import Client

from bluewright.journal.actions.intakes import delete_intake
from bluewright.journal.models import Garden, Intake, Steep
from bluewright.journal.queries import tubs
from tests.web.checks import NOBODY, gone_and_back, only, to_the_start_without_a_garden, url
from tests.web.intake.sent import bring, lines

pytestmark = pytest.mark.django_db


def where(intake: Intake) -> str:
    return url("intake.delete", key=intake.pk)


@pytest.fixture
def row(client: Client, steeping: Steep) -> Intake:
    return bring(client, lines(), of=steeping)


def test_its_temperatures_go_and_come_back_with_it(client: Client, row: Intake, steeping: Steep) -> None:
    client.post(where(row))
    assert tubs.logged(steeping) == []
    client.post(url("intake.restore", key=row.pk))
    assert len(tubs.logged(steeping)) >= 6
    gone_and_back(client, row, delete=where(row), restore=url("intake.restore", key=row.pk))


def test_it_is_among_what_was_taken_out(client: Client, row: Intake) -> None:
    delete_intake(row, by=None)
    (gone,) = client.get(url("gardens.taken_out")).context["page"].gone
    assert gone.said.startswith("Logger's file log.csv")
    assert gone.back == url("intake.restore", key=row.pk)


def test_there_is_none_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.post(url("intake.delete", key=NOBODY)).status_code == 404


def test_a_stranger_s_stays(client: Client, row: Intake, other_garden: Garden) -> None:
    client.post(url("gardens.open", key=other_garden.pk))
    assert client.post(where(row)).status_code == 404
    assert Intake.objects.filter(pk=row.pk).exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("intake.delete", key=NOBODY), "post")


def test_other_methods_are_refused(client: Client, row: Intake) -> None:
    only(client, where(row), "post")
