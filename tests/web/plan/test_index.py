"""`/plan/`: what the wants take, what matters most, the days back."""

import pytest
from django.test import Client

from bluewright.journal.bridge import outlooks, scheduling
from bluewright.journal.models import Garden, PlanBasis, Schedule
from bluewright.web.pages.plan import views
from bluewright.words.numbers import weekday
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url
from tests.web.growing.conftest import a_grown_bed

pytestmark = pytest.mark.django_db


def where() -> str:
    return url("plan.index")


def test_one_sentence_first_then_what_it_takes_and_what_matters(client: Client, garden: Garden) -> None:
    cast.a_want(garden)
    page = client.get(where()).context["page"]
    assert page.answer.first.startswith("Sow ")
    assert "for a four-in-five chance" in page.answer.first
    assert [table.caption for table in page.answer.tables][:2] == ["What each takes", "What matters most"]
    assert page.answer.why is not None
    (row,) = page.wanted
    assert row.said.startswith("1 kg of wool to medium blue, by ")


def test_days_are_drawn_and_told_where_the_garden_says_where_it_lies(client: Client, garden: Garden) -> None:
    cast.a_want(garden)
    response = client.get(where())
    assert response.context["page"].needs_place
    assert "Where does the garden lie?" in response.content.decode()
    garden.latitude_deg = 51.0
    garden.save()
    page = client.get(where()).context["page"]
    assert not page.needs_place
    assert "By when must each step begin?" in page.answer.chart
    assert page.answer.tables[-1].caption.startswith("Begin each by")


def test_wants_come_before_the_drawing_and_tables_are_folded(client: Client, garden: Garden) -> None:
    garden.latitude_deg = 51.0
    garden.save()
    cast.a_want(garden)
    text = client.get(where()).content.decode()
    places = [text.index(part) for part in ('class="call"', "<h2>Wanted</h2>", 'class="chart"', "<details>")]
    assert places == sorted(places)
    assert text.index("What each takes</summary>") > places[-1]


def test_it_leads_to_the_schedule_and_says_what_is_planned_next(client: Client, garden: Garden) -> None:
    response = client.get(where())
    assert response.context["page"].next_planned == ""
    assert f'href="{url("schedule.index")}">The season' in response.content.decode()
    cast.a_season(garden)
    scheduling.reckon(garden, by=None, quick=True)
    row = Schedule.objects.get(garden=garden)
    answer = scheduling.answer_of(row)
    assert answer is not None
    first = min([one.on for one in answer.cuts] + [one.strain_on for one in answer.steeps])
    said = client.get(where()).context["page"].next_planned
    assert said.startswith(f"Planned next, on {weekday(first)}: ")
    assert f'href="{where()}"' in client.get(url("schedule.index")).content.decode().split("</h1>")[1]


def test_nothing_wanted_asks_what_is_wanted(client: Client, garden: Garden) -> None:
    response = client.get(where())
    assert response.context["page"].answer is None
    assert "What do you want of the season?" in response.content.decode()


def test_what_is_done_or_dropped_asks_for_nothing(client: Client, garden: Garden) -> None:
    cast.a_want(garden, state="done", name="scarf")
    cast.a_want(garden, state="dropped", name="cap")
    page = client.get(where()).context["page"]
    assert page.answer is None
    assert {row.name for row in page.past} == {"scarf", "cap"}


def test_jars_that_will_do_are_said_first(client: Client, garden: Garden) -> None:
    """A jar of 12 g with 40 % of indigo holds 4.6 g: enough for half a gram, not for a kilogram of navy."""
    jar = cast.a_jar_from_the_bed(garden)
    jar.purity_frac, jar.purity_sd_frac = 0.4, 0.02
    jar.save()
    cast.a_want(garden, what="pigment", name="a sample", mass_g=0.5, mass_typed="0.5 g", fibre="", depth="")
    page = client.get(where()).context["page"]
    assert page.answer.first.startswith("The jars will do")
    assert page.can_dye is not None
    assert not page.unknown


def test_a_jar_that_was_not_measured_is_counted_and_named(client: Client, garden: Garden) -> None:
    cast.a_jar_from_the_bed(garden, name="Blue jar")
    cast.a_want(garden)
    page = client.get(where()).context["page"]
    assert "Blue jar" in page.unknown
    assert any("from the jars" in line for line in page.answer.lines)


def test_own_batches_count(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    jar.purity_frac, jar.purity_sd_frac = 0.4, 0.02
    jar.save()
    cast.a_want(garden)
    lines = " ".join(client.get(where()).context["page"].answer.lines)
    assert "your 1 batch counts for" in lines


def test_an_overdue_want_is_due_today(client: Client, garden: Garden) -> None:
    garden.latitude_deg = 51.0
    garden.save()
    cast.a_want(garden, days_ahead=-20)
    (row,) = client.get(where()).context["page"].wanted
    assert "comes in time" in row.slack or "late by" in row.slack


def test_how_the_garden_works_counts(client: Client, garden: Garden) -> None:
    cast.a_want(garden)
    before = client.get(where()).context["page"].answer
    cast.keep(PlanBasis(garden=garden, vat_l=40.0, vat_typed="40 L", tub_l=50.0, tub_typed="50 L", chance=0.9), by=None)
    after = client.get(where()).context["page"].answer
    assert "nine-in-ten" in after.first
    assert "what stays in the vat" in [row[1][0] for row in after.tables[0].rows]
    assert "fills the tub" in " ".join(after.lines) and "fills the tub" not in " ".join(before.lines)


def test_a_us_garden_reads_square_feet(client: Client, garden: Garden) -> None:
    garden.system = "us"
    garden.save()
    cast.a_want(garden)
    assert "sq ft" in client.get(where()).context["page"].answer.first


def test_the_same_as_json(client: Client, garden: Garden) -> None:
    cast.a_want(garden)
    twin = client.get(where(), {"as": "json"}).json()
    assert twin["answer"]["first"].startswith("Sow ")
    assert twin["wanted"][0]["name"] == "two shawls"


def test_beds_that_stand_count(client: Client, garden: Garden) -> None:
    """A bed of woad that still gives leaf: its row, and only what is missing is to be sown."""
    bed = a_grown_bed(garden)
    cast.a_want(garden, days_ahead=None)
    outlooks.reckon(garden, today=cast.a_day())
    page = client.get(where()).context["page"]
    beds = [table for table in page.answer.tables if table.caption.startswith("What the beds that stand")]
    assert bed.name in [row[1][0] for table in beds for row in table.rows]
    assert " more of woad" in page.answer.first or "What stands will do" in page.answer.first


def test_until_beds_are_reckoned_it_says_so_and_has_them_reckoned(
    client: Client, garden: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[object] = []
    monkeypatch.setattr(views.ASIDE, "ask", lambda key, work: asked.append(key) or True)
    a_grown_bed(garden)
    response = client.get(where())
    assert response.context["page"].waits
    assert "is not counted yet" in response.content.decode()
    assert asked == [garden.pk]


def test_more_beds_need_no_more_statements(client: Client, garden: Garden) -> None:
    a_grown_bed(garden)
    cast.a_want(garden)

    def more() -> None:
        bed = cast.a_bed(garden, name="another", area_m2=10.0, area_typed="10 m2")
        cast.a_bed_look(bed, days_ago=80, began="sown")

    flat(client, where(), more)


def test_another_garden_s_wants_are_not_seen(client: Client, garden: Garden, other_garden: Garden) -> None:
    cast.a_want(other_garden)
    assert client.get(where()).context["page"].wanted == ()


def test_more_wants_and_jars_need_no_more_statements(client: Client, garden: Garden) -> None:
    cast.a_want(garden)
    cast.a_jar_from_the_bed(garden)

    def more() -> None:
        cast.a_want(garden, name="another")
        jar = cast.a_jar_from_the_bed(garden)
        cast.an_assay(jar)

    jar = cast.a_jar_from_the_bed(garden)
    cast.an_assay(jar)
    flat(client, where(), more)


def test_only_reading(client: Client, garden: Garden) -> None:
    only(client, where(), "get")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, where())
