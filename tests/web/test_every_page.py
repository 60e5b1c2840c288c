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


@pytest.mark.parametrize("name", sorted(NAMES))
def test_every_address_has_its_test_file(name: str) -> None:
    noun, _, verb = name.partition(".")
    assert (HERE / ALONE.get(name, f"{noun}/test_{verb}.py")).exists()


@pytest.mark.parametrize("pattern", PATTERNS, ids=lambda p: str(p.name))
def test_every_address_is_named_after_its_view(pattern: URLPattern) -> None:
    noun, _, verb = str(pattern.name).partition(".")
    if verb:
        made = pattern.callback
        assert re.fullmatch(rf"bluewright\.web\.pages\.{noun}\.views(\.[a-z_]+)?", made.__module__)
        assert FILES.get(made.__name__, made.__name__) == verb


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda p: str(p.relative_to(WEB)))
def test_templates_point_at_addresses_that_there_are(template: Path) -> None:
    named = set(re.findall(r"""{%\s*url\s+['"]([^'"]+)['"]""", template.read_text(encoding="utf-8")))
    assert named <= NAMES


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda p: str(p.relative_to(WEB)))
def test_every_form_that_posts_carries_its_token(template: Path) -> None:
    for form in re.findall(r"<form\b.*?</form>", template.read_text(encoding="utf-8"), re.S):
        if 'method="post"' in form:
            assert "{% csrf_token %}" in form


@pytest.mark.django_db
def test_a_post_without_its_token_is_refused() -> None:
    assert Client(enforce_csrf_checks=True).post("/gardens/demo/").status_code == 403
