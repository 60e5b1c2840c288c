"""A walk through every page that links lead to, and what is looked at on each.

Of each address's name a few pages are opened, so that the same page is seen in the states that it can be in; the closer
looks are taken once for each set of parts that a page was built of.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final
from urllib.parse import urlsplit

from django.urls import resolve

from tests.journeys.phone import PHONE, THUMB_PX

WIDTHS_PX: Final = (320, 390, 600, 1200)
"""The narrowest that WCAG 2.2 asks for (success criterion 1.4.10), a phone, a laptop at twice the size, a laptop."""
HIGH_PX: Final = 844
MOST_OF_A_NAME, MOST_ALIKE, LOOKS_OF_A_NAME = 7, 2, 2
"""So many pages of one name are opened, fewer once so many were like others; so many of each name are looked at."""
MOST_TABS: Final = 700
AXE_ALL: Final = """
async within => {
    const tags = ['wcag2a', 'wcag2aa', 'wcag2aaa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const rules = {
        'color-contrast': {enabled: false}, 'color-contrast-enhanced': {enabled: true}, 'target-size': {enabled: true},
    };
    const found = await axe.run(within, {runOnly: {type: 'tag', values: tags}, rules, resultTypes: ['violations']});
    return found.violations.map(v => `${v.id}: ${v.nodes[0].html.slice(0, 120)}, ${v.nodes.length} in all`);
}
"""
"""Contrast at 7:1 and, of large text, 4.5:1: whatever falls short of 4.5:1 and 3:1 falls short of that too."""
AXE_OF_THE_LAYOUT: Final = """
async () => {
    const only = ['color-contrast-enhanced', 'target-size', 'scrollable-region-focusable'];
    const found = await axe.run({runOnly: {type: 'rule', values: only}, resultTypes: ['violations']});
    return found.violations.map(v => `${v.id}: ${v.nodes[0].html.slice(0, 120)}, ${v.nodes.length} in all`);
}
"""
"""At a second width only what the layout can change."""
PARTS: Final = """
[...new Set([...document.querySelectorAll('main *:not(svg *)')].map(e => e.tagName + '.' + e.className))].sort().join()
"""
LINKS: Final = "[...document.querySelectorAll('a[href]')].map(a => a.getAttribute('href'))"
UNFOLD: Final = "document.querySelectorAll('details:not(.places)').forEach(d => { d.open = true; })"
PLACES: Final = "open => document.querySelectorAll('details.places').forEach(d => { d.open = open; })"
"""The list of places unfolds over the page, and hides some of it: it is looked at by itself."""
SMALL: Final = """
low => [...document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')]
    .map(e => (e.type === 'radio' || e.type === 'checkbox') ? (e.closest('label') ?? e) : e)
    .filter(e => e.getClientRects().length)
    .filter(e => {
        // A link within a sentence is as high as its line (the exception `inline` of 2.5.5).
        const around = e.closest('p, li, dd, td, figcaption');
        const said = around ? around.innerText.replace(e.innerText, '').replace(/\\W/g, '') : '';
        return !(e.tagName === 'A' && getComputedStyle(e).display === 'inline' && said.length > 2);
    })
    .map(e => [e.outerHTML.slice(0, 120), e.getBoundingClientRect().height])
    .filter(([_, high]) => high < low)
"""
UNLABELLED: Final = """
[...document.querySelectorAll('input:not([type=hidden]), select, textarea')]
    .filter(e => e.labels.length !== 1 && !e.getAttribute('aria-label')).map(e => e.outerHTML.slice(0, 120))
"""
SAME_IDS: Final = """
(() => { const ids = [...document.querySelectorAll('[id]')].map(e => e.id);
         return [...new Set(ids.filter((id, k) => ids.indexOf(id) !== k))]; })()
"""
DESCRIBED_BY_NOTHING: Final = """
[...document.querySelectorAll('[aria-describedby], [aria-labelledby]')]
    .flatMap(e => `${e.getAttribute('aria-describedby') ?? ''} ${e.getAttribute('aria-labelledby') ?? ''}`.split(' '))
    .filter(id => id && !document.getElementById(id))
"""
BARE: Final = """
[['h1', document.querySelectorAll('h1').length === 1], ['lang', /^[a-z]{2}/.test(document.documentElement.lang)],
 ['title', document.title.length > 12], ['main', document.querySelectorAll('main').length === 1]]
    .filter(([_, good]) => !good).map(([what]) => what)
"""
WATCH_FOCUS: Final = """
within => {
    window.within = document.querySelector(within);
    window.controls = () => [...window.within.querySelectorAll(
        'a[href], button, input:not([type=hidden]), select, textarea, summary')]
        .filter(e => e.getClientRects().length && !e.disabled && getComputedStyle(e).visibility === 'visible');
    document.activeElement.blur();
    if (within !== 'html') { window.within.tabIndex = -1; window.within.focus(); }
    window.focused = new Map();
    document.addEventListener('focusin', event => {
        const e = event.target, label = e.closest('label');
        const seen = s => s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2 || s.outlineStyle === 'auto';
        const shows = seen(getComputedStyle(e)) || (label && seen(getComputedStyle(label)));
        window.focused.set(e, Boolean(shows));
    });
    return window.controls().length;
}
"""
"""How many controls stand within a part of the page, and where Tab begins."""
GONE_ROUND: Final = "document.activeElement === document.body || !window.within.contains(document.activeElement)"
NOT_FOCUSED: Final = """
(() => {
    const group = e => e.form?.action + e.name;
    const radios = new Set([...window.focused.keys()].filter(e => e.type === 'radio').map(group));
    return window.controls().filter(e => !window.focused.has(e))
        .filter(e => !(e.type === 'radio' && radios.has(group(e)))).map(e => e.outerHTML.slice(0, 120));
})()
"""
FOCUS_UNSEEN: Final = "[...window.focused].filter(([_, seen]) => !seen).map(([e]) => e.outerHTML.slice(0, 120))"


@dataclass
class Walk:
    """What was found: for each kind of trouble the pages that have it, and what."""

    opened: Counter[str] = field(default_factory=Counter)
    looked: Counter[str] = field(default_factory=Counter)
    trouble: defaultdict[str, list[str]] = field(default_factory=lambda: defaultdict(list))

    def note(self, kind: str, path: str, what: Any) -> None:
        """Note what was found on a page, if anything was."""
        if what:
            self.trouble[kind].append(f"{path}: {str(what)[:600]}")


def walk(page: Any, address: str, *, starts: tuple[str, ...]) -> Walk:
    """Open every page that links lead to from the starts, a few of each name, and look at them."""
    found, shapes, alike = Walk(), set(), Counter[str]()
    _listen(page, address, found)
    to_open, known = list(starts), set(starts)
    while to_open:
        path = to_open.pop(0)
        name = resolve(urlsplit(path).path).view_name
        if found.opened[name] >= MOST_OF_A_NAME or alike[name] >= MOST_ALIKE:
            continue
        found.opened[name] += 1
        page.goto(address + path)
        fresh = {_path(link, on=path) for link in page.evaluate(LINKS)} - {""} - known
        known |= fresh
        to_open += sorted(fresh)
        shape = (name, page.evaluate(PARTS))
        alike[name] += shape in shapes
        if shape not in shapes and found.looked[name] < LOOKS_OF_A_NAME:
            look(page, path, found, keys=not found.looked[name])
            found.looked[name] += 1
        shapes.add(shape)
    return found


def look(page: Any, path: str, found: Walk, *, keys: bool) -> None:
    """Everything that is asked of a page, all that can be unfolded unfolded."""
    found.note("bare", path, page.evaluate(BARE))
    page.evaluate(UNFOLD)
    found.note("unlabelled", path, page.evaluate(UNLABELLED))
    found.note("ids", path, page.evaluate(SAME_IDS))
    found.note("described", path, page.evaluate(DESCRIBED_BY_NOTHING))
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found.note("axe", path, page.evaluate(AXE_ALL, "html"))
    for width in WIDTHS_PX:
        page.set_viewport_size({"width": width, "height": HIGH_PX})
        wide = page.evaluate("document.documentElement.scrollWidth")
        found.note("wide", path, f"{wide} px in {width} px" if wide > width else "")
        found.note("small", path, page.evaluate(SMALL, THUMB_PX))
    found.note("axe", path, page.evaluate(AXE_OF_THE_LAYOUT))
    if keys:
        _press_tab_through(page, path, found)
    page.set_viewport_size(PHONE)


def _press_tab_through(page: Any, path: str, found: Walk) -> None:
    """Hold Tab until the focus has gone round: it came to every control, and could be seen on each.

    What stands around every page is gone through on the first alone, with the list of places open.
    """
    within = "main"
    if path == "/":
        within = "html"
        page.evaluate(PLACES, True)
        found.note("axe", path, page.evaluate(AXE_ALL, ".places"))
    controls = page.evaluate(WATCH_FOCUS, within)
    for presses in range(MOST_TABS):
        page.keyboard.down("Tab")
        if presses >= controls and page.evaluate(GONE_ROUND):
            break
    page.keyboard.up("Tab")
    found.note("keys", path, page.evaluate(NOT_FOCUSED))
    found.note("focus", path, page.evaluate(FOCUS_UNSEEN))


def _path(link: str, *, on: str) -> str:
    """The address that a link leads to, without its fragment; nothing for what is no page of ours."""
    link = (urlsplit(on).path + link if link.startswith("?") else link).partition("#")[0]
    twin = "as=" in urlsplit(link).query
    return "" if twin or not link.startswith("/") or resolve(urlsplit(link).path).view_name in NO_PAGES else link


def _listen(page: Any, address: str, found: Walk) -> None:
    def asked(request: Any) -> None:
        if not request.url.startswith((address, "data:", "blob:")):
            found.note("elsewhere", page.url, request.url)

    def answered(response: Any) -> None:
        if response.status >= 400:
            found.note("refused", page.url, f"{response.status} {response.url}")

    page.on("request", asked)
    page.on("response", answered)
    page.on("console", lambda said: found.note("complaints", page.url, said.text if said.type == "error" else ""))
    page.on("pageerror", lambda error: found.note("complaints", page.url, str(error)))


NO_PAGES: Final = {
    "gardens.take_out": "a file to keep",
    "book.csv": "a file to keep",
    "book.looks": "a file to keep",
    "costs.csv": "a file to keep",
    "stock.csv": "a file to keep",
    "schedule.calendar": "a file to keep",
    "learned.share_file": "a file to keep",
    "photos.image": "a picture",
    "prints.alkali": "a sheet as PDF; its page is alkali.card",
}
"""What answers to a GET and is no page, and what it is."""


def _axe() -> Path:
    import axe_playwright_python

    return Path(axe_playwright_python.__file__).parent / "axe.min.js"


AXE: Final = _axe()
