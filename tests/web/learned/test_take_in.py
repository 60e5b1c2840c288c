"""`/learned/others/take-in/`: other gardens' files become what the memory begins from."""

import json
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from bluewright.journal.models import Garden, OthersTaught
from tests import cast
from tests.web.checks import no_rows, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/learned/others/take-in/"


def file(plain: Any, name: str = "shared-garden.json") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, plain if isinstance(plain, bytes) else json.dumps(plain).encode())


def shared(**told: Any) -> dict[str, Any]:
    return {"version": 1, "messages": [cast.GIVEN | told], "batches": []}


def refused(client: Client, files: list[Any], *, says: str) -> None:
    response = client.post(WHERE, {"name": "the valley", "given": files})
    assert response.status_code == 422
    assert says in " ".join(response.context["form"].errors["given"])
    assert response.context["form"]["name"].value() == "the valley"


def test_several_gardens_are_pooled(client: Client, garden: Garden) -> None:
    files = [file(shared()), file(shared(push=[-2.0, 0.0]))]
    response = client.post(WHERE, {"name": "the valley", "given": files})
    assert (response.status_code, response["Location"]) == (302, url("learned.others"))
    row = OthersTaught.objects.get()
    assert (row.garden, row.name, row.gardens) == (garden, "the valley", 2)
    (belief,) = row.prior.beliefs
    assert (belief.push, belief.precision) == ((-6.0, 0.2), ((12.0,), (1.0, 6.0)))


def test_a_prior_that_was_pooled_before_is_taken_as_it_is(client: Client, garden: Garden) -> None:
    prior = {"version": 1, "gardens": 5, "beliefs": [cast.GIVEN]}
    client.post(WHERE, {"name": "five", "given": [file(prior)]})
    row = OthersTaught.objects.get()
    assert (row.gardens, row.told["beliefs"][0]["push"]) == (5, [-4.0, 0.2])


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
