"""The catalogue of all that people read, for translators: `.venv/bin/python catalogue.py` after a change of words.

Writes `src/bluewright/locale/bluewright.pot` from the sources: no line numbers, paths or dates, so that it changes only
when a sentence does. Brings every language that is there up to it (`<language>/LC_MESSAGES/django.po`) and compiles it
(`django.mo`, which the package carries). `catalogue.py de` begins a language.
"""

from __future__ import annotations

import dataclasses
import io
import os
import sys
from collections.abc import Iterator
from itertools import chain
from pathlib import Path
from typing import Any, get_args, get_type_hints

import django
from babel.messages.catalog import Catalog
from babel.messages.extract import extract
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po
from django.template import engines
from django.templatetags.i18n import BlockTranslateNode, TranslateNode

from bluewright.cli.schemas import PUBLISHED
from bluewright.science.air.endpoint import SIGNS as AIRED
from bluewright.science.media.alkalis import KINDS
from bluewright.science.steep.signs import SIGNS
from bluewright.science.vat.faults_record import CauseFound, NextTest
from bluewright.science.vat.recipe_record import VatStep
from bluewright.science.vat.signs import SIGNS as SEEN
from bluewright.science.vat.state_record import SmallPart, VatAnswer
from bluewright.words.fields import course, plain_name

ROOT = Path(__file__).resolve().parent
SRC = ROOT / "src" / "bluewright"
LOCALE = SRC / "locale"
TEMPLATE = LOCALE / "bluewright.pot"
TEMPLATES = SRC / "web" / "templates"
TRANSLATED = ("words", "charts", "journal", "web")
"""The folders whose sentences are translated. The command line is English, and so are the cautions of the science."""
VATS = (VatStep, SmallPart, VatAnswer, CauseFound, NextTest)
"""Answers whose fixed words stand in lists on the pages that say why."""
KEYWORDS: dict[str, Any] = {
    "_": None, "gettext": None, "gettext_lazy": None, "marked": None, "ngettext": (1, 2), "ngettext_lazy": (1, 2),
}  # fmt: skip
"""What a message is an argument of; of those that hang on a number the two forms."""

Message = str | tuple[str, str]
"""What is translated: a message, or one and many."""


def messages() -> list[Message]:
    """Every message of the sources, each once, in alphabetical order."""
    found = set(chain(_of_code(), _of_science(), _of_pages()))
    return sorted(found, key=lambda one: (one,) if isinstance(one, str) else one)


def _of_code() -> Iterator[Message]:
    for folder in TRANSLATED:
        for path in sorted((SRC / folder).rglob("*.py")):
            with path.open("rb") as file:
                for _line, said, _comments, _context in extract("python", file, KEYWORDS):
                    yield said if isinstance(said, str) else (said[0], said[1])


def _of_science() -> Iterator[Message]:
    """Its words that pages say: levels of signs, kinds of alkali, and the names of the fields of its answers."""
    for sign in (*SIGNS.values(), *AIRED.values(), *SEEN.values()):
        yield from sign.levels
    yield from (kind.words for kind in KINDS.values())
    yield from filter(None, (plain_name(course(name)[0]) for kind in PUBLISHED.values() for name in _fields(kind)))
    yield from (plain_name(course(word)[0]) for kind in VATS for word in _words(kind))


def _fields(kind: Any) -> Iterator[str]:
    """The names of the fields of a record or answer and of all that stands in it."""
    for name, inner in get_type_hints(kind).items() if dataclasses.is_dataclass(kind) else ():
        yield name
        yield from chain.from_iterable(_fields(part) for part in (inner, *_parts(inner)))


def _words(kind: Any) -> Iterator[str]:
    """The fixed words that the fields of an answer may hold, which pages say as they say names."""
    for inner in get_type_hints(kind).values():
        yield from (
            word for word in (*_parts(inner), *get_args(inner)) if isinstance(word, str) and word.isidentifier()
        )


def _parts(kind: Any) -> Iterator[Any]:
    for part in get_args(kind):
        yield part
        yield from _parts(part)


def _of_pages() -> Iterator[Message]:
    """Of the templates, as Django itself reads them: the messages are exactly those that it will look up."""
    engine: Any = engines["django"]
    for path in sorted(TEMPLATES.rglob("*.html")):
        nodes = engine.engine.from_string(path.read_text(encoding="utf-8")).nodelist
        for node in nodes.get_nodes_by_type(TranslateNode):
            said = node.filter_expression.var
            yield said if isinstance(said, str) else said.literal
        for node in nodes.get_nodes_by_type(BlockTranslateNode):
            one, many = (node.render_token_list(tokens)[0] for tokens in (node.singular, node.plural))
            yield (one, many) if many else one


def catalog(**options: Any) -> Catalog:
    """The messages as a catalogue that waits for its translations."""
    made = Catalog(fuzzy=False, **options)
    for said in messages():
        made.add(said)
    return made


def printed(made: Catalog) -> bytes:
    """A catalogue as text; of its header only what is needed to read it, so that it does not change by the day."""
    text = io.BytesIO()
    write_po(text, made, width=0, no_location=True, omit_header=True)
    header = ['msgid ""', 'msgstr ""', '"Content-Type: text/plain; charset=utf-8\\n"']
    if made.locale is not None:
        header += [f'"Language: {made.locale}\\n"', f'"Plural-Forms: {made.plural_forms}\\n"']
    return "\n".join([*header, "", text.getvalue().decode().strip(), ""]).encode()


def brought_up(path: Path, template: Catalog) -> Catalog:
    """A language's catalogue with the messages of the template: new ones are empty, those that are gone are out."""
    with path.open("rb") as file:
        own = read_po(file, locale=path.parents[1].name)
    own.update(template, no_fuzzy_matching=True)
    own.obsolete.clear()
    return own


def compiled(own: Catalog) -> bytes:
    """A catalogue as the program reads it."""
    data = io.BytesIO()
    write_mo(data, own)
    return data.getvalue()


def main(begun: list[str]) -> None:
    """Write the template; begin the languages that are named; bring up and compile all."""
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "bluewright.web.settings")
    django.setup()
    template = catalog()
    TEMPLATE.write_bytes(printed(template))
    print(f"{TEMPLATE.relative_to(ROOT)}: {len(template)} messages")
    for language in begun:
        path = LOCALE / language / "LC_MESSAGES" / "django.po"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(printed(Catalog(locale=language, fuzzy=False)))
    for path in sorted(LOCALE.glob("*/LC_MESSAGES/django.po")):
        own = brought_up(path, template)
        path.write_bytes(printed(own))
        path.with_suffix(".mo").write_bytes(compiled(own))
        done = sum(all([one.string] if isinstance(one.string, str) else one.string) for one in own if one.id)
        print(f"{path.relative_to(ROOT)}: {done} of {len(own)} are translated")


if __name__ == "__main__":
    main(sys.argv[1:])
