"""`/settling/<key>/<row>/redecant/`: it was decanted after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Standing
from tests.cast import moment
from tests.web.checks import url
from tests.web.working import a_decanted_batch, a_settling_batch, posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_all_that_was_written_of_the_decanting_comes_back(client: Client, garden: Garden) -> None:
    batch, standing = a_decanted_batch(garden)
    client.post(url("settling.undecant", key=batch.pk, row=standing.pk))
    for _ in range(2):
        response = client.post(url("settling.redecant", key=batch.pk, row=standing.pk))
        assert response["Location"] == url("settling.show", key=batch.pk)
        now = Standing.objects.get(pk=standing.pk)
        assert (now.decanted_at, now.left_l, now.left_typed) == (moment(2), 1.2, "1.2 L")
        assert (now.blue_in_decant, now.ph, now.conductivity_us_per_cm) == (0, 9.2, 3600.0)


def test_what_was_never_decanted_stays_so(client: Client, garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    client.post(url("settling.redecant", key=batch.pk, row=standing.pk))
    assert Standing.objects.get(pk=standing.pk).decanted_at is None


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, theirs = a_decanted_batch(other_garden)
    posts_only_to_what_is_there(client, "settling.redecant", other_garden=other_garden, key=strange.pk, row=theirs.pk)
