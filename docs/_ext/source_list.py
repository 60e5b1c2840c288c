"""The page of sources, made from `sources.bib` when the docs are built: one entry and one anchor for each key.

The `{source-list}` directive writes the list; `{src}` with a key in backticks links to its entry from any page.
"""

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from docutils import nodes
from docutils.parsers.rst import Directive
from sphinx.application import Sphinx

BIB = Path(__file__).parents[2] / "sources.bib"


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry: its key, its kind (`article`, `book`, ...) and its fields with the braces taken off."""

    key: str
    kind: str
    fields: dict[str, str]


def entries(text: str) -> list[Entry]:
    """The entries of a BibTeX file that keeps to one `name = {value},` a field; refuses what it cannot read."""
    found = []
    for match in re.finditer(r"^@(\w+)\{([^,\s]+),\n(.*?)^\}", text, re.M | re.S):
        kind, key, body = match.groups()
        fields = {}
        for line in filter(None, (line.strip() for line in body.splitlines())):
            field = re.fullmatch(r"(\w+)\s*=\s*\{(.*)\},?", line)
            if field is None or field[2].count("{") != field[2].count("}"):
                raise ValueError(f"sources.bib, {key}: write `name = {{value}},` on one line, not: {line}")
            fields[field[1].lower()] = re.sub(r"[{}]", "", field[2]).replace("--", "–").replace("~", " ")
        found.append(Entry(key=key, kind=kind.lower(), fields=fields))
    if len(found) != len(re.findall(r"^@", text, re.M)):
        raise ValueError("sources.bib holds an entry that does not end with a brace on a line of its own")
    return found


def citation(entry: Entry) -> str:
    """The entry as people cite it: who, when, what, where."""
    field = entry.fields.get
    people = (field("author") or field("editor") or "").split(" and ")
    who = ", ".join(people[:-1]) + (" and " if len(people) > 1 else "") + people[-1]
    head = " ".join(part for part in (who, f"({field('year')})" if field("year") else "") if part)
    where = ", ".join(
        part
        for part in (
            field("booktitle"),
            " ".join(filter(None, (field("journal"), field("volume")))),
            field("number"),
            field("edition"),
            field("school"),
            field("institution"),
            field("publisher"),
            f"pages {field('pages')}" if field("pages") else "",
        )
        if part
    )
    return ". ".join(part for part in (head, field("title", ""), where) if part) + "."


class SourceList(Directive):
    """`{source-list}`: every source, by key."""

    def run(self) -> list[nodes.Node]:
        """One definition a key; a change of the file rebuilds the page."""
        env = self.state.document.settings.env
        env.note_dependency(str(BIB))
        listed = nodes.definition_list()
        for entry in sorted(entries(BIB.read_text(encoding="utf-8")), key=lambda e: e.key):
            node_id = f"source-{nodes.make_id(entry.key)}"
            term = nodes.term("", "", nodes.literal("", entry.key), ids=[node_id])
            said = nodes.paragraph("", citation(entry))
            for address in (_doi(entry), entry.fields.get("url", "")):
                if address:
                    said += [nodes.Text(" "), nodes.reference("", address, refuri=address)]
            definition = nodes.definition("", said)
            if "note" in entry.fields:
                definition += nodes.paragraph("", "", nodes.emphasis("", entry.fields["note"]))
            listed += nodes.definition_list_item("", term, definition)
            env.get_domain("std").note_object("src", entry.key, node_id, location=term)
        return [listed]


def _doi(entry: Entry) -> str:
    return f"https://doi.org/{entry.fields['doi']}" if "doi" in entry.fields else ""


def setup(app: Sphinx) -> dict[str, Any]:
    """Register the directive and the role."""
    app.add_directive("source-list", SourceList)
    app.add_object_type("src", "src", objname="source")
    return {"parallel_read_safe": True, "parallel_write_safe": True}
