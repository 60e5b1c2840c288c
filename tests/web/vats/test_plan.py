"""`/vats/plan/`: the recipe of a vat, and the vat as it was made by it."""

from typing import Any
from urllib.parse import urlencode

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Jar, JarTaken, Vat, VatAddition
from tests import cast
from tests.web.checks import no_rows, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def jar(garden: Garden) -> Jar:
    return cast.a_jar_from_the_bed(garden, 80.0, filled_at=cast.moment(400), purity_frac=0.35, purity_sd_frac=0.03)


def where(**asked: Any) -> str:
    plain = {"kind": "fructose", "fibre": "cotton", "volume": "20 L", "wanted": "1", "depth": "", "jar": ""}
    return f"/vats/plan/?{urlencode(plain | asked)}"


def entry(**other: Any) -> dict[str, Any]:
    made = {"mass_powder": "60 g", "mass_fructose": "180 g", "mass_slaked_lime": "120 g"}
    return {"name": "Blue tin", "started_at": cast.typed(cast.moment(1)), "covered": "on"} | made | other


def test_opened_it_only_asks(client: Client, jar: Jar) -> None:
    response = client.get("/vats/plan/")
    assert (response.status_code, response.context["page"].answer) == (200, None)
    assert "Mix:" not in response.content.decode(), "what is hidden has no label"
    assert response.context["form"]["jar"].value() == str(jar.pk)


def test_the_purity_of_the_jar_makes_the_powder(client: Client, jar: Jar) -> None:
    """20 g pure, 35 % of it when dry, 5 % water in air-dry powder: 20 / (0.35 * 0.95) = 60 g (own hand)."""
    page = client.get(where(jar=jar.pk)).context["page"]
    assert page.answer.first.startswith("Weigh out 60 g")
    steps = " ".join(page.answer.lines)
    assert "into cold water" in steps or "Take care: goggles and gloves; lime into water" in steps
    assert [one.name for one in page.scales] == ["for 10 L", "for 15 L", "for 30 L", "for 40 L"]


def test_a_link_to_twice_as_much_takes_twice_as_much(client: Client, jar: Jar) -> None:
    scale = client.get(where(jar=jar.pk)).context["page"].scales[-1]
    assert client.get(f"/vats/plan/{scale.href}").context["page"].answer.first.startswith("Weigh out 120 g")


def test_what_was_made_is_written_with_what_was_really_weighed(client: Client, garden: Garden, jar: Jar) -> None:
    response = client.post(where(jar=jar.pk), entry(mass_powder="58 g"), follow=True)
    vat = Vat.objects.get(garden=garden)
    assert response.redirect_chain == [(url("vats.show", key=vat.pk), 302)]
    assert (vat.name, vat.kind, vat.volume_typed, vat.recipe["wanted_g_per_l"]) == ("Blue tin", "fructose", "20 L", 1.0)
    assert {row.what: row.mass_g for row in vat.additions.all()} == {
        "powder": 58.0, "fructose": 180.0, "slaked_lime": 120.0
    }  # fmt: skip
    taken = JarTaken.objects.get(jar=jar)
    assert (taken.taken_g, taken.what_for) == (58.0, "Blue tin")
    assert VatAddition.objects.get(what="powder").taken == taken


def test_never_more_than_the_jar_holds(client: Client, jar: Jar) -> None:
    """A scale good to 0.5 g at two weighings: at most 80 + 2 * 0.5 * sqrt(2) g can be in it."""
    unchanged = no_rows(Vat, VatAddition, JarTaken)
    response = client.post(where(jar=jar.pk), entry(mass_powder="90 g"))
    assert response.status_code == 422
    assert "only 80 g are left in Jar 9" in " ".join(response.context["made"].errors["mass_powder"])
    assert response.context["made"]["mass_powder"].value() == "90 g"
    unchanged()


def test_a_mix_is_taken_out_of_each_of_its_jars(client: Client, garden: Garden, jar: Jar) -> None:
    """Three parts of 35 % and one of 20 %, both when dry: 31.25 %, less 5 % water: 20 / 0.297 = 67.4 g (own hand)."""
    poor = cast.a_jar_from_the_bed(garden, 50.0, filled_at=cast.moment(300), name="Poor", purity_frac=0.20)
    asked = where(jar="mix", mix=f"{jar.pk}:45,{poor.pk}:15")
    made = client.get(asked).context["made"]
    assert "mass_powder" not in made.fields
    fields = {one.label: one for one in made if one.name.startswith("powder_")}
    grams = {label: float(one.value().split()[0]) for label, one in fields.items()}
    assert sum(grams.values()) == pytest.approx(67.4, rel=0.02)
    assert grams["indigo powder out of Jar 9"] == pytest.approx(3 * grams["indigo powder out of Poor"], rel=0.01)
    typed = {one.name: one.value() for one in fields.values()}
    client.post(asked, {name: one for name, one in entry().items() if name != "mass_powder"} | typed)
    taken = {f"indigo powder out of {row.jar.name}": row.taken_g for row in JarTaken.objects.select_related("jar")}
    assert taken == grams
    assert VatAddition.objects.filter(what="powder").count() == 2


@pytest.mark.parametrize("mix", ["", "gibberish", "12:x,13:y", "{jar}:5", "{jar}:5,{jar}:-1"])
def test_a_mix_that_is_not_understood_is_none(client: Client, jar: Jar, mix: str) -> None:
    response = client.get(where(jar="mix", mix=mix.replace("{jar}", str(jar.pk))))
    assert response.status_code == 422
    assert "jar" in response.context["form"].errors


def test_a_jar_that_nobody_measured_is_judged_by_its_making(client: Client, garden: Garden) -> None:
    """Limed pigment of woad holds some 6 %, not 18: three times the powder, about."""
    unknown = cast.a_jar_from_the_bed(garden, 900.0, filled_at=cast.moment(400))
    before = client.get(where(jar=unknown.pk)).context["made"]["mass_powder"].value()
    batch = unknown.came_from.get().batch
    cast.an_alkali_part(batch, cast.an_alkali(garden, kind="slaked_lime"), hours_ago=1.0)
    after = client.get(where(jar=unknown.pk)).context["made"]["mass_powder"].value()
    assert 2 < float(after.split()[0]) / float(before.split()[0]) < 5


def test_from_a_recipe_the_way_leads_to_the_jars_for_it(client: Client, jar: Jar) -> None:
    page = client.get(where(jar=jar.pk)).context["page"]
    assert "pure_g=20" in page.mix and "kind=fructose" in page.mix and "fibre=cotton" in page.mix
    assert client.get(page.mix).status_code == 200


def test_powder_from_elsewhere_keeps_its_purity(client: Client, garden: Garden) -> None:
    client.post(where(purity="42", give_or_take="4"), entry())
    row = VatAddition.objects.get(what="powder")
    assert (row.purity_frac, row.purity_sd_frac, row.taken) == (0.42, 0.04, None)


@pytest.mark.parametrize(
    ("asked", "field"),
    [({"wanted": "1", "depth": "medium"}, "wanted"), ({"volume": "much"}, "volume"), ({"cloth": "1 kg"}, "depth")],
)
def test_a_mistake_in_what_is_asked_is_said(client: Client, garden: Garden, asked: dict[str, str], field: str) -> None:
    response = client.get(where(**asked))
    assert response.status_code == 422
    assert field in response.context["form"].errors


def test_a_vat_without_a_name_is_not_written(client: Client, garden: Garden) -> None:
    unchanged = no_rows(Vat)
    assert client.post(where(), entry(name="")).status_code == 422
    unchanged()


def test_an_acid_is_never_part_of_a_sulphur_vat(client: Client, garden: Garden) -> None:
    page = client.get(where(kind="dithionite", fibre="wool")).context["page"]
    steps = " ".join((page.answer.first, *page.answer.lines))
    assert "vinegar" not in steps
    assert "never any acid near this vat" in steps


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, "/vats/plan/")


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, "/vats/plan/", "get", "post")
