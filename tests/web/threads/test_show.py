"""`/threads/<kind>/<key>/`: the whole chain from the bed to the uses."""

import pytest
from django.test import Client

from bluewright.journal.models import Bed, Garden, Jar
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def jar(garden: Garden) -> Jar:
    found = cast.a_jar_from_the_bed(garden, 12.3)
    cast.taken(found, 5.0, what_for="wool vat")
    return found


def where(jar: Jar) -> str:
    return url("threads.show", kind="jar", key=jar.pk)


def test_it_goes_from_the_bed_to_the_use_oldest_first_with_figures(client: Client, jar: Jar) -> None:
    page = client.get(where(jar)).context["page"]
    bed, picking, tub, batch, last = (level.knots[0] for level in page.levels)
    assert (bed.name, bed.said, bed.came) == ("Wall bed", "Woad, sown", "")
    assert (picking.said, picking.came) == ("3 kg of woad leaf, young", "From Wall bed")
    assert tub.said.startswith("Woad in 30 L of water; strained ")
    assert tub.said.endswith(": 28 L")
    assert tub.came.startswith("3 kg of the picking of ")
    assert batch.came == "All of Tub 9"
    assert (last.said, last.came) == ("12.3 g of dry pigment, 7.3 g left", "12.3 g of Batch 9")
    assert page.uses[0].endswith(": 5 g out of Jar 9 for wool vat")


def test_every_thing_on_it_opens_and_shows_the_same_thread(client: Client, jar: Jar) -> None:
    page = client.get(where(jar)).context["page"]
    shown = [knot.name for level in page.levels for knot in level.knots]
    for knot in (knot for level in page.levels for knot in level.knots):
        assert client.get(knot.href).status_code == 200
        other = client.get(url("threads.show", kind=knot.kind, key=knot.key)).context["page"]
        assert [one.name for level in other.levels for one in level.knots] == shown
        assert [one.kind for level in other.levels for one in level.knots if one.here] == [knot.kind]


def test_it_reads_aloud_as_headings_and_lists(client: Client, jar: Jar) -> None:
    said = client.get(where(jar)).content.decode()
    assert said.index("<h2>Beds</h2>") < said.index("<h2>Tubs</h2>") < said.index("<h2>Used</h2>")
    assert said.count('aria-current="true"') == 1


def test_a_bed_from_which_nothing_was_taken_stands_alone(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden)
    page = client.get(url("threads.show", kind="bed", key=bed.pk)).context["page"]
    assert [level.name for level in page.levels] == ["Beds"]
    assert page.uses == ()


def test_a_tub_that_steeps_and_a_batch_given_up_say_so(client: Client, garden: Garden) -> None:
    tub = cast.a_tub(garden)
    steeping = client.get(url("threads.show", kind="tub", key=tub.pk)).context["page"]
    assert steeping.levels[-1].knots[0].said.endswith("still steeping")
    batch = cast.a_batch(cast.a_straining(tub), ended_at=cast.moment(), ended_why="spilt")
    cast.an_airing(batch)
    given_up = client.get(url("threads.show", kind="batch", key=batch.pk)).context["page"]
    said = given_up.levels[-1].knots[0].said
    assert said.startswith("Aired: poured from vessel to vessel; given up ")
    assert said.endswith("(spilt)")


def test_names_are_shown_as_text(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden, name="<script>x</script>")
    assert "<script>x" not in client.get(url("threads.show", kind="bed", key=bed.pk)).content.decode()


def test_a_wrong_key_or_kind_has_no_thread(client: Client, jar: Jar) -> None:
    assert client.get(url("threads.show", kind="jar", key=NOBODY)).status_code == 404
    assert client.get(url("threads.show", kind="tub", key=jar.pk)).status_code == 404
    assert client.get(url("threads.show", kind="vat", key=jar.pk)).status_code == 404
    assert client.get(url("threads.show", kind="field", key=jar.pk)).status_code == 404


def test_a_stranger_s_thread_is_not_there(client: Client, garden: Garden) -> None:
    assert client.get(where(cast.a_jar_from_the_bed(cast.a_garden()))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("threads.show", kind="jar", key=NOBODY))


def test_it_is_only_read(client: Client, jar: Jar) -> None:
    only(client, where(jar), "get")


def test_a_longer_thread_needs_no_more_statements(client: Client, garden: Garden, jar: Jar) -> None:
    batch = jar.came_from.get().batch

    def more() -> None:
        for _ in range(2):
            tub = cast.a_tub(garden, leaf=[(cast.a_picking(garden, beds_of=[cast.a_bed(garden)]), 2.0)])
            batch.came_from.create(strain=cast.a_straining(tub), liquor_l=5.0, liquor_typed="5 L")
            cast.taken(jar, 1.0)
            cast.a_jar((batch, 2.0))

    flat(client, where(jar), more)


def test_its_json_twin_says_the_same(client: Client, jar: Jar) -> None:
    page = client.get(where(jar)).context["page"]
    twin = client.get(where(jar), {"as": "json"}).json()
    assert [[knot["said"] for knot in level["knots"]] for level in twin["levels"]] == [
        [knot.said for knot in level.knots] for level in page.levels
    ]


def test_what_is_left_out_of_a_long_thread_is_counted(
    client: Client, jar: Jar, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bluewright.journal.queries.threads.MOST", 1)
    bed = Bed.objects.get(taken__picking__went_into__steep__strains__went_into__into__jarred__jar=jar)
    cast.a_picking(jar.garden, beds_of=[bed], picked_at=cast.moment(500))
    page = client.get(url("threads.show", kind="bed", key=bed.pk)).content.decode()
    assert "1 older one is left out." in page


def test_it_goes_on_through_the_vat_to_the_cloth_and_back(client: Client, garden: Garden, jar: Jar) -> None:
    taken = cast.taken(jar, 2.0)
    vat, piece = cast.a_vat(garden), cast.a_piece(garden)
    cast.a_vat_addition(vat, mass_g=2.0, taken=taken)
    for hours_ago in (3, 2, 1):
        cast.a_dip(piece, vat, hours_ago=hours_ago)
    cast.a_swatch(garden, piece=piece, jar=jar, name="Corner")
    page = client.get(where(jar)).context["page"]
    in_vat, cloth = (level.knots[0] for level in page.levels[-2:])
    assert (in_vat.said, in_vat.came) == ("Fructose and lime, 40 L", "2 g of Jar 9")
    assert (cloth.said, cloth.came) == ("Wool, 500 g", "3 dips in Vat 9")
    assert [one.name for one in page.swatches] == ["Corner"]
    shown = [knot.name for level in page.levels for knot in level.knots]
    for kind, key in (("piece", piece.pk), ("vat", vat.pk), ("bed", page.levels[0].knots[0].key)):
        other = client.get(url("threads.show", kind=kind, key=key)).context["page"]
        assert [knot.name for level in other.levels for knot in level.knots] == shown


def test_bought_powder_leads_to_no_jar(client: Client, garden: Garden, jar: Jar) -> None:
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    cast.a_dip(piece, vat)
    page = client.get(url("threads.show", kind="piece", key=piece.pk)).context["page"]
    assert [level.name for level in page.levels] == ["Vats", "Cloth"]
