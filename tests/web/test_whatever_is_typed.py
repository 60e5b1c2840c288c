"""Whatever is typed into whatever field: it is taken, or refused in words, and never breaks a page."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from html.parser import HTMLParser
from itertools import cycle, islice, zip_longest
from typing import Any, Final
from urllib.parse import parse_qsl, urlsplit

import pytest
from django.db import transaction
from django.test import Client
from django.urls import resolve

from tests.planted import Planted

pytestmark = pytest.mark.django_db
SCRIPT: Final = "<script>alert(1)</script>"
TEXTS: Final = (
    "\N{LEAF FLUTTERING IN WIND}\N{BLUE HEART}", "\u202eeulb \u05db\u05d7\u05d5\u05dc", "\0", "x\0y",
    "x" * 10_000, SCRIPT, "' OR 1=1 --",
    "{{ 7 }}{% now %}", "\n\t ", "\ud83d".encode("utf-16", "surrogatepass").decode("utf-16", "replace"),
)  # fmt: skip
NUMBERS: Final = (
    "1e309", "-0", "NaN", "inf", "-1e-400", "9" * 400, "\u0664\u0662", "\uff14\uff12",
    "12,5", "1,234.5", "1/0", "1 1/0", "0x1F", "1_000",
    "\u00bd L", "1e5 kg", "--5", "5 5 5", "\u00b2",
)  # fmt: skip
NUMBERS_IN_NAMES: Final = ("9" * 400, "\u00b2")
"""Of the numbers those that a name or note is sent too: to it the others are letters like any. The second is a digit to
`str.isdigit` and none to `int`."""
MOMENTS: Final = (
    "2024-02-29T10:00", "2026-03-29T01:30", "2026-10-25T01:30", "2999-01-01T00:00", "0001-01-01T00:00",
    "9999-12-31T23:59", "1900-01-01T00:00", "2026-07-01",
)  # fmt: skip
"""A leap day, London's hour that is not and the one that comes twice, the future, the ends of the calendar, a day."""
NO_MOMENTS: Final = (
    "2025-02-29T10:00", "2026-13-45T99:99", "10000-01-01T00:00", "T", "-2026-07-01T10:00", "\0", SCRIPT, "x" * 10_000,
)  # fmt: skip
NO_MOMENTS_OF_A_FORM: Final = 2
"""All fields of moments read in one way: from form to form they are sent others of what is none."""
ASKED: Final = (SCRIPT, "\0", "x" * 10_000, "\n\t ", TEXTS[-1], "1e309", "NaN", "-0", "9" * 400, "\u0664\u0662")
"""One of each kind: text, what no database takes, too long, nothing, half a character, and numbers that are none."""
FIELDS_OF_A_FORM: Final = 6
"""Of a kind: the next dish or batch of a list is read as the one before."""
TOKEN: Final = "csrfmiddlewaretoken"
"""In each form, and typed by nobody: `test_a_post_without_its_token_is_refused` holds it."""
CHOICES: Final = ("", "nothing of the kind", "\0", "-1")
"""What no browser would send of a list to choose from."""


@dataclass(frozen=True)
class Typed:
    """A form of a page: where it goes, how, and what it holds when it is opened."""

    action: str
    method: str
    holds: tuple[tuple[str, str], ...]
    texts: tuple[str, ...]
    moments: tuple[str, ...]
    chosen: tuple[str, ...]


class Page(HTMLParser):
    """The links and the forms of a page."""

    def __init__(self, path: str, text: str) -> None:
        super().__init__()
        self.path, self.links, self.forms = path, [], []
        self._open: dict[str, Any] | None = None
        self._select = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        has = {name: value or "" for name, value in attrs}
        if tag == "a" and has.get("href", "").startswith(("/", "?")):
            link = has["href"].partition("#")[0]
            self.links.append(self._whole(link))
        elif tag == "form":
            self._open = {
                "action": self._whole(has.get("action") or self.path),
                "method": has.get("method", "get"),
                "holds": [],
                "texts": [],
                "moments": [],
                "chosen": [],
            }
        elif self._open is not None:
            self._field(tag, has)

    def _whole(self, link: str) -> str:
        return urlsplit(self.path).path + link if link.startswith(("?", "#")) else link

    def _field(self, tag: str, has: dict[str, str]) -> None:
        form: Any = self._open
        name, kind = has.get("name", ""), has.get("type", "text")
        if tag == "option":
            if "selected" in has:
                form["holds"].append((self._select, has.get("value", "")))
        elif tag == "select" and name:
            self._select = name
            form["chosen"].append(name)
        elif tag in {"input", "textarea"} and name not in {"", TOKEN} and kind != "file":
            if kind in {"radio", "checkbox", "hidden", "submit"}:
                form["chosen"] += [name] if name not in form["chosen"] else []
                if kind == "hidden" or "checked" in has:
                    form["holds"].append((name, has.get("value", "on")))
            else:
                form["moments" if kind in {"datetime-local", "date"} else "texts"].append(name)
                form["holds"].append((name, has.get("value", "")))

    def handle_endtag(self, tag: str) -> None:
        if tag == "form" and self._open is not None:
            self.forms.append(Typed(**{k: tuple(v) if isinstance(v, list) else v for k, v in self._open.items()}))
            self._open = None


def pages(client: Client) -> Iterator[tuple[str, Page]]:
    """Every page that links lead to, a few of each address's name."""
    seen: dict[str, int] = {}
    known, to_open = {"/"}, ["/"]
    while to_open:
        path = to_open.pop(0)
        name = resolve(urlsplit(path).path).view_name
        if seen.get(name, 0) >= 3:
            continue
        seen[name] = seen.get(name, 0) + 1
        response = client.get(path)
        page = Page(path, response.content.decode() if "html" in response.get("Content-Type", "") else "")
        fresh = sorted(set(page.links) - known)
        known.update(fresh)
        to_open += fresh
        yield path, page


Odd = tuple[str, str]
"""A field and what is typed there."""


def shared_out(form: Typed, texts: tuple[str, ...], moments: tuple[str, ...]) -> list[list[Odd]]:
    """Posts that together hold each text once, in the fields of its kind by turns, in as many of them as there are."""
    posts: list[list[Odd]] = []
    for names, odd in ((form.texts, texts), (form.moments, moments)):
        fields = names[:FIELDS_OF_A_FORM]
        pairs = list(zip(cycle(fields), odd, strict=False)) if fields else []
        rounds = [pairs[at : at + len(fields)] for at in range(0, len(pairs), len(fields) or 1)]
        posts = [(one or []) + (more or []) for one, more in zip_longest(posts, rounds)]
    return posts


def free_of(taken: list[Odd]) -> set[str]:
    """Names and notes: fields that took a text which is no number."""
    return {name for name, text in taken if text in TEXTS and text.strip()}


def tells(pair: Odd, free: set[str]) -> bool:
    """Whether a field is asked something by a text that it was not by others: not a name or note by a number more."""
    return pair[0] not in free or pair[1] not in NUMBERS or pair[1] in NUMBERS_IN_NAMES


def by_itself(taken: list[Odd]) -> list[list[Odd]]:
    """What was taken, once more: one a post, and beside it one of the names or notes, which take any text."""
    free = free_of(taken)
    noted = [pair for pair in taken if pair[0] in free and tells(pair, free)]
    counted = [pair for pair in taken if pair[0] not in free]
    return [[pair for pair in pairs if pair] for pairs in zip_longest(counted, noted)]


def refused(page: str) -> set[str]:
    """The fields that a page says are wrong."""
    marked = re.findall(r"<[^<>]*\baria-invalid=[^<>]*>", page)
    return {name for tag in marked for name in re.findall(r'\bname="([^"]+)"', tag)}


def broken_forms(
    client: Client, view: str, forms: list[Typed], no_moments: Iterator[str]
) -> Iterator[tuple[str, list[Odd], str]]:
    """What breaks a form that pages show with few rows or many, which share all that does not belong there.

    First whole posts of it, that is how fields refuse; then what no field refused by itself, that is what the form
    and the action make of it; other fields hold what the page gave them. A choice out of no list comes by itself.
    """
    for turn, form in enumerate(forms):
        own = slice(turn, None, len(forms))
        taken: list[Odd] = []
        alone: list[Odd] = []
        moments = (*MOMENTS, *(islice(no_moments, NO_MOMENTS_OF_A_FORM) if form.moments else ()))
        for odd in shared_out(form, (TEXTS + NUMBERS)[own], moments[own]):
            if len(odd) == 1 and not tells(odd[0], free_of(alone)):
                continue
            wrong, page = sent(client, form, odd)
            if wrong:
                yield view, odd, wrong
            no = refused(page)
            (taken if len(odd) > 1 else alone).extend(pair for pair in odd if pair[0] not in no)
        chosen = [[pair] for pair in zip(cycle(form.chosen[:FIELDS_OF_A_FORM]), CHOICES[own], strict=False)]
        for odd in by_itself(taken) + chosen:
            wrong, _ = sent(client, form, odd)
            if wrong:
                yield view, odd, wrong


class _Undone(Exception):  # noqa: N818 - no error: what a post wrote is taken back
    pass


def sent(client: Client, form: Typed, odd: list[Odd]) -> tuple[str, str]:
    """What goes wrong when a form is sent so, and the page that answers; what it wrote is taken back."""
    data: dict[str, list[str]] = {}
    for key, value in form.holds:
        data.setdefault(key, []).append(value)
    data |= {name: [text] for name, text in odd}
    wrong = page = ""
    with suppress(_Undone), transaction.atomic():
        try:
            response = getattr(client, form.method)(form.action, data)
            page = response.content.decode(errors="replace")
            if response.status_code not in {200, 302, 404, 413, 422}:
                wrong = str(response.status_code)
            elif SCRIPT in page:
                wrong = "its script runs"
        except Exception as error:
            wrong = repr(error)[:200]
        raise _Undone
    return wrong, page


def test_no_field_of_any_form_and_no_question_in_an_address_breaks_its_page(season_rows: Planted) -> None:
    """In the invented season, by its owner: walked through once for both."""
    season_rows.put_back()
    client = Client(REMOTE_ADDR="127.0.0.1")
    found = list(pages(client))
    no_field_of_any_form_breaks_its_page(client, [form for _, page in found for form in page.forms])
    no_question_in_an_address_breaks_its_page(client, found)


def no_field_of_any_form_breaks_its_page(client: Client, shown: list[Typed]) -> None:
    forms: dict[tuple[str, str], dict[int, Typed]] = {}
    for form in shown:
        view = resolve(urlsplit(form.action).path).view_name
        if not view.startswith("bench."):
            forms.setdefault((view, form.method), {}).setdefault(len(form.texts), form)
    assert sum(len(alike) for alike in forms.values()) > 100
    no_moments = cycle(NO_MOMENTS)
    broken = [
        (where, [(name, text[:30]) for name, text in odd], wrong)
        for (view, _), alike in forms.items()
        for where, odd, wrong in broken_forms(client, view, list(alike.values()), no_moments)
    ]
    assert broken == []


def no_question_in_an_address_breaks_its_page(client: Client, found: list[tuple[str, Page]]) -> None:
    """Each calculator with each text in one field after the other, and each link with something else after its `=`."""
    asked: dict[tuple[str, str], str] = {}
    benches = {}
    for path, page in found:
        for link in page.links:
            for name, _ in parse_qsl(urlsplit(link).query):
                asked.setdefault((resolve(urlsplit(link).path).view_name, name), urlsplit(link).path)
        if path.startswith("/bench/") and page.forms:
            benches.setdefault(urlsplit(path).path, page.forms[0])
    assert len(asked) > 10
    assert len(benches) >= 3
    questions = [(where, {name: text}) for (_, name), where in asked.items() for text in ASKED]
    for where, form in benches.items():
        fields = cycle(form.texts)
        questions += [(where, dict(form.holds) | {next(fields): text}) for text in TEXTS + NUMBERS]
    broken = []
    for where, question in questions:
        response = client.get(where, question)
        content = b"".join(response) if response.streaming else response.content
        if response.status_code not in {200, 302, 404, 422} or SCRIPT.encode() in content:
            broken.append((where, question, response.status_code))
    assert broken == []
