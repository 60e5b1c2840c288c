"""Rules of the house for pages: each address has its test file, and no template points at an address that is not."""

import re
from pathlib import Path

import pytest
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver

import bluewright.web

HERE = Path(__file__).parent
WEB = Path(bluewright.web.__file__).parent
TEMPLATES = sorted((WEB / "templates").rglob("*.html"))
ALONE = {"today": "today/test_today.py"}
"""Names without a noun, and where they are tested."""
FILES = {"open_one": "open"}


def _patterns(patterns: list[URLPattern | URLResolver]) -> list[URLPattern]:
    found: list[URLPattern] = []
    for one in patterns:
        found += _patterns(one.url_patterns) if isinstance(one, URLResolver) else [one]
    return found


PATTERNS = _patterns(get_resolver().url_patterns)
NAMES = {str(pattern.name) for pattern in PATTERNS}


def test_every_address_has_a_name() -> None:
    assert all(pattern.name for pattern in PATTERNS)
    assert len(NAMES) == len(PATTERNS)


def test_every_address_has_its_test_file() -> None:
    wanted = {name: ALONE.get(name, f"{name.replace('.', '/test_')}.py") for name in NAMES}
    assert [name for name, file in wanted.items() if not (HERE / file).exists()] == []


def test_every_address_is_named_after_its_view() -> None:
    assert [pattern.name for pattern in PATTERNS if not _named_after_its_view(pattern)] == []


def _named_after_its_view(pattern: URLPattern) -> bool:
    noun, _, verb = str(pattern.name).partition(".")
    made = pattern.callback
    module = re.fullmatch(rf"bluewright\.web\.pages\.{noun}\.views(\.[a-z_]+)?", made.__module__)
    return not verb or (bool(module) and FILES.get(made.__name__, made.__name__) == verb)


def test_templates_point_at_addresses_that_there_are() -> None:
    pointed = [
        (name_of(template), name)
        for template in TEMPLATES
        for name in re.findall(r"""{%\s*url\s+['"]([^'"]+)['"]""", template.read_text(encoding="utf-8"))
    ]
    assert len(pointed) > 100
    assert [(template, name) for template, name in pointed if name not in NAMES] == []


def test_every_form_that_posts_carries_its_token() -> None:
    posting = [
        (name_of(template), form)
        for template in TEMPLATES
        for form in re.findall(r"<form\b.*?</form>", template.read_text(encoding="utf-8"), re.S)
        if 'method="post"' in form
    ]
    assert len(posting) > 50
    assert [(template, form[:80]) for template, form in posting if "{% csrf_token %}" not in form] == []


def name_of(template: Path) -> str:
    return str(template.relative_to(WEB))


@pytest.mark.django_db
def test_a_post_without_its_token_is_refused() -> None:
    assert Client(enforce_csrf_checks=True).post("/gardens/demo/").status_code == 403
