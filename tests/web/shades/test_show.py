"""`/shades/<key>/`: how deep a piece gets, dip by dip."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
TYPED = {"source": "typed", "active_g_per_l": "1.2", "active_sd_pct": "10", "bath": "40 L", "dips": "4"}


def l_star(page: object) -> float:
    """The lightness that the last row of the table begins with."""
    table = next(one for one in page.answer.tables if one.head[1] == "L*")  # type: ignore[attr-defined]
    return float(table.rows[-1][1][1].split()[0])


def test_a_forecast_changes_from_guesses_to_the_person_s_own(client: Client, garden: Garden) -> None:
    """The invented ladder is far paler than is guessed: after four dips its L* is 39, by guesses it is below 30."""
    where = url("shades.show", key=cast.a_piece(garden).pk)
    guessed = client.get(where, TYPED).context["page"]
    assert "guesses from literature" in guessed.rests and guessed.ladder.endswith("?fibre=wool")
    cast.a_done_ladder(garden)
    own = client.get(where, TYPED).context["page"]
    assert own.rests == "It rests on your 1 ladder of wool, 4 strips." and own.ladder == ""
    assert l_star(guessed) < 30
    assert 36 < l_star(own) < 45
    alone = client.get(where, TYPED | {"guess": "on"}).context["page"]
    assert alone.answer.first == guessed.answer.first


def test_a_ladder_of_another_fibre_teaches_nothing_of_this(client: Client, garden: Garden) -> None:
    cast.a_done_ladder(garden)
    page = client.get(url("shades.show", key=cast.a_piece(garden, fibre="cotton").pk), TYPED).context["page"]
    assert page.rests == "It rests on guesses from literature: of cotton you have no ladder of dips yet."


def test_a_vat_of_the_book_is_asked_for_its_strength(client: Client, garden: Garden) -> None:
    """It stands first in the form and answers at once."""
    vat = cast.a_made_vat(garden)
    response = client.get(url("shades.show", key=cast.a_piece(garden).pk))
    page, form = response.context["page"], response.context["form"]
    assert form["source"].value() == f"vat-{vat.pk}"
    assert page.answer is not None and "reduced in it now" in page.enough and page.colour.startswith("#")


def test_a_new_vat_of_a_jar_rests_on_its_purity(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, purity_frac=0.3, purity_sd_frac=0.03)
    unknown = cast.a_jar_from_the_bed(garden, name="unknown")
    where = url("shades.show", key=cast.a_piece(garden).pk)
    asked = {"source": f"jar-{jar.pk}", "powder_g_per_l": "5", "bath": "40 L", "dips": "2"}
    assert client.get(where, asked).context["page"].answer is not None
    page = client.get(where, asked | {"source": f"jar-{unknown.pk}"}).context["page"]
    assert page.answer is None and "nobody knows how much of unknown is indigo" in page.trouble


def test_a_swatch_is_held_beside_it(client: Client, garden: Garden) -> None:
    swatch = cast.a_swatch(garden)
    page = client.get(url("shades.show", key=cast.a_piece(garden).pk), TYPED | {"wanted": str(swatch.pk)}).context[
        "page"
    ]
    assert any("From the wanted swatch" in line for line in page.answer.lines)


def test_a_mistake_is_said_and_before_any_question_there_is_none(client: Client, garden: Garden) -> None:
    where = url("shades.show", key=cast.a_piece(garden).pk)
    assert client.get(where).status_code == 200
    response = client.get(where, TYPED | {"active_g_per_l": ""})
    assert response.status_code == 422 and "Say how strong it is." in response.content.decode()
    page = client.get(where, TYPED | {"bath": "1 L"}).context["page"]
    assert page.answer is None and "too little for 0.5 kg" in page.trouble


def test_only_one_s_own_and_only_read(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_piece(other_garden).pk):
        assert client.get(url("shades.show", key=key)).status_code == 404
    where = url("shades.show", key=cast.a_piece(garden).pk)
    only(client, where, "get")
    to_the_start_without_a_garden(client, where)
