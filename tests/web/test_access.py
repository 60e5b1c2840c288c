"""Who may do what, for every address that there is: a new one is covered without further work, and closed at first."""

import math
import re
from collections import Counter
from urllib.parse import urlsplit

import pytest
from django.contrib.auth import get_user_model
from django.test import Client
from django.urls import ResolverMatch, resolve

from bluewright.journal.actions import people as actions
from bluewright.journal.models import Garden, Person
from bluewright.web import access
from tests.web.checks import NOBODY, url
from tests.web.test_every_page import NAMES, PATTERNS
from tests.web.visitors import ELSEWHERE, visitor

pytestmark = pytest.mark.django_db
FOR_STRANGERS = {"door.come_in", "door.leave"}
NOT_FOR_HELPERS = {
    "costs.prices",
    "kit.change",
    "kit.delete",
    "kit.index",
    "kit.restore",
    "supplies.change",
    "supplies.delete",
    "supplies.index",
    "supplies.restore",
    "gardens.change",
    "gardens.take_out",
    "gardens.bring_in",
    "gardens.demo",
}
ONLOOKERS_POST = {*FOR_STRANGERS, "gardens.open"}
REASONS_OF_A_CALCULATOR = 1
KNOWLEDGE_OF_A_VIEW = 4
"""Pages of each view that tell whoever is in the same: an onlooker, the least of them, opens all."""
READING = {
    "today", "weather.days", "beds.index", "pickings.index", "tubs.index", "tubs.show", "tubs.why", "gardens.begin",
}  # fmt: skip


def where(name: str) -> str:
    """An address of this name, with keys that nothing has."""
    (pattern,) = [one for one in PATTERNS if one.name == name]
    keys = {"UUIDConverter": NOBODY, "IntConverter": 0}
    return url(name, **{k: keys.get(type(c).__name__, "x") for k, c in pattern.pattern.converters.items()})


def kept_out(client: Client, name: str, method: str) -> bool:
    response = getattr(client, method)(where(name))
    assert response.status_code < 500
    if name in FOR_STRANGERS:
        return False
    return response.status_code == 403 or response.get("Location", "").startswith(url("door.come_in"))


def test_every_address_is_classified() -> None:
    """In `bluewright/web/access.py`: its noun among the garden's work, or its name among the owner's or the door's.

    Of a noun of the work a page may be the owner's alone; else one place says it.
    """
    assert [name for name in NAMES if places_that_say(name) != 1] == []


def places_that_say(name: str) -> int:
    elsewhere = access.OF_THE_WORK | access.OF_THE_DOOR | access.OF_THE_BROWSER
    by_noun = name.partition(".")[0] in access.WORK | access.KNOWLEDGE
    return by_noun + (name in elsewhere) + (name in access.OWNERS and not by_noun)


def test_no_address_is_classified_that_there_is_not() -> None:
    named = access.OWNERS | access.OF_THE_DOOR | access.OF_THE_BROWSER | access.READ_BY_ALL | access.OF_THE_WORK
    assert named <= NAMES


@pytest.mark.parametrize("name", sorted(NAMES))
def test_at_every_address_everybody_may_do_what_is_theirs_and_nothing_else(name: str, garden: Garden) -> None:
    """One after the other, the least first; the garden stands for the invented one, so that none asks for a season."""
    Garden.objects.update(invented=True)
    a_stranger_gets_nothing_but_the_door(name, garden)
    an_onlooker_may_post_nothing_of_the_garden_s(name)
    a_helper_may_do_all_work_but_nothing_with_people_and_whole_gardens(name)
    an_owner_may_do_everything_on_a_phone_and_at_the_machine(name)


def a_stranger_gets_nothing_but_the_door(name: str, garden: Garden) -> None:
    stranger = visitor("stranger")
    for method in ("get", "post", "put", "delete", "head"):
        if name in FOR_STRANGERS:
            assert garden.name not in getattr(stranger, method)(where(name)).content.decode(), method
        else:
            assert kept_out(stranger, name, method), method


def an_onlooker_may_post_nothing_of_the_garden_s(name: str) -> None:
    may = name in ONLOOKERS_POST or name.startswith(("method.", "bench."))
    onlooker = visitor("onlooker")
    assert kept_out(onlooker, name, "post") != may
    assert name not in READING or not kept_out(onlooker, name, "get")


def a_helper_may_do_all_work_but_nothing_with_people_and_whole_gardens(name: str) -> None:
    closed = name.startswith("people.") or name in NOT_FOR_HELPERS
    helper = visitor("helper")
    assert kept_out(helper, name, "get") == closed
    assert kept_out(helper, name, "post") == (closed or name == "gardens.begin")


def an_owner_may_do_everything_on_a_phone_and_at_the_machine(name: str) -> None:
    owner, home = visitor("owner"), visitor("home")
    for method in ("get", "post"):
        assert not kept_out(owner, name, method), method
        assert getattr(home, method)(where(name)).status_code not in {401, 403}, method


def test_what_an_onlooker_may_read_is_there() -> None:
    assert READING <= NAMES


@pytest.mark.parametrize("path", ["/nothing/", "/tubs", "/static/../secret.key", "/people/1/", "//", "/%00"])
def test_a_stranger_is_not_told_which_addresses_there_are(path: str) -> None:
    response = visitor("stranger").get(path)
    assert response.status_code == 302
    assert response["Location"].startswith(url("door.come_in"))
    assert visitor("stranger").post(path).status_code == 403


def test_a_stranger_may_have_the_looks_of_the_door() -> None:
    response = visitor("stranger").get("/static/bluewright.css")
    assert response.status_code == 200
    response.close()


def test_an_address_that_is_not_there_is_not_found_by_whoever_is_in() -> None:
    for role in ("home", "owner", "helper", "onlooker"):
        assert visitor(role).get("/nothing/").status_code == 404


def test_an_address_without_a_name_is_the_owner_s() -> None:
    assert access.needed("bluewright.web.somewhere.view", "GET") == "owner"
    assert access.needed("newnoun.index", "GET") == "owner"


def alike_and_enough(role: str, found: ResolverMatch) -> tuple[str, float]:
    """Which pages are alike to this one, and how many of them are opened."""
    view = str(found.view_name)
    if view.partition(".")[0] in access.KNOWLEDGE and role != "onlooker":
        return view, KNOWLEDGE_OF_A_VIEW
    if view == "bench.why":
        return f"{view} {found.kwargs['calculator']}", REASONS_OF_A_CALCULATOR
    return view, math.inf


@pytest.mark.parametrize("role", ["onlooker", "helper", "owner"])
def test_nobody_is_shown_what_they_may_not_do(role: str, other_garden: Garden) -> None:
    """Every page that can be reached by links: each link leads somewhere, each form may be sent.

    The reasons of a calculator's figures have the same links and forms: one of each calculator is opened here, and all
    of them by the owner in `bench/test_why.py`. What is knowledge holds nothing of the garden's and says the same to
    everybody: the onlooker opens every page of it, helper and owner a few for the frame around it.
    """
    client = visitor(role)
    seen, met, to_see = set(), Counter[str](), ["/"]
    while to_see:
        path = to_see.pop()
        found = resolve(urlsplit(path).path)
        kind, most = alike_and_enough(role, found)
        met[kind] += 1
        if met[kind] > most:
            continue
        seen.add(path)
        response = client.get(path)
        assert response.status_code == 200, path
        page = response.content.decode() if "html" in response["Content-Type"] else ""
        links = {urlsplit(found.replace("&amp;", "&"))._replace(fragment="").geturl() for found in
                 re.findall(r'<a\b[^>]*\bhref="([^"]*)"', page)}  # fmt: skip
        to_see += sorted({link for link in links if link.startswith("/")} - seen - set(to_see))
        for form in re.findall(r"<form\b[^>]*>", page):
            action = re.search(r'action="([^"]*)"', form)
            target = resolve(urlsplit(action.group(1) if action else path).path or path).view_name
            method = "POST" if 'method="post"' in form else "GET"
            assert access.RANK[role] >= access.RANK[access.needed(target, method)], f"{form} on {path}"
    assert len(seen) >= 7


@pytest.mark.parametrize(
    "beside",
    [
        {"HTTP_X_FORWARDED_FOR": ELSEWHERE}, {"HTTP_FORWARDED": "for=192.0.2.7"}, {"HTTP_VIA": "1.1 gate"},
        {"HTTP_X_REAL_IP": ELSEWHERE}, {"REMOTE_ADDR": ""}, {"REMOTE_ADDR": "nonsense"},
    ],
)  # fmt: skip
def test_what_another_server_passes_on_is_not_from_this_machine(beside: dict[str, str]) -> None:
    stranger = Client(**{"REMOTE_ADDR": "127.0.0.1"} | beside)
    assert stranger.get("/gardens/").status_code == 302


def test_whoever_asks_by_the_name_in_the_house_is_not_at_the_machine(settings: object) -> None:
    settings.HOUSE_HOSTS = ["barn.local"]  # type: ignore[attr-defined]
    settings.ALLOWED_HOSTS = ["barn.local", "localhost"]  # type: ignore[attr-defined]
    client = Client(REMOTE_ADDR="127.0.0.1")
    assert client.get("/gardens/", HTTP_HOST="barn.local:8642").status_code == 302
    assert client.get("/gardens/", HTTP_HOST="localhost:8642").status_code == 200
    assert Client(REMOTE_ADDR="::1").get("/gardens/", HTTP_HOST="localhost").status_code == 200


def test_a_strange_host_name_is_refused() -> None:
    assert Client(HTTP_HOST="evil.example").get("/gardens/").status_code == 400


def test_what_was_typed_while_the_session_ended_can_be_copied() -> None:
    stranger = visitor("stranger")
    page = stranger.post("/beds/add/", {"name": "East <b>", "note": "", "passphrase": "secret"}).content.decode()
    assert "<dt>name</dt><dd>East &lt;b&gt;</dd>" in page
    assert "secret" not in page
    assert "<dt>note</dt>" not in page
    assert "What you typed" not in stranger.post("/beds/add/", {"note": "x" * 100_001}).content.decode()


def test_another_role_holds_from_the_next_page_on() -> None:
    client = visitor("helper")
    assert client.get("/beds/add/").status_code != 403
    actions.change_role(Person.objects.get(), "onlooker")
    assert client.get("/beds/add/").status_code == 403


def test_a_login_without_a_person_is_a_stranger_s() -> None:
    client = Client(REMOTE_ADDR=ELSEWHERE)
    client.force_login(get_user_model().objects.create(username="left over", is_superuser=True, is_staff=True))
    assert client.get("/gardens/").status_code == 302


def test_a_piece_of_a_page_asked_for_by_a_stranger_leads_to_the_door() -> None:
    response = visitor("stranger").get("/tubs/", HTTP_HX_REQUEST="true")
    assert response["HX-Redirect"] == url("door.come_in")


def test_what_an_onlooker_may_not_do_is_refused_in_words(garden: Garden) -> None:
    response = visitor("onlooker").post("/beds/add/", {"name": "East"})
    assert response.status_code == 403
    assert "nothing was changed" in response.content.decode()
    assert not garden.beds.filter(name="East").exists()
