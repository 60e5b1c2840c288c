"""`/learned/share/`: every character that would be given away, and nothing of whose it is."""

import json
import re
from html import unescape

import pytest
from django.test import Client

from bluewright.journal.actions import keeping
from bluewright.journal.models import Garden
from bluewright.journal.queries import learned as queries
from bluewright.science.base.records import read
from bluewright.science.memory.pool_record import SharedGarden
from tests import cast
from tests.web.checks import only, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/learned/share/"


def test_the_preview_is_the_file_and_names_nobody(client: Client, garden: Garden) -> None:
    out = [cast.left_out(steep) for steep in queries.strained(garden)]
    assert client.get(WHERE).status_code == 404, "nothing was learned yet"
    for row in out:
        keeping.delete(row, by=None)
    (shown,) = re.findall(r'<pre class="whole">(.*?)</pre>', client.get(WHERE).content.decode(), re.DOTALL)
    shown = unescape(shown)
    assert client.get(f"{WHERE}file/").content == shown.encode(), "byte for byte what was read"
    given = read(SharedGarden, shown)
    assert len(given.batches) == 1
    assert not [name for name in (garden.name, str(garden.pk), str(queries.strained(garden)[0].name)) if name in shown]
    assert set(json.loads(shown)) == {"version", "messages", "batches"}


def test_only_reading(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)
