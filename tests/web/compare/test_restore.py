"""`/compare/<key>/restore/`: a trial is brought back."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Trial
from tests.web.checks import too_late, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_stays_out(client: Client, laid: Trial) -> None:
    too_late(client, laid, url("compare.restore", key=laid.pk))


def test_only_posts_to_one_s_own(client: Client, garden: Garden, theirs: Trial) -> None:
    posts_only_to_what_is_there(client, "compare.restore", other_garden=theirs.garden, key=theirs.pk)
