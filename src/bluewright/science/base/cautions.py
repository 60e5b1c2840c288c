"""Cautions: what could hurt, or what a number should not be trusted for, said beside the number."""

from __future__ import annotations

from collections.abc import Mapping

from bluewright.science.base.records import answer


@answer
class Caution:
    """One caution. It never claims that something is safe; labels, local rules and licensed practice go first."""

    code: str
    """A short stable name for programs (`ammonia-air`)."""
    text: str
    """One or two plain sentences for people, with this case's figures where they can be computed."""
    source: str
    """A key of `sources.bib`, or `common-practice`."""


def caution(code: str, text: str, *, source: str = "common-practice") -> Caution:
    """One caution of a stage; its source is common practice unless one is named."""
    return Caution(code=code, text=text, source=source)


def those_that_hold(said: Mapping[tuple[str, str], bool], *, source: str = "common-practice") -> tuple[Caution, ...]:
    """The cautions, each a code and a text, of which it is true that they are wanted; in their order."""
    return tuple(caution(code, text, source=source) for (code, text), holds in said.items() if holds)
