"""`/tubs/<key>/`: one tub, its call and its story."""

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import CallSeen, Garden, Steep
from bluewright.words.numbers import about
from bluewright.words.numbers import moment as said
from tests.cast import a_call_seen, a_look, a_picking, a_tub, moment
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(tub: Steep) -> str:
    return url("tubs.show", key=tub.pk)


def localtime(time: datetime) -> datetime:
    return time.astimezone(ZoneInfo("Europe/London"))


def hour(hours_ahead: float) -> str:
    return about(localtime(moment(-hours_ahead)))


def test_a_tub_that_steeps_has_a_call_a_chart_and_its_looks(client: Client, steeping: Steep) -> None:
    response = client.get(where(steeping))
    assert response.status_code == 200
    page = response.context["page"]
    assert page.call.advice in {"wait", "strain", "strain_past_peak"}
    assert page.call.options
    assert page.call.chart.startswith("<svg")
    assert page.call.cautions
    assert len(page.looks) == steeping.readings.count()
    said = response.content.decode()
    for way in ("tubs.look", "tubs.strain"):
        assert url(way, key=steeping.pk) in said


def test_the_call_that_was_seen_is_kept_once(client: Client, steeping: Steep) -> None:
    client.get(where(steeping))
    client.get(where(steeping))
    assert CallSeen.objects.filter(steep=steeping).count() == 1


def test_a_tub_that_is_strained_has_no_call_but_its_straining(client: Client, strained: Steep) -> None:
    page = client.get(where(strained)).context["page"]
    assert page.call is None
    assert page.trouble == ""
    assert "38 L" in page.strained.said
    assert not CallSeen.objects.exists()


def test_a_tub_without_a_look_has_a_call_all_the_same(client: Client, garden: Garden) -> None:
    page = client.get(where(a_tub(garden))).context["page"]
    assert page.looks == ()
    assert page.call is not None


def test_where_no_forecast_can_be_made_it_says_why(client: Client, garden: Garden) -> None:
    page = client.get(where(a_tub(garden, leaf=[]))).context["page"]
    assert page.call is None
    assert "leaf_kg" in page.trouble


def test_a_note_is_shown_as_text(client: Client, steeping: Steep) -> None:
    a_look(steeping, limpness=2, note="<script>alert(1)</script>")
    said = client.get(where(steeping)).content.decode()
    assert "<script>alert" not in said
    assert "&lt;script&gt;alert" in said


def test_a_name_with_angle_brackets_does_no_harm_in_its_drawing(client: Client, garden: Garden) -> None:
    assert "<img src" not in client.get(where(a_tub(garden, name="<img src=x>"))).content.decode()


def test_there_is_no_tub_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("tubs.show", key=NOBODY)).status_code == 404
    assert client.get("/tubs/7/").status_code == 404


def test_a_tub_that_was_taken_out_is_gone(client: Client, steeping: Steep) -> None:
    delete(steeping, by=None)
    assert client.get(where(steeping)).status_code == 404


def test_a_stranger_s_tub_is_not_there(client: Client, strangers_tub: Steep) -> None:
    assert client.get(where(strangers_tub)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("tubs.show", key=NOBODY))


def test_it_is_only_read(client: Client, steeping: Steep) -> None:
    only(client, where(steeping), "get")


def test_more_looks_and_leaf_need_no_more_statements(client: Client, garden: Garden) -> None:
    tub = a_tub(garden, leaf=[(a_picking(garden), 1.0), (a_picking(garden), 1.0)])
    flat(client, where(tub), lambda: [a_look(tub, hours_ago=h, limpness=1) for h in (9, 6, 3)])


def test_every_figure_of_the_call_has_its_way_to_why_it_is_so(client: Client, steeping: Steep) -> None:
    response = client.get(where(steeping))
    said = response.content.decode()
    asked = [
        "strain_at",
        "frac_of_best_now",
        "window",
        "recoverable_g",
        "next_reading",
        "share_curve_frac",
        "temp_curve_c",
    ]
    for figure in asked + [row.figure for row in response.context["page"].call.options]:
        assert f'href="{url("tubs.why", key=steeping.pk, figure=figure)}"' in said
    assert 'aria-label="Why this number: share of the best">why?</a>' in said
    assert said.count("Why this number") == len(asked) + len(response.context["page"].call.options)


def test_an_option_s_why_is_about_that_option(client: Client, steeping: Steep) -> None:
    for row in client.get(where(steeping)).context["page"].call.options:
        why = client.get(url("tubs.why", key=steeping.pk, figure=row.figure)).context["page"]
        told = {part.name: part.said for part in why.figure.parts}
        assert told["Chance of losing a fifth"] == row.risk
        assert row.when == "now" or told["Time"] == row.when


def before(client: Client, tub: Steep) -> list[tuple[str, str, str]]:
    return [(row.when, row.advice, row.window) for row in client.get(where(tub)).context["page"].calls_before]


def test_what_the_call_said_before_is_listed_without_the_one_shown(client: Client, steeping: Steep) -> None:
    assert before(client, steeping) == []
    assert "What the call said before" not in client.get(where(steeping)).content.decode()
    a_call_seen(steeping, hours_ago=4)
    day, end = (said(localtime(moment(-hours))) for hours in (24, 30))
    assert before(client, steeping) == [
        (said(localtime(moment(4))), f"Wait, and strain {day}.", f"Best from about {hour(24)} to {hour(30)}.")
    ]
    assert day != end
    assert "What the call said before" in client.get(where(steeping)).content.decode()


def test_calls_that_said_the_same_one_after_the_other_stand_once(client: Client, strained: Steep) -> None:
    for hours_ago, other in ((9, {}), (8, {}), (7, {"advice": "strain"}), (6, {})):
        a_call_seen(strained, hours_ago=hours_ago, **other)
    rows = before(client, strained)
    assert [when for when, _, _ in rows] == [said(localtime(moment(h))) for h in (6, 7, 8)]
    assert rows[1][1] == "Strain now."


def test_a_call_that_cannot_be_read_is_said_to_be_so(client: Client, strained: Steep) -> None:
    a_call_seen(strained, hours_ago=3, window="soon")
    assert before(client, strained) == [(said(localtime(moment(3))), "It cannot be read by this version.", "")]


def test_more_calls_need_no_more_statements(client: Client, strained: Steep) -> None:
    a_call_seen(strained, hours_ago=30)
    flat(client, where(strained), lambda: [a_call_seen(strained, hours_ago=h, chance_past_peak=h / 99) for h in (9, 8)])


def test_its_json_twin_says_the_same(client: Client, steeping: Steep) -> None:
    page = client.get(where(steeping)).context["page"]
    twin = client.get(where(steeping), {"as": "json"}).json()
    assert twin["name"] == page.name
    assert twin["call"]["headline"] == page.call.headline
    assert [look["said"] for look in twin["looks"]] == [look.said for look in page.looks]


def test_a_tub_that_steeps_says_what_it_weighs_and_a_strained_one_does_not(
    client: Client, garden: Garden, strained: Steep
) -> None:
    """A litre of water weighs a kilogram: 40 L and 3 kg of leaf are 43 kg; 20 L and 1 kg nobody need be told of."""
    picking = a_picking(garden)
    heavy = a_tub(garden, leaf=[(picking, 3.0)], water_l=40.0, water_typed="40 L")
    light = a_tub(garden, leaf=[(picking, 1.0)], water_l=20.0, water_typed="20 L")
    page = client.get(url("tubs.show", key=heavy.pk)).context["page"]
    assert page.weight.startswith("Filled it weighs about 43 kg: ")
    assert client.get(url("tubs.show", key=light.pk)).context["page"].weight == ""
    assert client.get(url("tubs.show", key=strained.pk)).context["page"].weight == ""
