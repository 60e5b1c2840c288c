"""What every `why` page of a noun is tested for, said once."""

from __future__ import annotations

from django.test import Client

from bluewright.web.ui.why import WhyPage
from tests.web.checks import url
from tests.web.method.test_show import Page


def explained(client: Client, where: str) -> WhyPage:
    """The page there, with every link on it leading somewhere and its JSON twin saying the same."""
    response = client.get(where)
    assert response.status_code == 200
    page: WhyPage = response.context["page"]
    html = Page(response.content.decode())
    for link in set(html.links):
        path, _, anchor = link.partition("#")
        there = html if not path else Page(client.get(path, follow=True).content.decode())
        assert not anchor or anchor in there.ids, link
    twin = client.get(where, {"as": "json"}).json()
    assert (twin["figure"]["said"], twin["seed"]) == (page.figure.said, page.seed)
    return page


def explains_each_of_its_figures(client: Client, where: str) -> None:
    """All figures that the page offers beside its own have their page too."""
    others = client.get(where).context["page"].others
    assert len(others) >= 4
    for other in others:
        assert client.get(other.to).status_code == 200, other.name


def knows_no_other(client: Client, name: str, **keys: object) -> None:
    """No page for what is no figure of the answer."""
    for figure in ("nothing", "inputs", "sources", "inputs.seed", "99"):
        assert client.get(url(name, **keys, figure=figure)).status_code == 404, figure


__all__ = ["explained", "explains_each_of_its_figures", "knows_no_other"]
