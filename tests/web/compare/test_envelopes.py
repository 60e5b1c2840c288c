"""`/compare/<key>/envelopes/`: all lots to print."""

import pytest
from django.test import Client

from bluewright.journal.models import Trial
from tests.web.checks import only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_tells_every_lot_and_the_seal(client: Client, laid: Trial) -> None:
    said = client.get(url("compare.envelopes", key=laid.pk)).content.decode()
    assert said.count("<tr>") == 1 + 4
    assert laid.seal in said


def test_only_one_s_own_and_only_read(client: Client, laid: Trial, theirs: Trial) -> None:
    where = url("compare.envelopes", key=laid.pk)
    assert client.get(url("compare.envelopes", key=theirs.pk)).status_code == 404
    only(client, where, "get")
    to_the_start_without_a_garden(client, where)
