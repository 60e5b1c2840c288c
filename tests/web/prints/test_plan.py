"""`/prints/plan/`: the plan of the season on one sheet, as a page and as a PDF."""

from dataclasses import replace

import pytest
from django.test import Client

from bluewright.journal.bridge import scheduling
from bluewright.journal.models import Garden
from bluewright.web.pages.prints.fit import table
from bluewright.web.pages.prints.plan_sheet import PlanSheet
from bluewright.web.prints import typeset
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url
from tests.web.prints.pdf import marks, pages

pytestmark = pytest.mark.django_db
WHERE = "/prints/plan/"
HOSTILE = "#panic() *x* $y$ <b> \\ שלום \U0001f33f #{[("


@pytest.fixture
def season(garden: Garden) -> Garden:
    """A want, and a schedule that was reckoned for it."""
    cast.a_want(garden, what="pigment", name="a jar", mass_g=30.0, mass_typed="30 g", fibre="", depth="")
    cast.a_season(garden)
    scheduling.reckon(garden, by=None, quick=True)
    return garden


def sheet(client: Client) -> PlanSheet:
    page: PlanSheet = client.get(WHERE).context["page"]
    return page


def test_the_pdf_is_one_page(client: Client, season: Garden) -> None:
    response = client.get(WHERE, {"as": "pdf"})
    assert (response.status_code, response["Content-Type"]) == (200, "application/pdf")
    assert response["Content-Disposition"] == 'inline; filename="plan-plan-of-the-season.pdf"'
    assert pages(response.content) == 1


def test_it_tells_wants_dates_weeks_what_is_given_up_and_cautions(client: Client, season: Garden) -> None:
    page = sheet(client)
    tables = {one.title: [row.cells for row in one.rows] for one in page.tables}
    assert tables["Wanted"][0][0].startswith("a jar: 30 g of pure indigo, as pigment, by ")
    assert tables["Wanted"][-1][0] == "together"
    assert tables["Begin by"][0][0] == "a jar"
    assert any("cut " in row[1] and " to " in row[1] for row in tables["Week of"]), "leaf and blue with their ranges"
    assert any(line.startswith("a jar, 30 g by ") and "chance" in line for line in page.given_up)
    assert page.invented == "invented"
    cautions = " ".join(page.care)
    for what in ("law of the place", "noxious weed", "drop thousands of seeds", "Some skins", "in the sun", "25 kg"):
        assert what in cautions, what
    assert "How it is computed" not in client.get(WHERE).content.decode(), "a sheet, not the page"


def test_a_checked_law_is_told_with_its_day(client: Client, season: Garden) -> None:
    cast.a_law_check(season)
    assert sheet(client).care[0].startswith("The law was checked on ")


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_cautions_are_never_left_out_and_stay_on_the_page(client: Client, season: Garden, paper: str) -> None:
    """Ten cautions as long as the longest: as many letters more as they have, on one page; so with full tables."""
    page = replace(sheet(client), paper=paper)
    short, long = (replace(page, care=("mm " * 80,) * number) for number in (9, 10))
    assert marks("plan", long) - marks("plan", short) == 160 + 1
    full = table("Week of", {"what": 14, "hours": 3}, [("Mon 8 Jun", "mm " * 60, "3 of 13")] * 12, first=2)
    assert pages(typeset.pdf("plan", replace(long, tables=(full,)))) == 1


def test_many_weeks_and_wants_are_cut_in_their_middle_and_fit(client: Client, season: Garden) -> None:
    for number in range(20):
        cast.a_want(season, what="pigment", name=f"{HOSTILE} {number}", mass_g=3.0, fibre="", depth="")
    found = client.get(WHERE, {"as": "pdf"})
    assert pages(found.content) == 1
    wanted = next(one for one in sheet(client).tables if one.title == "Wanted")
    assert any("left out" in cell for row in wanted.rows for cell in row.cells)


def test_a_plan_without_a_schedule_is_told_alone(client: Client, garden: Garden) -> None:
    cast.a_want(garden, days_ahead=None)
    page = sheet(client)
    assert page.given_up == ()
    assert page.first.startswith("Sow ")
    assert pages(client.get(WHERE, {"as": "pdf"}).content) == 1


def test_with_nothing_to_plan_it_leads_to_the_plan(client: Client, garden: Garden) -> None:
    assert client.get(WHERE)["Location"] == url("plan.index")


def test_the_plan_leads_here(client: Client, garden: Garden) -> None:
    cast.a_want(garden)
    assert f'href="{WHERE}"' in client.get(url("plan.index")).content.decode()


def test_its_json_twin_says_the_same_and_the_bytes_stay(client: Client, season: Garden) -> None:
    assert client.get(WHERE, {"as": "json"}).json()["first"] == sheet(client).first
    first, second = (client.get(WHERE, {"as": "pdf"}).content for _ in range(2))
    assert first == second


def test_another_garden_s_wants_are_not_on_it(client: Client, garden: Garden, other_garden: Garden) -> None:
    cast.a_want(other_garden, name="of others")
    assert client.get(WHERE)["Location"] == url("plan.index")


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")
    to_the_start_without_a_garden(client, WHERE)


def test_more_wants_need_no_more_statements(client: Client, garden: Garden) -> None:
    cast.a_want(garden)
    flat(client, WHERE, lambda: [cast.a_want(garden) for _ in range(2)])
