"""`/costs/costs.csv`: each batch of a year as a table."""

import csv

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def rows(client: Client, **asked: str) -> list[dict[str, str]]:
    response = client.get(url("costs.csv"), asked)
    text = b"".join(response.streaming_content).decode()  # type: ignore[attr-defined]
    return list(csv.DictReader(text.splitlines()))


def test_each_batch_is_a_row_with_middles_and_ends(client: Client, garden: Garden) -> None:
    garden.currency, garden.wage_money_per_h = "EUR", 10.0
    garden.save()
    cast.a_jar_from_the_bed(garden)
    (row,) = rows(client)
    assert (row["batch"], row["state"], row["currency"]) == ("Batch 9", "done", "EUR")
    low, middle, high = (float(row[f"cost_money_per_g{end}"]) for end in ("_low", "", "_high"))
    assert 0 < low < middle < high
    assert float(row["water_l"]) == pytest.approx(30.0, rel=0.02)


def test_what_is_not_known_is_empty(client: Client, garden: Garden) -> None:
    cast.a_batch(cast.a_straining(cast.a_tub(garden)))
    (row,) = rows(client)
    assert (row["state"], row["pure_g"], row["cost_money"], row["cost_money_per_g_low"]) == ("underway", "", "", "")


def test_a_year_without_a_batch_has_its_heads_only(client: Client, garden: Garden) -> None:
    response = client.get(url("costs.csv"))
    text = b"".join(response.streaming_content).decode()  # type: ignore[attr-defined]
    assert text.startswith("batch,state,work_h,work_h_low,work_h_high,water_l")
    assert len(text.splitlines()) == 1
    assert "marl-bank-costs-" in response["Content-Disposition"]


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, url("costs.csv"), "get")
    to_the_start_without_a_garden(client, url("costs.csv"))
