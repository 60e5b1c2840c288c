"""`/plan/schedule/away/<row>/restore/`: see `test_delete`; here whose it is."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, only, url

pytestmark = pytest.mark.django_db


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange = cast.days_away(other_garden)
    for row in (strange.pk, NOBODY):
        assert client.post(url("schedule.restore", row=row)).status_code == 404
    only(client, url("schedule.restore", row=NOBODY), "post")
