"""The bibliography: `sources.bib` read, and each source as people cite it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Final

from bluewright.words.texts import BIBLIOGRAPHY, text

NO_SOURCE: Final = "common-practice"
"""The key that stands for what growers do and no source was found for."""


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry: its key, its kind (`article`, `book`, ...) and its fields with the braces taken off."""

    key: str
    kind: str
    fields: dict[str, str]

    @property
    def anchor(self) -> str:
        """The name of its place on the page of sources."""
        return f"source-{self.key}"

    @property
    def addresses(self) -> tuple[str, ...]:
        """Where it can be read: its DOI as a link, its page."""
        doi = f"https://doi.org/{self.fields['doi']}" if "doi" in self.fields else ""
        return tuple(filter(None, (doi, self.fields.get("url", ""))))


@cache
def bibliography() -> Mapping[str, Entry]:
    """Every source by its key, in alphabetical order."""
    return {entry.key: entry for entry in sorted(entries(text(BIBLIOGRAPHY)), key=lambda entry: entry.key)}


def entries(bib: str) -> list[Entry]:
    """The entries of a BibTeX file that keeps to one `name = {value},` a field; refuses what it cannot read."""
    found = []
    for match in re.finditer(r"^@(\w+)\{([^,\s]+),\n(.*?)^\}", bib, re.M | re.S):
        kind, key, body = match.groups()
        fields = {}
        for line in filter(None, (line.strip() for line in body.splitlines())):
            field = re.fullmatch(r"(\w+)\s*=\s*\{(.*)\},?", line)
            if field is None or field[2].count("{") != field[2].count("}"):
                raise ValueError(f"sources.bib, {key}: write `name = {{value}},` on one line, not: {line}")
            fields[field[1].lower()] = re.sub(r"[{}]", "", field[2]).replace("--", "–").replace("~", " ")
        found.append(Entry(key=key, kind=kind.lower(), fields=fields))
    if len(found) != len(re.findall(r"^@", bib, re.M)):
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
