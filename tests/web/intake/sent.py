"""A logger's file as tests send it, and the form that says how to read it."""

from __future__ import annotations

from datetime import timedelta
from typing import Any
from zoneinfo import ZoneInfo

from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from bluewright.journal.models import Intake, Steep
from tests.cast import moment
from tests.web.checks import url

READ = {
    "delimiter": "comma", "decimal": "point", "first_line": "2", "time_column": "0", "clock_column": "", "order": "ymd",
    "zone": "garden", "temp_column": "1", "unit": "c", "do": "write",
}  # fmt: skip


def lines(*, hours: int = 6, step_min: int = 10, head: str = "time,deg C") -> str:
    """Readings of the last hours, by London's clock, one degree warmer with each."""
    start = moment(hours).astimezone(ZoneInfo("Europe/London"))
    many = hours * 60 // step_min
    body = [f"{start + timedelta(minutes=step_min * k):%Y-%m-%d %H:%M},{10 + k * 0.1:.1f}" for k in range(many)]
    return "\n".join([head, *body, ""])


def send(client: Client, text: str | bytes, *, of: Steep | None, name: str = "log.csv") -> Any:
    """Send a file; the answer is the way to its preview, or the form again."""
    content = text.encode() if isinstance(text, str) else text
    chosen = str(of.pk) if of else "air"
    return client.post(url("intake.add"), {"of": chosen, "file": SimpleUploadedFile(name, content)})


def bring(client: Client, text: str, *, of: Steep | None, **told: str) -> Intake:
    """Send a file and bring it in."""
    where = send(client, text, of=of)["Location"]
    response = client.post(where, READ | told)
    assert response.status_code == 302, response.context["form"].errors
    return Intake.objects.get(pk=where.split("/")[2])
