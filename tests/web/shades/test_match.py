"""`/shades/swatch/<key>/`: how many dips come to a swatch, and whether the vat or jar of today matches it."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
TYPED = {
    "source": "typed", "active_g_per_l": "1.2", "active_sd_pct": "10", "bath": "40 L", "piece": "", "fibre": "wool",
    "mass": "500 g", "within_de00": "2",
}  # fmt: skip


def test_with_guesses_alone_the_page_says_first_what_would_help(client: Client, garden: Garden) -> None:
    """A deep blue by guesses: every strength hits one time in ten or so; a ladder of the cloth is what helps."""
    page = client.get(url("shades.match", key=cast.a_swatch(garden).pk), TYPED).context["page"]
    assert page.answer.lines[0].startswith("What helps most first: a ladder of this cloth in this vat;")
    assert page.beside == "" and page.ladder.endswith("?fibre=wool")


def test_with_a_ladder_it_says_what_guesses_alone_would_have_said(client: Client, garden: Garden) -> None:
    """The ladder's own fourth strip: three to five dips come to it with a fair chance."""
    cast.a_done_ladder(garden)
    swatch = cast.a_swatch(garden, l_star=38.9, a_star=-1.6, b_star=-20.2)
    page = client.get(url("shades.match", key=swatch.pk), TYPED).context["page"]
    assert page.answer.first.startswith(tuple(f"{dips} dips at 1.2 g/L: " for dips in (3, 4, 5, 6))), "the vat as it is"
    assert "by your ladders the chance is" in page.beside


def test_a_piece_and_a_jar_of_today_answer_for_last_year_s_swatch(client: Client, garden: Garden) -> None:
    jar, piece = cast.a_jar_from_the_bed(garden, purity_frac=0.3, purity_sd_frac=0.03), cast.a_piece(garden)
    where = url("shades.match", key=cast.a_swatch(garden).pk)
    response = client.get(where)
    form = response.context["form"]
    assert (form["source"].value(), form["piece"].value()) == (f"jar-{jar.pk}", str(piece.pk))
    assert response.context["page"].answer is not None


def test_a_mistake_is_said_and_only_one_s_own_is_shown(client: Client, garden: Garden, other_garden: Garden) -> None:
    where = url("shades.match", key=cast.a_swatch(garden).pk)
    response = client.get(where, TYPED | {"mass": ""})
    assert response.status_code == 422 and "how heavy the cloth is" in response.content.decode()
    for key in (NOBODY, cast.a_swatch(other_garden).pk):
        assert client.get(url("shades.match", key=key)).status_code == 404
    only(client, where, "get")
    to_the_start_without_a_garden(client, where)
