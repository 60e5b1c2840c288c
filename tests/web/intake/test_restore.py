"""`/intake/<key>/restore/`: a file out with its temperatures, and back."""

import pytest
from django.test import Client

from bluewright.journal.actions.intakes import delete_intake
from bluewright.journal.models import Garden, Intake, Steep
from bluewright.journal.queries import tubs
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, too_late, url
from tests.web.intake.sent import bring, lines

pytestmark = pytest.mark.django_db


def where(intake: Intake) -> str:
    return url("intake.restore", key=intake.pk)


@pytest.fixture
def row(client: Client, steeping: Steep) -> Intake:
    return bring(client, lines(), of=steeping)


def test_it_stands_again_with_its_temperatures_and_its_page_is_shown(
    client: Client, row: Intake, steeping: Steep
) -> None:
    delete_intake(row, by=None)
    response = client.post(where(row))
    assert (response.status_code, response["Location"]) == (302, url("intake.show", key=row.pk))
    assert len(tubs.logged(steeping)) >= 6


def test_after_thirty_days_it_stays_out_and_the_page_says_so(client: Client, row: Intake) -> None:
    too_late(client, row, where(row))


def test_there_is_none_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.post(url("intake.restore", key=NOBODY)).status_code == 404


def test_a_stranger_s_stays_out(client: Client, row: Intake, other_garden: Garden) -> None:
    delete_intake(row, by=None)
    client.post(url("gardens.open", key=other_garden.pk))
    assert client.post(where(row)).status_code == 404
    assert not Intake.objects.filter(pk=row.pk).exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("intake.restore", key=NOBODY), "post")


def test_other_methods_are_refused(client: Client, row: Intake) -> None:
    only(client, where(row), "post")
