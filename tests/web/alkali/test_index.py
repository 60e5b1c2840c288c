"""`/alkali/`: the cupboard."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch, Garden
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/alkali/"


def test_each_alkali_stands_there_with_its_strength_and_its_cautions(client: Client, garden: Garden) -> None:
    """A bottle of 9.5 % ammonia holds 95 g/kg * 0.96 kg/L / 17.03 g/mol = 5.36 mol/L."""
    cast.an_alkali(garden, name="Bottle", kind="ammonia", mol_per_l=None, percent_w_w=9.5, strength_typed="9.5 %")
    (one,) = client.get(WHERE).context["page"].at_hand
    assert (one.name, one.strength) == ("Bottle", "9.5 % as NH3, 5.4 mol/L")
    assert "chloramine" in " ".join(one.cautions)
    assert "chloramine" in client.get(WHERE).content.decode()


def test_dry_lye_burns_and_is_weighed(client: Client, garden: Garden) -> None:
    cast.an_alkali(garden, name="Tin", kind="lye", mol_per_l=None)
    (one,) = client.get(WHERE).context["page"].at_hand
    assert "dry" in one.strength
    assert one.measured == "weighed in grams"
    assert "blinds and burns" in " ".join(one.cautions)


def test_what_is_used_up_stands_apart(client: Client, garden: Garden) -> None:
    cast.an_alkali(garden, name="Empty", used_up=True)
    page = client.get(WHERE).context["page"]
    assert ([one.name for one in page.at_hand], [one.name for one in page.used_up]) == ([], ["Empty"])


def test_what_rests_on_an_alkali_is_said_and_it_cannot_be_taken_out(client: Client, batch: Batch, soda: Alkali) -> None:
    assert "/delete/" in client.get(WHERE).content.decode()
    cast.an_alkali_part(batch, soda)
    cast.a_jar_test(batch, soda)
    (one,) = client.get(WHERE).context["page"].at_hand
    assert one.uses == "1 part in a batch, 1 jar titration"
    assert "/delete/" not in client.get(WHERE).content.decode()


def test_an_empty_cupboard_says_so(client: Client, garden: Garden) -> None:
    assert "Nothing stands here yet" in client.get(WHERE).content.decode()


def test_a_stranger_s_alkali_is_not_there(client: Client, garden: Garden, other_garden: Garden) -> None:
    cast.an_alkali(other_garden)
    assert client.get(WHERE).context["page"].at_hand == ()


def test_it_has_a_twin_in_json(client: Client, soda: Alkali) -> None:
    assert client.get(WHERE, {"as": "json"}).json()["at_hand"][0]["name"] == soda.name


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_bottles_need_no_more_statements(client: Client, batch: Batch, soda: Alkali) -> None:
    flat(client, WHERE, lambda: [cast.an_alkali_part(batch, cast.an_alkali(soda.garden, name=n)) for n in "abc"])


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)
