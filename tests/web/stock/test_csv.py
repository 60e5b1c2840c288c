"""`/stock/stock.csv`: each jar as a row."""

import csv

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_put_in_less_taken_and_adjusted_is_left(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 20.0, purity_frac=0.3)
    cast.taken(jar, 5.0)
    cast.taken(jar, 1.0, taken_typed="", weighed_g=14.0, weighed_typed="14 g")
    response = client.get(url("stock.csv"))
    text = b"".join(response.streaming_content).decode()  # type: ignore[attr-defined]
    (row,) = csv.DictReader(text.splitlines())
    assert [row[name] for name in ("put_in_g", "taken_g", "adjusted_g", "left_g")] == ["20", "5", "-1", "14"]
    assert float(row["pure_left_low_g"]) < float(row["pure_left_g"]) < float(row["pure_left_high_g"])


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, url("stock.csv"), "get")
    to_the_start_without_a_garden(client, url("stock.csv"))
