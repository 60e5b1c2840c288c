"""`/gardens/<key>/take-out/`: a whole garden as one file."""

import json
from pathlib import Path
from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Steep
from tests.cast import a_photo
from tests.web.checks import NOBODY, only, url

pytestmark = pytest.mark.django_db


def test_the_file_holds_the_garden_and_is_named_after_it(client: Client, garden: Garden) -> None:
    response = client.get(url("gardens.take_out", key=garden.pk))
    assert response.status_code == 200
    assert response["Content-Disposition"].startswith('attachment; filename="marl-bank-')
    whole = json.loads(response.getvalue())
    assert whole["garden"]["name"] == garden.name
    assert whole["readings"]


def test_photos_go_along_unless_they_are_not_wanted(
    client: Client, garden: Garden, steeping: Steep, settings: Any, tmp_path: Path
) -> None:
    settings.HOME = tmp_path
    a_photo(garden, of=steeping, kind="tub")
    where = url("gardens.take_out", key=garden.pk)
    assert len(json.loads(client.get(where).getvalue())["photos"]) == 1
    assert "photos" not in json.loads(client.get(where, {"photos": "no"}).getvalue())


def test_there_is_no_garden_of_a_wrong_key(client: Client) -> None:
    assert client.get(url("gardens.take_out", key=NOBODY)).status_code == 404


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("gardens.take_out", key=garden.pk), "get")
