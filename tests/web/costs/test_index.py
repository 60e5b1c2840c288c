"""`/costs/`: what the blue of a year takes."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from bluewright.journal.queries import work
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where() -> str:
    return url("costs.index")


def priced(garden: Garden) -> Garden:
    garden.currency, garden.wage_money_per_h, garden.price_money_per_g = "EUR", 12.0, 14.0
    garden.save()
    return garden


def test_without_a_batch_it_says_so_and_takes_notes(client: Client, garden: Garden) -> None:
    response = client.get(where())
    assert response.status_code == 200
    page = response.content.decode()
    assert response.context["page"].answer is None
    assert "No batch was begun in this year" in page
    assert "Start the clock" in page


def test_a_gram_stands_first_and_money_where_there_is_a_price(client: Client, garden: Garden) -> None:
    cast.a_jar_from_the_bed(garden)
    assert client.get(where()).context["page"].answer.first.startswith("A gram of pure blue took ")
    priced(garden)
    page = client.get(where()).context["page"]
    assert page.answer.first.startswith("A gram of pure blue cost ")
    assert any(line.startswith("At 14 EUR a gram of pure blue an hour of work earns ") for line in page.answer.lines)
    assert page.prices == "Reckoned with: an hour of work 12 EUR, a gram of pure blue is sold at 14 EUR."


def test_what_is_wanted_first_stands_first_and_the_rest_is_folded(client: Client, garden: Garden) -> None:
    for _ in range(2):
        cast.a_jar_from_the_bed(garden)
    cast.a_work_note(garden)
    response = client.get(where())
    page, text = response.context["page"], response.content.decode()
    assert len(page.answer.lines) <= 3
    assert any("that was not noted" in line or line.startswith("Estimated ") for line in page.more)
    places = [text.index(part) for part in (
        page.answer.first[:30], "<svg", page.batches.caption, f"<summary>{page.parts.caption}", "What the alkali cost",
        "Work that was written down",
    )]  # fmt: skip
    assert places == sorted(places)


def test_minutes_are_told_in_hours_where_they_are_many(client: Client, garden: Garden) -> None:
    cast.a_work_note(garden, 60.0, spent_typed="60 min")
    assert [row.said for row in client.get(where()).context["page"].notes] == ["picking: 1 h"]


@pytest.mark.parametrize("what", ["batch", "tub", "bed"])
def test_from_a_batch_a_tub_or_a_bed_the_form_opens_for_it(client: Client, garden: Garden, what: str) -> None:
    tub = cast.a_tub(garden)
    row = {"batch": cast.a_batch(cast.a_straining(tub)), "tub": tub, "bed": cast.a_bed(garden)}[what]
    noun = {"batch": "batches", "tub": "tubs", "bed": "beds"}[what]
    link = f"{where()}?of={what}:{row.pk}"
    assert f'href="{link}#work"' in client.get(url(f"{noun}.show", key=row.pk)).content.decode()
    page = client.get(link)
    assert '<details id="work" class="part doing" open' in page.content.decode()
    for form in (page.context["form"], page.context["start"]):
        assert f'value="{what}:{row.pk}" selected' in str(form["about"])


def test_an_older_batch_can_be_chosen_too_and_a_stranger_s_cannot(
    client: Client, garden: Garden, other_garden: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(work, "CHOICES", 0)
    batch = cast.a_batch(cast.a_straining(cast.a_tub(garden)))
    strange = cast.a_batch(cast.a_straining(cast.a_tub(other_garden)))
    shown = client.get(where(), {"of": f"batch:{batch.pk}"}).context["form"]
    assert f'value="batch:{batch.pk}" selected' in str(shown["about"])
    for asked in (f"batch:{strange.pk}", "batch:", "nothing", "bed:no-key"):
        response = client.get(where(), {"of": asked})
        assert response.status_code == 200
        assert "selected" not in str(response.context["form"]["about"]).replace('value="" selected', "")


def test_a_batch_tells_the_work_noted_for_it(client: Client, garden: Garden) -> None:
    batch = cast.a_batch(cast.a_straining(cast.a_tub(garden)))
    page = url("batches.show", key=batch.pk)
    assert client.get(page).context["page"].work == ""
    for minutes in (40.0, 25.0):
        cast.a_work_note(garden, minutes, batch=batch)
    cast.a_work_note(garden)
    cast.a_work_note(garden, None, batch=batch)
    assert client.get(page).context["page"].work == "Work noted for it: 1 h 5 min."


def test_notes_are_listed_with_what_they_were_for(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden, name="Long bed")
    cast.a_work_note(garden, 90.0, kind="bed", bed=bed, spent_typed="1 h 30 min")
    cast.a_work_note(garden, 65.0, spent_typed="")
    said = [row.said for row in client.get(where()).context["page"].notes]
    assert sorted(said) == ["picking: 1 h 5 min", "work on the beds, Long bed: 1 h 30 min"]


def test_a_clock_that_runs_stands_on_top(client: Client, garden: Garden) -> None:
    row = cast.a_work_note(garden, None, hours_ago=0.5)
    page = client.get(where())
    (running,) = page.context["page"].running
    assert running.said.startswith("picking: ")
    assert url("costs.stop", key=row.pk) in page.content.decode()
    assert page.context["page"].notes == ()


def test_other_years_are_asked_for_by_their_number(client: Client, garden: Garden) -> None:
    cast.a_work_note(garden, hours_ago=24 * 500)
    then = cast.moment(24 * 500).year
    page = client.get(where(), {"year": str(then)}).context["page"]
    assert page.year == then
    assert len(page.notes) == 1
    assert client.get(where(), {"year": "77"}).context["page"].year == cast.moment().year


def test_another_garden_s_work_is_not_in_it(client: Client, garden: Garden, other_garden: Garden) -> None:
    cast.a_work_note(other_garden)
    cast.a_jar_from_the_bed(other_garden)
    page = client.get(where()).context["page"]
    assert page.notes == ()
    assert page.answer is None


def test_many_rows_take_as_many_statements_as_one(client: Client, garden: Garden) -> None:
    cast.a_jar_from_the_bed(garden)
    cast.a_work_note(garden)

    def more() -> None:
        for _ in range(3):
            cast.a_jar_from_the_bed(garden)
            cast.a_work_note(garden)

    flat(client, where(), more)


def test_its_twin_in_json_has_the_same_figures(client: Client, garden: Garden) -> None:
    cast.a_jar_from_the_bed(garden)
    found = client.get(where(), {"as": "json"}).json()
    assert found["answer"]["first"] == client.get(where()).context["page"].answer.first


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(), "get")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client, garden: Garden) -> None:
    to_the_start_without_a_garden(client, where())
