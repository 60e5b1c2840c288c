"""`/ladders/<key>/strips/`: masses and colours of all strips."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder, LadderRung
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, url

pytestmark = pytest.mark.django_db


def typed(client: Client, ladder: Ladder, **of_first: str) -> dict[str, str]:
    """The form as it opens, with what is typed of the first strip."""
    first = ladder.rungs.all()[0]
    found = filled_with(client, url("ladders.strips", key=ladder.pk))
    return found | {f"{name}-{first.pk}": text for name, text in of_first.items()}


def test_what_is_known_is_kept_and_the_rest_stays_empty(client: Client, ladder: Ladder) -> None:
    where = url("ladders.strips", key=ladder.pk)
    client.post(where, typed(client, ladder, before="5.02 g", after="5.06 g", lab="60 -4 -15", k_over_s="2,1"))
    one, two, _four = ladder.rungs.all()
    assert (one.before_g, one.after_g, one.before_typed) == (5.02, 5.06, "5.02 g")
    assert (one.l_star, one.a_star, one.b_star, one.k_over_s) == (60.0, -4.0, -15.0, 2.1)
    assert (two.before_g, two.l_star, two.k_over_s) == (None, None, None)
    client.post(where, filled_with(client, where))
    assert ladder.rungs.all()[0].changed_at == one.changed_at, "nothing was changed"


def test_a_colour_typed_over_a_measured_one_goes_before_it(client: Client, ladder: Ladder) -> None:
    swatch = cast.a_swatch(ladder.garden)
    LadderRung.objects.filter(ladder=ladder, dips=1).update(swatch=swatch)
    assert typed(client, ladder)[f"lab-{ladder.rungs.all()[0].pk}"] == "34.2 -1.6 -23.1"
    client.post(url("ladders.strips", key=ladder.pk), typed(client, ladder, lab="50 0 -10"))
    first = ladder.rungs.all()[0]
    assert (first.swatch, first.l_star) == (None, 50.0)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"before": "5 g", "after": "50 g"}, "50 g cannot be"),
        ({"lab": "blue"}, "three numbers"),
        ({"dips": "0"}, "greater than or equal to 1"),
    ],
)
def test_a_mistake_keeps_what_was_typed(client: Client, ladder: Ladder, change: dict[str, str], says: str) -> None:
    response = client.post(url("ladders.strips", key=ladder.pk), typed(client, ladder, **change))
    assert response.status_code == 422
    assert says in response.content.decode()
    assert not LadderRung.objects.exclude(before_g=None).exists()


def test_only_one_s_own(client: Client, ladder: Ladder, theirs: Ladder) -> None:
    for key in (NOBODY, theirs.pk):
        assert client.get(url("ladders.strips", key=key)).status_code == 404
    only(client, url("ladders.strips", key=ladder.pk), "get", "post")
