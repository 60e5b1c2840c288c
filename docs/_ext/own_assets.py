"""No page of the docs may load anything from another host: the build fails if one does.

Links that a reader may follow are free; what counts is what a browser fetches by itself.
"""

from html.parser import HTMLParser
from pathlib import Path
from typing import Any

from sphinx.application import Sphinx
from sphinx.errors import ExtensionError

FETCHED = {
    "script": "src",
    "img": "src",
    "iframe": "src",
    "source": "src",
    "video": "src",
    "audio": "src",
    "embed": "src",
    "object": "data",
}
LOADING_RELATIONS = {"stylesheet", "icon", "preload", "modulepreload", "preconnect", "dns-prefetch", "manifest"}


class _Assets(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.addresses: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if tag in FETCHED and FETCHED[tag] in given:
            self.addresses.append(given[FETCHED[tag]])
        if tag == "link" and LOADING_RELATIONS & set(given.get("rel", "").split()):
            self.addresses.append(given.get("href", ""))


def foreign_assets(html: str) -> list[str]:
    """Addresses on other hosts that a browser would fetch while it shows the page."""
    parser = _Assets()
    parser.feed(html)
    return [a for a in parser.addresses if a.split(":")[0].lower() in {"http", "https", "ftp"} or a.startswith("//")]


def check(app: Sphinx, exception: Exception | None) -> None:
    """Look through every page and style sheet that was built."""
    if exception is not None or app.builder.format != "html":
        return
    out = Path(app.outdir)
    wrong = [
        f"{page.relative_to(out)}: {address}"
        for page in sorted(out.rglob("*.html"))
        for address in foreign_assets(page.read_text(encoding="utf-8"))
    ]
    for sheet in sorted(out.rglob("*.css")):
        text = sheet.read_text(encoding="utf-8").replace(" ", "").replace('"', "").replace("'", "")
        if any(part in text for part in ("url(http", "url(//", "@importhttp", "@import//")):
            wrong.append(str(sheet.relative_to(out)))
    if wrong:
        raise ExtensionError("loaded from another host: " + "; ".join(wrong))


def setup(app: Sphinx) -> dict[str, Any]:
    """Check when all is built."""
    app.connect("build-finished", check)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
