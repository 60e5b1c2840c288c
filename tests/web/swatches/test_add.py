"""`/swatches/add/`: a swatch is written down, typed or brought along from where its colour was measured."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Photo, Swatch
from tests import cast
from tests.pictures import sent
from tests.web.checks import NOBODY, filled_with, no_rows, only, refused, to_the_start_without_a_garden, url
from tests.web.measuring import measured_cloth

pytestmark = pytest.mark.django_db
WHERE = "/swatches/add/"
TYPED = {
    "name": "Shawl corner", "of": "cloth", "fibre": "wool", "dips": "3", "lab": "34.2 -1.6 -23.1", "lab_sd": "0.8",
    "how": "card", "measured_at": cast.typed(cast.moment(2)), "recipe": "warm vat",
}  # fmt: skip
FLAT = "nm R\n" + "".join(f"{nm} 0.1\n" for nm in range(400, 701, 20))


def test_it_is_kept_as_typed_and_can_be_undone(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    response = client.post(WHERE, TYPED | {"jar": str(jar.pk)}, follow=True)
    row = Swatch.objects.get()
    assert response.redirect_chain == [(url("swatches.show", key=row.pk), 302)]
    told = (row.name, row.of, row.fibre, row.dips, row.jar, row.how)
    assert told == ("Shawl corner", "cloth", "wool", 3, jar, "card")
    assert (row.l_star, row.a_star, row.b_star) == (34.2, -1.6, -23.1)
    assert (row.l_sd, row.a_sd, row.b_sd) == (0.8, 0.8, 0.8)
    assert row.k_over_s is None
    assert url("swatches.delete", key=row.pk) in [message.extra_tags for message in response.context["messages"]]


@pytest.mark.parametrize("text", ["34,2 −1,6 −23,1", "34.2; -1.6; -23.1", " 34.2  -1.6 -23.1 "])
def test_a_colour_is_read_however_it_is_written(client: Client, garden: Garden, text: str) -> None:
    client.post(WHERE, TYPED | {"lab": text, "lab_sd": "0.9 0.7 0.8"})
    row = Swatch.objects.get()
    assert (row.l_star, row.a_star, row.b_star, row.a_sd) == (34.2, -1.6, -23.1, 0.7)


@pytest.mark.parametrize("text", [FLAT, FLAT.replace("0.1", "10,0").replace(" ", ";")], ids=["share", "per cent"])
def test_a_pasted_spectrum_gives_colour_spread_and_depth(client: Client, garden: Garden, text: str) -> None:
    """Own hand: L* = 116 * 0.1^(1/3) - 16 = 37.84; K/S = 0.9^2/0.2 = 4.05."""
    client.post(WHERE, TYPED | {"lab": "", "lab_sd": "", "spectrum": text})
    row = Swatch.objects.get()
    assert (row.l_star, row.a_star, row.b_star) == pytest.approx((37.84, 0.0, 0.0), abs=0.02)
    assert row.k_over_s == pytest.approx(4.05, rel=0.01)
    assert row.how == "instrument" and row.l_sd is not None and 0.1 < row.l_sd < 0.5


def test_the_undyed_ground_is_kept_and_told(client: Client, garden: Garden) -> None:
    """Typed with the swatch; left out, as its piece says."""
    client.post(WHERE, TYPED | {"ground": "88 0.4 9"})
    row = Swatch.objects.get()
    assert (row.ground_l_star, row.ground_a_star, row.ground_b_star) == (88.0, 0.4, 9.0)
    assert filled_with(client, url("swatches.change", key=row.pk))["ground"] == "88 0.4 9"
    piece = cast.a_piece(garden, ground_l_star=86.0, ground_a_star=0.2, ground_b_star=11.0)
    of_piece = cast.a_swatch(garden, piece=piece)
    facts = dict(client.get(url("swatches.show", key=of_piece.pk)).context["page"].facts)
    assert "86.0" in facts["The same cloth undyed"]


def test_a_spread_that_nobody_knows_stays_empty(client: Client, garden: Garden) -> None:
    client.post(WHERE, TYPED | {"lab_sd": "", "dips": "", "fibre": "", "jar": ""})
    row = Swatch.objects.get()
    assert (row.l_sd, row.dips, row.fibre, row.jar) == (None, None, "", None)


@pytest.mark.parametrize(
    ("change", "field", "says"),
    [
        ({"lab": "34.2 -1.6"}, "lab", "three numbers"),
        ({"lab": "blue"}, "lab", "three numbers"),
        ({"lab": "134 -1.6 -23.1"}, "lab", "L cannot be 134; it lies from 0 to 100"),
        ({"lab": "34 -1.6 -231"}, "lab", "b cannot be -231"),
        ({"lab": ""}, "lab", "Give L, a, b, or the spectrum"),
        ({"spectrum": FLAT}, "spectrum", "not both"),
        ({"lab": "", "spectrum": "400 0.1"}, "spectrum", "1 lines with two numbers; give at least 16"),
        ({"lab": "", "spectrum": FLAT.replace("520", "19230")}, "spectrum", "19230 is no wavelength"),
        (
            {"lab": "", "spectrum": FLAT.replace("520 0.1", "520 -0.1")},
            "spectrum",
            "-0.1 at 520 nm is less than nothing",
        ),
        ({"lab_sd": "-1"}, "lab_sd", "cannot be -1"),
        ({"dips": "0"}, "dips", "greater than or equal to 1"),
        ({"k_over_s": "-3"}, "k_over_s", "greater than or equal to 0"),
        ({"measured_at": "2099-01-01T10:00"}, "measured_at", "still to come"),
        ({"fibre": "asbestos"}, "fibre", "not one of"),
        ({"jar": "00000000-0000-4000-8000-000000000000"}, "jar", "not one of"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, change: dict[str, str], field: str, says: str
) -> None:
    unchanged = no_rows(Swatch)
    refused(client, WHERE, TYPED | change, field=field, says=says)
    unchanged()


def test_a_colour_measured_elsewhere_is_brought_along(client: Client, garden: Garden) -> None:
    """The address of a page that measured one names it, so that nobody types it again."""
    jar = cast.a_jar_from_the_bed(garden)
    asked = {"lab": "34.2 -1.6 -23.1", "lab_sd": "0.9 0.7 0.8", "how": "card", "jar": str(jar.pk), "note": "not this"}
    form = client.get(WHERE, asked).context["form"]
    held = {name: form[name].value() for name in ("lab", "lab_sd", "how", "jar", "note")}
    assert held == asked | {"note": None}


def test_another_s_jar_is_not_offered(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_jar_from_the_bed(other_garden)
    refused(client, WHERE, TYPED | {"jar": str(theirs.pk)}, field="jar", says="not one of")


def test_its_photos_are_kept_with_it(client: Client, garden: Garden) -> None:
    client.post(WHERE, TYPED | {"photos": [sent()]})
    assert Photo.objects.get().about_id == Swatch.objects.get().pk


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE, "post")


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")


def test_a_sample_of_a_measured_photo_is_kept_with_where_it_was_measured(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    found = measured_cloth(client, garden, of=jar, kind="jar")
    page = client.get(url("measured.show", key=found.pk)).context["page"]
    (link,) = page.swatches
    typed = filled_with(client, link.to) | {"name": "First dip", "of": "cloth"}
    assert (typed["how"], typed["jar"]) == ("photo", str(jar.pk))
    client.post(link.to, typed)
    row = Swatch.objects.get()
    lab, sd = (found.answer["samples"][0][name] for name in ("lab", "lab_sd"))
    assert (row.l_star, row.a_star, row.b_star) == pytest.approx(lab, rel=1e-5)
    assert (row.l_sd, row.a_sd, row.b_sd) == pytest.approx(sd, rel=1e-5)
    assert (row.measured_key, row.measured_sample, row.jar) == (found.pk, 0, jar)
    shown = client.get(url("swatches.show", key=row.pk)).context["page"]
    assert shown.measured == url("measured.show", key=found.pk)


def test_a_colour_typed_anew_is_no_longer_the_measured_one(client: Client, garden: Garden) -> None:
    found = measured_cloth(client, garden, of=cast.a_jar_from_the_bed(garden), kind="jar")
    where = f"{WHERE}?measured={found.pk}&sample=0"
    client.post(where, filled_with(client, where) | {"lab": "30 0 -20"})
    assert Swatch.objects.get().measured_key is None


@pytest.mark.parametrize("asked", ["measured=x", f"measured={NOBODY}&sample=0", "sample=1", "measured=&sample=x"])
def test_a_measurement_that_is_not_there_leaves_the_form_empty(client: Client, garden: Garden, asked: str) -> None:
    response = client.get(f"{WHERE}?{asked}")
    assert (response.status_code, response.context["form"]["lab"].value()) == (200, None)


def test_there_is_no_sample_beyond_the_last(client: Client, garden: Garden) -> None:
    found = measured_cloth(client, garden, of=cast.a_jar_from_the_bed(garden), kind="jar")
    for number in ("1", "-1"):
        form = client.get(WHERE, {"measured": str(found.pk), "sample": number}).context["form"]
        assert form["lab"].value() is None


def test_a_piece_brings_along_what_is_known_of_it_and_leads_back_to_it(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden, fibre="other_cellulose")
    cast.a_dip(piece, cast.a_made_vat(garden))
    where = f"{WHERE}?piece={piece.pk}"
    typed = filled_with(client, where)
    assert (typed["name"], typed["fibre"], typed["dips"], typed["piece"]) == ("Piece 9", "viscose", 1, str(piece.pk))
    response = client.post(where, typed | {"lab": "34 -1 -23", "how": "card"})
    assert response["Location"] == url("cloth.show", key=piece.pk)
    assert Swatch.objects.get().piece == piece


def test_a_photo_of_a_piece_becomes_its_swatch(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    found = measured_cloth(client, garden, of=piece, kind="piece")
    link = client.get(url("measured.show", key=found.pk)).context["page"].swatches[0]
    client.post(link.to, filled_with(client, link.to))
    assert client.get(url("cloth.show", key=piece.pk)).context["page"].row.patch.colour


def test_another_s_piece_is_not_offered(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    refused(client, WHERE, TYPED | {"piece": str(theirs.pk)}, field="piece", says="not one of")
