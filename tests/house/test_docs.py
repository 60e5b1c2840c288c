"""The documents, held against the code and against each other."""

import importlib.util
import re
import runpy
from pathlib import Path
from types import ModuleType

import pytest

from bluewright.charts.palette import contrast
from bluewright.cli.commands import COMMANDS
from bluewright.science.base.records import read
from bluewright.science.steep.record import SteepRecord
from bluewright.science.steep.signs import SIGNS
from bluewright.words.sources import citation, entries
from tests.house.test_house import BARE, ROOT, UNIT_ENDINGS

DOCS = ROOT / "docs"
PAGES = sorted([*ROOT.glob("*.md"), *DOCS.rglob("*.md")])


def page_name(path: Path) -> str:
    return str(path.relative_to(ROOT))


def extension(name: str) -> ModuleType:
    spec = importlib.util.spec_from_file_location(name, DOCS / "_ext" / f"{name}.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def anchors(text: str) -> set[str]:
    """The anchors that headings of a Markdown page get."""
    heads = re.findall(r"^#+ (.+)$", text, re.M)
    return {re.sub(r"[^\w\- ]", "", head.lower()).strip().replace(" ", "-") for head in heads}


@pytest.mark.parametrize("path", PAGES, ids=page_name)
def test_every_relative_link_resolves(path: Path) -> None:
    text = re.sub(r"```.*?```", "", path.read_text(encoding="utf-8"), flags=re.S)
    for target in re.findall(r"\]\(([^)\s]+)\)", text):
        if re.match(r"[a-z]+:", target):
            continue
        name, _, anchor = target.partition("#")
        found = (path.parent / name).resolve() if name else path
        assert found.exists(), f"{target} does not exist"
        assert ROOT in found.parents, f"{target} leads out of the repository"
        if anchor:
            assert anchor in anchors(found.read_text(encoding="utf-8")), f"{target} has no such heading"


@pytest.mark.parametrize("name", ["README.md", "docs/commands.md"])
def test_every_command_has_its_place_and_no_other_is_named(name: str) -> None:
    text = (ROOT / name).read_text(encoding="utf-8")
    known = {" ".join(command.words) for command in COMMANDS}
    pattern = r"^## `bluewright ([a-z ]+)`$" if name.endswith("commands.md") else r"^\| `bluewright ([a-z ]+)` \|"
    assert set(re.findall(pattern, text, re.M)) == known


@pytest.mark.parametrize("path", PAGES, ids=page_name)
def test_commands_that_are_mentioned_exist(path: Path) -> None:
    known = {" ".join(command.words) for command in COMMANDS} | {command.words[0] for command in COMMANDS}
    for said in re.findall(r"`bluewright ([a-z]+(?: [a-z]+)?)", path.read_text(encoding="utf-8")):
        assert said in known or said.split()[0] in known, said


def test_every_method_page_has_the_same_parts() -> None:
    for path in sorted((DOCS / "method").glob("*.md")):
        text = path.read_text(encoding="utf-8")
        assert re.search(r"^\*\*The questions?\.\*\*", text, re.M), path.name
        for part in ("## Limits", "## Sources"):
            assert part in text, f"{path.name} lacks {part}"
        assert "```python" in text, f"{path.name} has no worked example"


def test_records_on_the_first_hour_page_are_read() -> None:
    blocks = re.findall(r"```json\n(.*?)```", (DOCS / "start.md").read_text(encoding="utf-8"), re.S)
    assert len(blocks) >= 2
    for block in blocks:
        assert read(SteepRecord, block).leaf_kg > 0


def test_unit_endings_and_bare_names_stand_on_the_page_of_names() -> None:
    page = (DOCS / "nomenclature.md").read_text(encoding="utf-8")
    named = set(re.findall(r"`_?([a-z0-9_]+?)_?`", page))
    wanted = (set(UNIT_ENDINGS) | BARE) - {"n"}
    assert wanted <= named, f"not on docs/nomenclature.md: {', '.join(sorted(wanted - named))}"


def test_every_sign_and_level_stands_on_the_page_of_names() -> None:
    page = (DOCS / "nomenclature.md").read_text(encoding="utf-8")
    for name, sign in SIGNS.items():
        assert f"| `{name}` | {' | '.join(sign.levels)} |" in page


def test_every_sign_is_drawn_on_the_page_of_signs() -> None:
    page = (DOCS / "signs.md").read_text(encoding="utf-8")
    assert re.findall(r"^```\{sign-ladder\} (\w+)$", page, re.M) == list(SIGNS)


def test_every_decision_is_listed() -> None:
    index = (DOCS / "decisions" / "index.md").read_text(encoding="utf-8")
    for path in (DOCS / "decisions").glob("*.md"):
        if path.stem != "index":
            assert re.search(rf"^{path.stem}$", index, re.M), path.name
            text = path.read_text(encoding="utf-8")
            assert all(part in text for part in ("**Question.**", "**Decision.**", "**Why.**", "**What it costs.**"))


def test_the_bibliography_is_readable_complete_and_in_order() -> None:
    found = entries((ROOT / "sources.bib").read_text(encoding="utf-8"))
    keys = [entry.key for entry in found]
    assert keys == sorted(set(keys)), "keys in alphabetical order, each once"
    for entry in found:
        assert entry.fields.get("title"), entry.key
        assert {"year", "note"} & set(entry.fields), entry.key


@pytest.mark.parametrize(
    "text",
    ["@misc{a,\n  title = {x\n},\n}\n", "@misc{a, title = {x}}\n", "@misc{a,\n  title = {{x},\n}\n"],
    ids=["over two lines", "on one line", "open brace"],
)
def test_a_bibliography_that_cannot_be_read_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"sources\.bib"):
        entries(text)


def test_a_source_is_cited_as_people_do() -> None:
    text = (
        "@article{roe-1999,\n  author = {Roe, A. and {Institute of Blue}},\n  title = {On leaf},\n"
        "  journal = {Journal},\n  volume = {3},\n  pages = {1--9},\n  year = {1999},\n}\n"
    )
    assert citation(entries(text)[0]) == ("Roe, A. and Institute of Blue (1999). On leaf. Journal 3, pages 1–9.")


def test_assets_of_other_hosts_are_found_and_links_are_free() -> None:
    foreign = extension("own_assets").foreign_assets
    assert foreign('<script src="https://cdn.example/x.js"></script>') == ["https://cdn.example/x.js"]
    assert foreign('<link rel="stylesheet" href="//cdn.example/x.css"><img src=http://a.example/b.png>') == [
        "//cdn.example/x.css",
        "http://a.example/b.png",
    ]
    assert foreign('<a href="https://doi.org/1">a</a><link rel="canonical" href="https://x.example"/>') == []
    assert foreign('<script src="_static/x.js"></script><img src="images/a.svg">') == []


def test_text_of_the_site_is_legible_in_light_and_dark() -> None:
    """At least 7:1 (WCAG 2.1, criterion 1.4.6) for every text colour against every ground of the same theme."""
    options = runpy.run_path(str(DOCS / "conf.py"))["html_theme_options"]
    for theme in options.values():
        grounds = [theme[f"color-background-{name}"] for name in ("primary", "secondary", "hover")]
        inks = [theme[f"color-foreground-{name}"] for name in ("primary", "secondary", "muted")]
        inks += [theme["color-brand-content"], theme["color-brand-visited"], theme["color-code-foreground"]]
        for ink in inks:
            assert all(contrast(ink, ground) >= 7 for ground in grounds), ink
