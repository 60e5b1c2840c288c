"""What can be read of a PDF without reading PDF: how many pages it has; and of the same sheet as drawing, its marks."""

import re
from typing import Any

from bluewright.web.prints import typeset


def pages(pdf: bytes) -> int:
    """Page objects of a PDF as the typesetter writes it, plain in the file."""
    assert pdf.startswith(b"%PDF-")
    return len(re.findall(rb"/Type\s*/Page\b", pdf))


def marks(template: str, page: Any) -> int:
    """How many glyphs the sheet is drawn with."""
    (svg,) = typeset.typeset(template, page, to="svg")
    return len(re.findall(rb"<use ", svg))


__all__ = ["marks", "pages"]
