"""The catalogue for translators is what the sources say, and each of its messages can be translated."""

import ast
import re
from pathlib import Path

import catalogue
import pytest

# Before the templates are read.
import tests.django_ready  # noqa: F401
from tests.house.test_house import SRC, name_of, parsed

MODULES = [path for folder in catalogue.TRANSLATED for path in sorted((SRC / folder).rglob("*.py"))]
PLACE = re.compile(r"%\((\w+)\)|\{(\w+)\}")


def test_the_catalogue_is_up_to_date() -> None:
    made = catalogue.printed(catalogue.catalog())
    assert catalogue.TEMPLATE.read_bytes() == made, "a sentence was changed: run .venv/bin/python catalogue.py"


@pytest.mark.parametrize("path", sorted(catalogue.LOCALE.glob("*/LC_MESSAGES/django.po")), ids=str)
def test_every_language_is_up_to_date_and_compiled(path: Path) -> None:
    own = catalogue.brought_up(path, catalogue.catalog())
    assert path.read_bytes() == catalogue.printed(own), "run .venv/bin/python catalogue.py"
    assert path.with_suffix(".mo").read_bytes() == catalogue.compiled(own), "run .venv/bin/python catalogue.py"
    for one in own:
        assert not list(one.check(own)), one.id
        said = [one.string] if isinstance(one.string, str) else one.string
        assert all(places(text) <= places(str(one.id)) for text in said), f"{one.id}: another placeholder"


def places(text: str) -> set[str]:
    return {first or second for first, second in PLACE.findall(text)}


def test_figures_stand_in_messages_by_name() -> None:
    for said in catalogue.messages():
        for text in [said] if isinstance(said, str) else said:
            assert not re.search(r"(?<!%)%[sdfg]", text), text


def test_no_message_begins_or_ends_in_the_middle_of_a_sentence() -> None:
    """A message that begins with a space or a comma is a piece that is joined to another."""
    for said in catalogue.messages():
        for text in [said] if isinstance(said, str) else said:
            assert re.match(r"[^\s,;.]", text), repr(text)
            assert not text[-1].isspace(), repr(text)


def test_no_message_hides_in_an_f_string() -> None:
    """The catalogue cannot see it there."""
    hidden = [
        (name_of(path), call.args[0].value)
        for path in MODULES
        for node in ast.walk(parsed(path))
        if isinstance(node, ast.JoinedStr)
        for call in ast.walk(node)
        if isinstance(call, ast.Call)
        and ast.unparse(call.func) in catalogue.KEYWORDS
        and isinstance(call.args[0], ast.Constant)
    ]
    assert hidden == []


def test_a_language_is_begun_brought_up_and_compiled(tmp_path: Path) -> None:
    """A sentence that stays keeps its translation, a new one waits, one that is gone is left out."""
    path = tmp_path / "de" / "LC_MESSAGES" / "django.po"
    path.parent.mkdir(parents=True)
    path.write_text(
        'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=utf-8\\n"\n\n'
        'msgid "Today"\nmsgstr "Heute"\n\nmsgid "Gone"\nmsgstr "Weg"\n',
        encoding="utf-8",
    )
    own = catalogue.brought_up(path, catalogue.catalog())
    assert own["Today"].string == "Heute"
    assert not own["Beds"].string
    assert "Gone" not in own
    text = catalogue.printed(own).decode()
    assert '"Language: de\\n"' in text
    assert "nplurals=2" in text
    assert catalogue.compiled(own).startswith(b"\xde\x12\x04\x95"), "the magic number of compiled catalogues"
