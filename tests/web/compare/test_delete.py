"""`/compare/<key>/delete/`: a trial is taken out; its tubs stay."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Trial
from tests.web.checks import gone_and_back, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_goes_and_comes_back(client: Client, laid: Trial) -> None:
    gone_and_back(client, laid, delete=url("compare.delete", key=laid.pk), restore=url("compare.restore", key=laid.pk))
    client.post(url("compare.delete", key=laid.pk))
    assert "Trial Spots, laid down" in client.get(url("gardens.taken_out")).content.decode()


def test_only_posts_to_one_s_own(client: Client, garden: Garden, theirs: Trial) -> None:
    posts_only_to_what_is_there(client, "compare.delete", other_garden=theirs.garden, key=theirs.pk)
    assert Trial.objects.filter(pk=theirs.pk).exists()
