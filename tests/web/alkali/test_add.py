"""`/alkali/add/`: put an alkali into the cupboard."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch, Garden
from tests.web.checks import NOBODY, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/alkali/add/"


def entry(**other: object) -> dict[str, object]:
    plain = {"kind": "soda_ash", "name": "soda", "strength": "", "label_as": "nh3", "note": ""}
    return {**plain, **other}


def test_a_solution_made_up_from_dry_soda_has_its_moles(client: Client, garden: Garden) -> None:
    """25 g of soda ash (105.99 g/mol, 98 % pure) in half a litre: 25 / 105.99 / 0.5 * 0.98 = 0.4623 mol/L."""
    assert client.get(WHERE).status_code == 200
    response = client.post(WHERE, entry(strength="25 g in 500 mL"), follow=True)
    assert response.redirect_chain == [(url("alkali.index"), 302)]
    made = Alkali.objects.get()
    assert (made.mol_per_l, made.strength_typed) == (pytest.approx(0.4623, rel=1e-3), "25 g in 500 mL")
    assert "25 g in 500 mL, 0.46 mol/L" in response.content.decode()
    undo = url("alkali.delete", alkali=made.pk)
    assert undo in [message.extra_tags for message in response.context["messages"]]


@pytest.mark.parametrize(
    ("kind", "strength", "mol_per_l", "percent"),
    [
        ("ammonia", "9,5 %", None, 9.5),
        ("ammonia", "10 percent", None, 10.0),
        ("lye", "30% w/w", None, 30.0),
        ("lye", "0.5 mol/L", 0.5, None),
        ("lye", "2M", 2.0, None),
        ("soda_ash", "50 g/L", 50 / 105.99 * 0.98, None),
        ("soda_ash", "1/2 oz in 1 qt", 28.349523125 / 2 / 105.99 / 0.946352946 * 0.98, None),
        ("soda_ash", "", None, None),
    ],
)
def test_strength_is_read_as_people_write_it(
    client: Client, garden: Garden, kind: str, strength: str, mol_per_l: float | None, percent: float | None
) -> None:
    """An ounce is 28.349523125 g and a US quart 0.946352946 L by definition."""
    assert client.post(WHERE, entry(kind=kind, strength=strength)).status_code == 302
    made = Alkali.objects.get()
    assert made.mol_per_l == (None if mol_per_l is None else pytest.approx(mol_per_l, rel=1e-6))
    assert (made.percent_w_w, made.strength_typed) == (percent, strength)


@pytest.mark.parametrize(
    ("kind", "strength", "field", "says"),
    [
        ("soda_ash", "strong", "strength", "is no strength"),
        ("soda_ash", "25 g", "strength", "is no strength"),
        ("soda_ash", "25 g in a bucket", "strength", "'25 g in a bucket' is no strength"),
        ("soda_ash", "1 L in 25 g", "strength", "not a mass"),
        ("soda_ash", "-3 %", "strength", "is no strength"),
        ("soda_ash", "5 %", "strength", "soda ash has no percentage here"),
        ("ammonia", "60 %", "strength", "stronger than a solution"),
        ("ammonia", "25 g in 500 mL", "strength", "per cent on the label"),
        ("ash_lye", "", "strength", "titrate it with vinegar"),
        ("slaked_lime", "10 g in 1 L", "strength", "dosed dry"),
        ("lye", "400 mol/L", "strength", "at most 20"),
        ("lye", "0 mol/L", "strength", "more than 0"),
        ("gold", "", "kind", "not one of"),
    ],
)
def test_what_cannot_be_is_said_at_its_field(
    client: Client, garden: Garden, kind: str, strength: str, field: str, says: str
) -> None:
    unchanged = no_rows(Alkali)
    refused(client, WHERE, entry(kind=kind, strength=strength), field=field, says=says)
    unchanged()


def test_a_name_is_needed(client: Client, garden: Garden) -> None:
    refused(client, WHERE, entry(name=""), field="name", says="required")


def test_an_opened_bottle_labelled_as_hydroxide(client: Client, garden: Garden) -> None:
    client.post(WHERE, entry(kind="ammonia", strength="20 %", label_as="nh4oh", opened="on"))
    made = Alkali.objects.get()
    assert (made.label_as, made.opened, made.made_by is not None) == ("nh4oh", True, True)


def test_from_a_batch_it_leads_back_to_its_dose(client: Client, batch: Batch) -> None:
    response = client.post(f"{WHERE}?batch={batch.pk}", entry())
    assert response["Location"] == url("alkali.dose", key=batch.pk) + f"?alkali={Alkali.objects.get().pk}"


@pytest.mark.parametrize("key", ["nonsense", str(NOBODY)])
def test_from_no_batch_it_leads_to_the_cupboard(client: Client, garden: Garden, key: str) -> None:
    assert client.post(f"{WHERE}?batch={key}", entry())["Location"] == url("alkali.index")


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)
