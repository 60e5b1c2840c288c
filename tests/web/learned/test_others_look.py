"""`/learned/others/look/`: what other gardens' files would change, before anything is taken in."""

import json
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from bluewright.journal.bridge import learned
from bluewright.journal.models import Garden, OthersTaught
from bluewright.web.pages.learned.forms import unsealed
from tests import cast
from tests.web.checks import no_rows, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/learned/others/look/"


def file(plain: Any, name: str = "shared-garden.json") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, plain if isinstance(plain, bytes) else json.dumps(plain).encode())


def shared(**told: Any) -> dict[str, Any]:
    return {"version": 1, "messages": [cast.GIVEN | told], "batches": []}


def looked_at(client: Client, *files: Any, **query: str) -> Any:
    return client.post(WHERE, {"name": "the valley", "given": list(files)}, query_params=query)


def refused(client: Client, files: list[Any], *, says: str) -> None:
    response = looked_at(client, *files)
    assert response.status_code == 422
    assert says in " ".join(response.context["form"].errors["given"])
    assert response.context["form"]["name"].value() == "the valley"


def test_several_gardens_are_pooled_and_nothing_is_written(client: Client, garden: Garden) -> None:
    unchanged = no_rows(OthersTaught)
    page = looked_at(client, file(shared()), file(shared(push=[-2.0, 0.0]))).context["page"]
    assert (page.name, page.said) == ("the valley", "2 gardens.")
    row = unsealed(page.sealed, garden=garden)
    assert row is not None
    (belief,) = row.prior.beliefs
    assert (belief.push, belief.precision) == ((-6.0, 0.2), ((12.0,), (1.0, 6.0)))
    unchanged()


def test_a_prior_that_was_pooled_before_is_taken_as_it_is(client: Client, garden: Garden) -> None:
    page = looked_at(client, file({"version": 1, "gardens": 5, "beliefs": [cast.GIVEN]})).context["page"]
    row = unsealed(page.sealed, garden=garden)
    assert row is not None
    assert (row.gardens, row.told["beliefs"][0]["push"]) == (5, [-4.0, 0.2])


def test_each_figure_is_told_now_and_then_and_so_it_comes(client: Client, garden: Garden) -> None:
    """What is foretold of taking in is what is believed once it is taken in."""
    cast.others_taught(garden, name="the hill", told={"version": 1, "gardens": 1, "beliefs": []})
    now = learned.reckon(garden).answer
    page = looked_at(client, file(shared())).context["page"]
    assert "take the place of the hill" in page.said
    assert page.here.startswith("Your next batch gives ")
    here, everywhere = page.tables
    rows = {cells[0]: cells[1:] for _advised, cells in here.rows}
    was, then = rows["what the leaf holds"]
    client.post(url("learned.take_in"), {"sealed": page.sealed})
    after = learned.reckon(garden).answer
    assert now is not None and after is not None
    assert after.pure_g_per_kg.p50 < now.pure_g_per_kg.p50
    assert was.split(" ")[0] != then.split(" ")[0]
    again = client.get(url("learned.index"), {"as": "json"}).json()["answer"]["tables"][0]["rows"]
    assert then in next(cells for _advised, cells in again if cells[0] == "what the leaf holds")
    assert everywhere.rows[0][1][0] == "what the leaf holds"


def test_a_garden_without_tubs_is_told_what_its_first_forecasts_begin_from(client: Client, garden: Garden) -> None:
    for steep in learned.queries.strained(garden):
        cast.left_out(steep)
    page = looked_at(client, file(shared()), **{"as": "json"}).json()
    assert "has no strained tub yet" in page["here"]
    assert [table["caption"] for table in page["tables"]] == ["What they teach of gardens"]


def test_what_cannot_be_is_refused_with_the_file_s_name(client: Client, garden: Garden) -> None:
    unchanged = no_rows(OthersTaught)
    refused(client, [], says="at least one file")
    refused(client, [file(b"pigment", "odd.json")], says="odd.json")
    refused(client, [file(shared()), file(shared(names=["beauty", "smell"]), "odd.json")], says="odd.json")
    refused(client, [file(shared()), file(shared())], says="twice")
    own = client.get(url("learned.share_file")).content
    refused(client, [file(shared()), file(own, "mine.json")], says="mine.json")
    unchanged()


def test_only_posts(client: Client, garden: Garden) -> None:
    only(client, WHERE, "post")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE, "post")
