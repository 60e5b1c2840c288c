"""`/lots/`: which jars to mix for a job."""

from urllib.parse import parse_qs, urlsplit

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Jar
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/lots/"
TYPED = {"pure_g": "4", "volume": "20 L", "most_jars": "3"}


@pytest.fixture
def jars(garden: Garden) -> list[Jar]:
    """Two jars of 12 g: one whose 30 % is known to 1 %, one whose 40 % is known to 8 %."""
    return [
        cast.a_jar_from_the_bed(garden, name=name, purity_frac=share, purity_sd_frac=sd)
        for name, share, sd in (("sure", 0.30, 0.01), ("vague", 0.40, 0.08))
    ]


def test_the_mix_of_least_spread_is_told_with_what_to_weigh_out(
    client: Client, garden: Garden, jars: list[Jar]
) -> None:
    """The sure jar holds some 12 * 0.30 = 3.6 g less moisture, enough for 2 g; the vague one makes it no surer."""
    page = client.get(WHERE, TYPED | {"pure_g": "2"}).context["page"]
    (table,) = page.answer.tables
    assert table.rows[0][1][0] == "sure"
    assert "the chance that it falls" in page.answer.lines[0]
    assert {jar.name for jar in page.jars} == {"sure", "vague"}


def test_a_vat_of_the_mix_is_planned_from_there(client: Client, garden: Garden, jars: list[Jar]) -> None:
    page = client.get(WHERE, TYPED | {"pure_g": "6"}).context["page"]
    asked = parse_qs(urlsplit(page.vat).query)
    assert urlsplit(page.vat).path == url("vats.plan")
    assert (asked["volume"], asked["wanted"], asked["jar"]) == (["20 L"], ["0.3"], ["mix"])
    form = client.get(page.vat).context["form"]
    assert not form.is_bound, "nobody said for which fibre: that is asked first"
    assert (form["wanted"].value(), form["depth"].value(), form["jar"].value()) == ("0.3", "", "mix")


@pytest.mark.parametrize(
    ("told", "kind"),
    [
        ({"fibre": "wool"}, "dithionite"),
        ({"fibre": "linen"}, "fructose"),
        ({"fibre": "wool", "kind": "ferment"}, "ferment"),
    ],
)
def test_the_fibre_decides_the_kind_of_vat_or_the_person_does(
    client: Client, garden: Garden, jars: list[Jar], told: dict[str, str], kind: str
) -> None:
    page = client.get(WHERE, TYPED | {"pure_g": "6"} | told).context["page"]
    response = client.get(page.vat)
    form = response.context["form"]
    assert form.is_bound and form.is_valid()
    assert (form.cleaned_data["kind"], form.cleaned_data["fibre"]) == (kind, told["fibre"])
    assert "sure" in dict(form.fields["jar"].choices)["mix"]
    assert response.context["page"].answer.first.startswith("Weigh out ")


def test_what_is_missing_is_told_against_the_job_and_against_all_wants(
    client: Client, garden: Garden, jars: list[Jar]
) -> None:
    want = cast.a_want(garden)
    page = client.get(WHERE, {"job": str(want.pk), **TYPED, "pure_g": ""}).context["page"]
    assert any(line.startswith("They lack ") for line in page.answer.lines)
    assert page.all_jobs.startswith("All open wants need ") and "are missing" in page.all_jobs and page.vat == ""
    assert client.get(WHERE).context["form"]["job"].value() == str(want.pk), "the first want is asked at once"


def test_a_piece_that_waits_is_a_job_by_its_swatch_or_of_medium_depth(
    client: Client, garden: Garden, jars: list[Jar]
) -> None:
    """Half a kilogram of wool, 431 g dry (by hand, regain 16 %): 1.2 % of it fixed, of which 82 % of what is drawn, and
    not all that is put in reduces: some 6 to 11 g; a paler swatch takes less. It is asked apart from the wants."""
    pale = cast.a_swatch(garden, name="Pale", l_star=70.0, a_star=-6.0, b_star=-14.0)
    plain, like = cast.a_piece(garden, name="Scarf"), cast.a_piece(garden, name="Shawl", like_key=pale.pk)
    dipped = cast.a_piece(garden, name="Dipped")
    cast.a_dip(dipped, cast.a_made_vat(garden))
    response = client.get(WHERE, {"job": str(like.pk), **TYPED, "pure_g": ""})
    form, page = response.context["form"], response.context["page"]
    assert set(form.jobs) == {str(plain.pk), str(like.pk)}
    assert 5.0 < form.jobs[str(plain.pk)].pure_g < 12.0
    assert form.jobs[str(like.pk)].pure_g < form.jobs[str(plain.pk)].pure_g / 2
    said = [words for _key, words in form.fields["job"].choices]
    assert any(words.startswith("Shawl, like Pale: ") for words in said)
    assert any(words.startswith("Scarf, if of medium depth: ") for words in said)
    assert page.answer is not None and page.all_jobs == ""
    assert parse_qs(urlsplit(page.vat).query)["fibre"] == ["wool"]


def test_a_jar_of_unknown_indigo_is_named_and_not_counted(client: Client, garden: Garden) -> None:
    cast.a_jar_from_the_bed(garden, name="riddle")
    page = client.get(WHERE, TYPED).context["page"]
    assert page.unknown == "Not counted, since nobody knows their indigo: riddle. Assay them."
    assert page.answer is None and "assay one first" in page.trouble


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"pure_g": ""}, "or choose a job"),
        ({"oldest_first": "on", "purity_pct": "30"}, "leaves no choice of purity"),
        ({"most_jars": "5"}, "less than or equal to 4"),
    ],
)
def test_a_mistake_keeps_what_was_asked(client: Client, garden: Garden, change: dict[str, str], says: str) -> None:
    response = client.get(WHERE, TYPED | change)
    assert response.status_code == 422 and says in response.content.decode()


def test_many_jars_take_as_many_statements_as_one(client: Client, garden: Garden, jars: list[Jar]) -> None:
    flat(client, f"{WHERE}?pure_g=2&volume=20+L&most_jars=2", lambda: [
        cast.a_jar_from_the_bed(garden, name=f"jar {k}", purity_frac=0.3) for k in range(3)
    ])  # fmt: skip


def test_another_s_jars_are_not_in_it_and_it_is_only_read(client: Client, garden: Garden, other_garden: Garden) -> None:
    cast.a_jar_from_the_bed(other_garden, purity_frac=0.3)
    assert client.get(WHERE, {"as": "json"}).json()["jars"] == []
    only(client, WHERE, "get")
    to_the_start_without_a_garden(client, WHERE)
