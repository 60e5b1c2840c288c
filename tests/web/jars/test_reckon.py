"""`/jars/reckon/`: work out what the jars hold that no page has told yet."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge import stock
from bluewright.journal.models import Garden, Jar, YieldSeen
from bluewright.web.pages.jars import views
from tests import cast
from tests.web.checks import only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def filled(garden: Garden, **tub: object) -> Jar:
    strain = cast.a_straining(cast.a_tub(garden, **tub), liquor_out_l=28.0, liquor_typed="28 L")
    return cast.a_jar((cast.a_batch(strain), 9.0))


def test_every_jar_is_reckoned_once_and_the_list_tells_it(client: Client, garden: Garden) -> None:
    jar = filled(garden)
    assert client.get(url("jars.index")).context["page"].unknown
    assert client.post(url("jars.reckon"))["Location"] == url("jars.index")
    assert YieldSeen.objects.filter(jar=jar).count() == 1
    assert not client.get(url("jars.index")).context["page"].unknown
    client.post(url("jars.reckon"))
    assert YieldSeen.objects.filter(jar=jar).count() == 1


def test_beside_the_pages_nothing_is_written_and_a_changed_jar_is_reckoned_anew(client: Client, garden: Garden) -> None:
    jar = filled(garden)
    stock.reckon(garden)
    assert not client.get(url("jars.index")).context["page"].unknown
    assert not client.get(url("stock.index")).context["page"].unknown
    assert not YieldSeen.objects.exists()
    keep(jar, by=None)
    assert client.get(url("jars.index")).context["page"].unknown


def test_more_than_a_handful_are_left_for_the_next_press(
    client: Client, garden: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(views, "MOST_AT_ONCE", 1)
    filled(garden)
    filled(garden)
    assert "1 jar is left" in client.post(url("jars.reckon"), follow=True).content.decode()
    assert YieldSeen.objects.count() == 1


def test_a_jar_of_unknown_leaf_says_why(client: Client, garden: Garden) -> None:
    filled(garden, leaf=[])
    assert "leaf" in client.post(url("jars.reckon"), follow=True).content.decode()
    assert not YieldSeen.objects.exists()


def test_a_stranger_s_jars_are_left_alone(client: Client, garden: Garden, other_garden: Garden) -> None:
    filled(other_garden)
    client.post(url("jars.reckon"))
    assert not YieldSeen.objects.exists()


def test_it_is_only_posted(client: Client, garden: Garden) -> None:
    only(client, url("jars.reckon"), "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jars.reckon"), method="post")
