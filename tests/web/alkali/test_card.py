"""`/alkali/<key>/card/`: the alkali card, to be printed."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(batch: Batch) -> str:
    return url("alkali.card", key=batch.pk)


def test_the_parts_add_up_to_the_dose_and_lines_are_left_for_more(client: Client, batch: Batch, soda: Alkali) -> None:
    """Two thirds, a sixth, a sixth, each to two figures; then two empty lines."""
    cast.a_jar_test(batch, soda, (4.0, 7.6), (6.0, 9.6))
    card = client.get(where(batch)).context["page"]
    amounts = [part.amount for part in card.parts]
    assert amounts[3:] == ["", ""]
    parts = [float(one.removesuffix(" mL").replace(",", "")) for one in amounts[:3]]
    assert parts[1] == parts[2] == pytest.approx(parts[0] / 4, rel=0.06)
    whole = float(card.dose.split(" mL")[0].replace(",", ""))
    assert sum(parts) == pytest.approx(whole, rel=0.06)


def test_it_carries_the_cautions_of_the_dose(client: Client, batch: Batch, soda: Alkali) -> None:
    bottle = cast.an_alkali(soda.garden, kind="ammonia", mol_per_l=None, percent_w_w=25.0)
    page = client.get(where(batch) + f"?alkali={bottle.pk}").content.decode()
    for said in ("ppm of ammonia", "chloramine", "Goggles and gloves"):
        assert said in page


def test_while_a_reading_is_due_no_part_is_named(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, ph=None)
    assert [part.amount for part in client.get(where(batch)).context["page"].parts] == ["", ""]


def test_when_it_is_enough_it_says_so(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, ph=9.5)
    card = client.get(where(batch)).context["page"]
    assert (card.parts, card.trouble) == ((), "That is enough: pH 9.5. Air it now.")
    assert card.trouble in client.get(where(batch)).content.decode()


def test_without_an_alkali_it_leads_to_the_dose(client: Client, batch: Batch) -> None:
    response = client.get(where(batch))
    assert (response.status_code, response["Location"]) == (302, url("alkali.dose", key=batch.pk))


def test_it_has_a_twin_in_json(client: Client, batch: Batch, soda: Alkali) -> None:
    assert client.get(where(batch), {"as": "json"}).json()["wanted_ph"] == "9.5"


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, soda: Alkali, strangers_batch: Batch) -> None:
    assert client.get(where(strangers_batch)).status_code == 404
    assert client.get(url("alkali.card", key=NOBODY)).status_code == 404
    only(client, where(batch), "get")


def test_more_rows_need_no_more_statements(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, ph=7.0)
    flat(client, where(batch), lambda: [cast.an_alkali_part(batch, soda, hours_ago=h) for h in (0.2, 0.1)])


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.card", key=NOBODY))
