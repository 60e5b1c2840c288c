"""What every way out and back has in common."""

from __future__ import annotations

from typing import Any

from django.test import Client

from bluewright.journal.models import Kept
from tests.web.checks import NOBODY, only, url


def goes_out_and_comes_back(client: Client, row: Kept, name: str, /, *, to: str, **keys: Any) -> None:
    """`alkali.delete<name>` hides the row and offers the way back, which brings it in again; once is enough."""
    out, back = url(f"alkali.delete{name}", **keys), url(f"alkali.restore{name}", **keys)
    response = client.post(out, follow=True)
    assert response.redirect_chain == [(to, 302)]
    assert not type(row)._default_manager.filter(pk=row.pk).exists()
    assert back in [message.extra_tags for message in response.context["messages"]]
    assert client.post(out).status_code == 404
    response = client.post(back, follow=True)
    assert response.redirect_chain == [(to, 302)]
    assert type(row)._default_manager.filter(pk=row.pk).exists()
    assert "Brought back." in response.content.decode()
    assert client.post(back).status_code == 302


def is_refused(client: Client, name: str, row: Kept, /, *, wrong: dict[str, Any], stranger: Kept, **keys: Any) -> None:
    """A key that no row has, a row of another batch, a stranger's row: 404. Anything but a post: 405."""
    for bad in ({**keys, **wrong}, dict.fromkeys(keys, NOBODY)):
        assert client.post(url(name, **bad)).status_code == 404
    only(client, url(name, **keys), "post")
    for one in (row, stranger):
        assert type(one).everything.filter(pk=one.pk).exists()
