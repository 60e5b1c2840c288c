"""`/lots/why/<figure>/`: why a figure of the mix is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import only, url

pytestmark = pytest.mark.django_db
ASKED = {"pure_g": "2", "volume": "20 L", "most_jars": "2"}


def test_it_explains_what_was_asked(client: Client, garden: Garden) -> None:
    cast.a_jar_from_the_bed(garden, purity_frac=0.3, purity_sd_frac=0.02)
    shown = client.get(url("lots.index"), ASKED).context["page"]
    page = client.get(shown.answer.why.to).context["page"]
    assert page.figure.said and "pure_g=2" in page.back.to
    assert client.get(url("lots.why", figure="nothing"), ASKED).status_code == 404
    only(client, shown.answer.why.to, "get")


def test_without_a_job_it_goes_back(client: Client, garden: Garden) -> None:
    response = client.get(url("lots.why", figure="pure_g"), follow=True)
    assert "There is no job, or no jar for it, now." in response.content.decode()
