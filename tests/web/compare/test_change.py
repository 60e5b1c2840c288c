"""`/compare/<key>/change/`: another name or note; what was laid down stays."""

import pytest
from django.test import Client

from bluewright.journal.models import Trial
from tests.web.checks import only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_only_name_and_note_are_changed(client: Client, laid: Trial) -> None:
    where = url("compare.change", key=laid.pk)
    client.post(where, {"name": "Leaf spots", "note": "wet July", "question": "Another?", "days": "9"})
    laid.refresh_from_db()
    assert (laid.name, laid.note, laid.question, laid.days) == (
        "Leaf spots",
        "wet July",
        "Is spotted leaf worth a tub?",
        2,
    )


def test_mistakes_strangers_and_methods(client: Client, laid: Trial, theirs: Trial) -> None:
    where = url("compare.change", key=laid.pk)
    refused(client, where, {"name": "", "note": "kept"}, field="name", says="required")
    assert client.get(url("compare.change", key=theirs.pk)).status_code == 404
    only(client, where, "get", "post")
    to_the_start_without_a_garden(client, where)
