"""The page of sources, made from `sources.bib` when the docs are built: one entry and one anchor for each key.

The `{source-list}` directive writes the list; `{src}` with a key in backticks links to its entry from any page.
"""

from pathlib import Path
from typing import Any

from docutils import nodes
from docutils.parsers.rst import Directive
from sphinx.application import Sphinx

from bluewright.words.sources import citation, entries

BIB = Path(__file__).parents[2] / "sources.bib"


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
            for address in entry.addresses:
                said += [nodes.Text(" "), nodes.reference("", address, refuri=address)]
            definition = nodes.definition("", said)
            if "note" in entry.fields:
                definition += nodes.paragraph("", "", nodes.emphasis("", entry.fields["note"]))
            listed += nodes.definition_list_item("", term, definition)
            env.get_domain("std").note_object("src", entry.key, node_id, location=term)
        return [listed]


def setup(app: Sphinx) -> dict[str, Any]:
    """Register the directive and the role."""
    app.add_directive("source-list", SourceList)
    app.add_object_type("src", "src", objname="source")
    return {"parallel_read_safe": True, "parallel_write_safe": True}
