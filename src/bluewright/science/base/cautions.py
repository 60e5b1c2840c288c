"""Cautions: what could hurt, or what a number should not be trusted for, said beside the number."""

from __future__ import annotations

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
