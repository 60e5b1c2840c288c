"""`/costs/note/`: work that is done."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, WorkNote
from tests import cast
from tests.web.checks import no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where() -> str:
    return url("costs.note")


def typed(**other: str) -> dict[str, str]:
    return {"kind": "airing", "spent": "1 h 10 min", "about": "", "began_at": cast.typed(cast.moment(3))} | other


def test_it_is_written_down_as_typed_and_offers_to_undo(client: Client, garden: Garden) -> None:
    batch = cast.a_batch(cast.a_straining(cast.a_tub(garden)))
    response = client.post(where(), typed(about=f"batch:{batch.pk}"), follow=True)
    assert response.redirect_chain == [(url("costs.index"), 302)]
    row = WorkNote.objects.get()
    assert (row.kind, row.spent_min, row.spent_typed, row.batch) == ("airing", 70.0, "1 h 10 min", batch)
    assert row.made_by is not None
    assert [message.extra_tags for message in response.context["messages"]] == [url("costs.delete", key=row.pk)]


def test_it_may_be_for_a_tub_a_bed_or_the_season(client: Client, garden: Garden) -> None:
    tub, bed = cast.a_tub(garden), cast.a_bed(garden)
    for about in (f"tub:{tub.pk}", f"bed:{bed.pk}", ""):
        client.post(where(), typed(about=about))
    found = {(row.steep, row.bed, row.batch) for row in WorkNote.objects.all()}
    assert found == {(tub, None, None), (None, bed, None), (None, None, None)}


def test_work_on_cloth_and_at_a_vat_is_no_cost_of_the_blue(client: Client, garden: Garden) -> None:
    cast.a_batch(cast.a_straining(cast.a_tub(garden)))
    before = client.get(url("costs.index"), {"as": "json"}).json()["answer"]
    piece, vat = cast.a_piece(garden), cast.a_vat(garden)
    for about in (f"piece:{piece.pk}", f"vat:{vat.pk}"):
        client.post(where(), typed(about=about))
    client.post(where(), typed(kind="dyeing", about=""))
    assert {(row.piece, row.vat) for row in WorkNote.objects.all()} == {(piece, None), (None, vat), (None, None)}
    after = client.get(url("costs.index"), {"as": "json"}).json()
    assert after["answer"] == before and len(after["notes"]) == 3
    assert after["dyeing"].startswith("Work at vats and on cloth, ")
    first = client.get(url("costs.index"), {"of": f"piece:{piece.pk}"}).context["form"].initial
    assert first["kind"] == "dyeing"


@pytest.mark.parametrize(
    ("wrong", "field", "says"),
    [
        ({"spent": "long"}, "spent", "long"),
        ({"spent": "9 days"}, "spent", "cannot be"),
        ({"spent": ""}, "spent", "required"),
        ({"kind": "dreaming"}, "kind", "dreaming"),
        ({"about": "batch:00000000-0000-0000-0000-000000000000"}, "about", "not one of the available"),
        ({"began_at": "2999-01-01T10:00"}, "began_at", "still to come"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, wrong: dict[str, str], field: str, says: str
) -> None:
    unchanged = no_rows(WorkNote)
    refused(client, where(), typed(**wrong), field=field, says=says)
    unchanged()


def test_another_garden_s_batch_is_no_choice(client: Client, garden: Garden, other_garden: Garden) -> None:
    batch = cast.a_batch(cast.a_straining(cast.a_tub(other_garden)))
    assert client.post(where(), typed(about=f"batch:{batch.pk}")).status_code == 422


def test_it_is_only_posted_to(client: Client, garden: Garden) -> None:
    only(client, where(), "post")
    to_the_start_without_a_garden(client, where(), "post")


def test_noted_from_a_tub_it_leads_back_to_the_tub(client: Client, garden: Garden) -> None:
    tub = cast.a_tub(garden)
    page = client.get(url("costs.index"), {"of": f"tub:{tub.pk}"}).content.decode()
    assert page.count(f'name="back" value="tub:{tub.pk}"') == 2
    sent = typed(about=f"tub:{tub.pk}", back=f"tub:{tub.pk}")
    assert client.post(url("costs.note"), sent)["Location"] == url("tubs.show", key=tub.pk)
    started = client.post(url("costs.start"), {"kind": "picking", "about": "", "back": f"tub:{tub.pk}"})
    assert started["Location"] == url("tubs.show", key=tub.pk)
    for nonsense in ("tub:1", "shed:x", "https://elsewhere.example/"):
        assert client.post(url("costs.note"), typed(back=nonsense))["Location"] == url("costs.index")
