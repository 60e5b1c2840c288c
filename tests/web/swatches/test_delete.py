"""`/swatches/<key>/delete/`: take a swatch out."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Swatch
from tests import cast
from tests.web.checks import gone_and_back, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_is_gone_and_can_be_brought_back(client: Client, garden: Garden) -> None:
    row = cast.a_swatch(garden)
    gone_and_back(client, row, delete=url("swatches.delete", key=row.pk), restore=url("swatches.restore", key=row.pk))


def test_it_stands_among_what_was_taken_out(client: Client, garden: Garden) -> None:
    client.post(url("swatches.delete", key=cast.a_swatch(garden, name="Hem").pk))
    assert "Swatch Hem, measured" in client.get(url("gardens.taken_out")).content.decode()


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_swatch(other_garden)
    posts_only_to_what_is_there(client, "swatches.delete", other_garden=other_garden, key=theirs.pk)
    assert Swatch.objects.filter(pk=theirs.pk).exists()
