"""Who is asking, and what they may do: the one place that says so.

Whoever sits at this machine is the owner, without a passphrase. Whoever comes from elsewhere is a stranger until they
have come in by name and passphrase; then they are what the owner made them. Which page needs which role stands in
the tables below, by the address's name; what stands nowhere is the owner's alone.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from ipaddress import ip_address
from typing import Any, Final, Literal
from urllib.parse import urlencode

from django.conf import settings
from django.contrib.auth import get_user_model
from django.core.exceptions import DisallowedHost
from django.http import HttpRequest, HttpResponse
from django.http.request import split_domain_port
from django.shortcuts import redirect, render
from django.urls import Resolver404, resolve, reverse

from bluewright.journal.models.person import HELPER, ONLOOKER, OWNER, ROLES
from bluewright.journal.queries import people

Role = Literal["owner", "helper", "onlooker", "stranger"]
STRANGER: Final = "stranger"
RANK: Final = {STRANGER: 0, ONLOOKER: 1, HELPER: 2, OWNER: 3}
SAFE: Final = frozenset({"GET", "HEAD", "OPTIONS"})

WORK: Final = frozenset({
    "today", "weather", "beds", "pickings", "tubs",
    "batches", "alkali", "airing", "settling", "washing", "drying", "jars", "threads", "prints", "book", "photos",
    "assays", "intake", "cards", "measured", "jarlooks", "swatches", "watering", "growing", "past", "costs", "stock",
    "schedule", "plan", "law", "cloth", "ladders", "vats", "lots", "shades", "learned",
    "compare",
})  # fmt: skip
"""Nouns of the garden's work: helpers may do all of it."""
OF_THE_WORK: Final = frozenset({"gardens.taken_out"})
"""Pages of other nouns that belong to the work."""
KNOWLEDGE: Final = frozenset({"bench", "method"})
"""Nouns that hold nothing of the garden's: whoever is in may read and ask."""
READING: Final = frozenset({"index", "show", "why"})
"""Verbs of the garden's work that an onlooker may read."""
READ_BY_ALL: Final = frozenset({
    "today", "weather.days", "gardens.begin", "photos.image", "alkali.dose", "alkali.jar", "alkali.card", "cloth.cost",
    "prints.batch", "prints.alkali", "prints.jar", "prints.card", "prints.plan", "prints.vat",
    "vats.plan", "vats.fault", "vats.cost", "book.csv", "book.looks",
    "jarlooks.how_jar", "jarlooks.how_light", "swatches.compare", "costs.csv", "stock.csv",
    "schedule.calendar", "cloth.dips", "ladders.dips", "cloth.story", "prints.cloth", "shades.match",
    "shades.match_why", "learned.others", "compare.batches", "compare.batches_why", "assays.jar_why",
})  # fmt: skip
"""Further pages that an onlooker may read. Pages that only hold a form are not among them."""
OF_THE_BROWSER: Final = frozenset({"gardens.open"})
"""Posts that change nothing but which garden this browser shows: onlookers may send them."""
OF_THE_DOOR: Final = frozenset({"door.come_in", "door.leave"})
"""What a stranger may ask for."""
OWNERS: Final = frozenset({
    "costs.prices", "gardens.begin", "gardens.change", "gardens.take_out", "gardens.bring_in", "gardens.demo",
    "kit.change", "kit.delete", "kit.index", "kit.restore",
    "supplies.change", "supplies.delete", "supplies.index", "supplies.restore",
    "people.index", "people.add", "people.change", "people.passphrase", "people.shut_out",
})  # fmt: skip
"""What is the owner's alone, but for reading what stands in `READ_BY_ALL`."""
MOST_TYPED_BYTES: Final = 100_000
NOT_TYPED: Final = frozenset({"csrfmiddlewaretoken", "passphrase", "next"})
PASSED_ON: Final = ("HTTP_X_FORWARDED_FOR", "HTTP_FORWARDED", "HTTP_X_REAL_IP", "HTTP_VIA")
"""What another server adds to a request that it passes on: it does not come from who sits here."""


@dataclass(frozen=True, slots=True)
class Standing:
    """What the asker is, as the templates see it."""

    name: str
    role: Role
    at_home: bool

    @property
    def role_said(self) -> str:
        """The role in words."""
        return str(dict(ROLES).get(self.role, ""))

    @property
    def can_write(self) -> bool:
        """Whether they may write readings and work."""
        return RANK[self.role] >= RANK[HELPER]

    def may_post(self, name: str) -> bool:
        """Whether they may send a form to the address of this name."""
        return RANK[self.role] >= RANK[needed(name, "POST")]

    @property
    def is_owner(self) -> bool:
        """Whether everything is theirs."""
        return self.role == OWNER


def needed(name: str, method: str) -> str:
    """The least role that may ask for the address of this name by this method."""
    if name in OF_THE_DOOR:
        return STRANGER
    noun, _, verb = name.partition(".")
    reading = name in READ_BY_ALL or (noun in WORK and verb in READING)
    if name in OF_THE_BROWSER or noun in KNOWLEDGE or (method in SAFE and reading):
        return ONLOOKER
    return HELPER if (noun in WORK or name in OF_THE_WORK) and name not in OWNERS else OWNER


def only_who_may(answer: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """Middleware: finds out who asks, and lets through only what their role may do."""

    def through(request: HttpRequest) -> HttpResponse:
        standing = _standing(request)
        request.standing = standing  # type: ignore[attr-defined]
        name = _name(request.path_info)
        least = ONLOOKER if name is None else needed(name, request.method or "")
        if RANK[standing.role] >= RANK[least]:
            return answer(request)
        return _to_the_door(request) if standing.role == STRANGER else render(request, "refused.html", status=403)

    return through


def at_home(request: HttpRequest) -> bool:
    """Whether a browser on this machine asks this machine, and no other server passed it on."""
    try:
        here = ip_address(request.META["REMOTE_ADDR"]).is_loopback
        asked_for = split_domain_port(request.get_host())[0]
    except (KeyError, ValueError, DisallowedHost):
        return False
    return here and asked_for not in settings.HOUSE_HOSTS and not any(name in request.META for name in PASSED_ON)


def typed_back(request: HttpRequest) -> list[tuple[str, str]]:
    """What was typed into a form that is refused, by field, so that it can be copied; nothing of a large one."""
    if int(request.META.get("CONTENT_LENGTH") or 0) > MOST_TYPED_BYTES:
        return []
    pairs = ((name, value) for name, values in request.POST.lists() for value in values)
    return [(name, value) for name, value in pairs if value and name not in NOT_TYPED]


def _standing(request: HttpRequest) -> Standing:
    if at_home(request):
        request.user, _ = get_user_model().objects.get_or_create(username=OWNER)
        return Standing(name=OWNER, role="owner", at_home=True)
    role: Any = people.role_of(request.user)
    if role is None:
        return Standing(name="", role="stranger", at_home=False)
    return Standing(name=request.user.get_username(), role=role, at_home=False)


def _name(path: str) -> str | None:
    """The name of an address; None for one that there is not, of which all but strangers may know."""
    try:
        return resolve(path).view_name
    except Resolver404:
        return None


def _to_the_door(request: HttpRequest) -> HttpResponse:
    """The passphrase page, the same for every address whether it is there or not."""
    door = reverse("door.come_in")
    if request.method not in SAFE:
        return render(request, "door/private.html", {"typed": typed_back(request)}, status=403)
    if request.headers.get("HX-Request"):
        return HttpResponse(headers={"HX-Redirect": door})
    return redirect(f"{door}?{urlencode({'next': request.get_full_path()})}" if request.path != "/" else door)
