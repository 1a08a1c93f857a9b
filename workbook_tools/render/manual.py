"""The manual as one page that needs no network: its chapters, some made from what they tell."""

from __future__ import annotations

import base64
import re
from collections.abc import Mapping
from pathlib import Path

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup

from workbook_tools import __version__
from workbook_tools.catalog.reference import PAGE
from workbook_tools.findings.codes import CODES
from workbook_tools.render.html import fill
from workbook_tools.summary.finding_order import KINDS

FOLDER = Path(__file__).resolve().parents[1] / "manual"

# The chapters in order, by part: for who begins, for the work, to look things up, about it all.
PARTS: Mapping[str, tuple[str, ...]] = {
    "Begin": ("start.md", "tutorial.md", "gallery.md"),
    "Do": ("how_to.md", "summaries.md", "bands.md", "libreoffice.md", "excel.md", "xlwings.md",
           "batches.md", "python.md"),
    "Look up": ("formulas.md", "functions.md", "findings.md", "commands.md", "errors.md",
                "glossary.md", "build_data.md"),
    "About": ("sources.md", "tested.md", "changes.md"),
}  # fmt: skip
CHAPTERS = tuple(name for names in PARTS.values() for name in names)
# Made from what they tell; the others are files.
MADE = ("functions.md", "findings.md", "commands.md")

_LINK = re.compile(r"(?P<file>[\w./-]+\.md)?(?:#(?P<anchor>[\w-]+))?")


def chapter_text(name: str, commands: str = "") -> str:
    """A chapter as Markdown. commands: the text of the one about the commands."""
    if name == "functions.md":
        return PAGE.read_text(encoding="utf-8")
    if name == "findings.md":
        return findings_text()
    if name == "commands.md":
        return commands
    return (FOLDER / name).read_text(encoding="utf-8")


def findings_text() -> str:
    """Every code of a finding as Markdown: what it means, an example, how it is settled."""
    lines = ["# All findings", "", "`workbook-tools findings CODE` prints one of these."]
    for kind in KINDS:
        lines += ["", f"## Kind: {kind}"]
        for name, code in CODES.items():
            if code.kind == kind:
                lines += ["", f"### {name}", "", code.meaning, ""]
                lines += [f"* Example: {code.example}", f"* To settle it: {code.settle}"]
    return "\n".join(lines) + "\n"


def manual_html(commands: str) -> str:
    """The whole manual as one page. commands: the chapter about the commands, as Markdown.

    Raises OSError where a chapter is missing from the installation.
    """
    parts = [
        (part, [_chapter(name, chapter_text(name, commands)) for name in names])
        for part, names in PARTS.items()
    ]
    return fill("manual.html.jinja", parts=parts, version=__version__)


def anchor(heading: str) -> str:
    """The anchor of a heading, as pages of code show Markdown: small letters, hyphens."""
    kept = re.sub(r"[^\w\- ]", "", heading.lower())
    return kept.replace(" ", "-")


def _chapter(name: str, text: str) -> dict[str, object]:
    markdown = MarkdownIt("commonmark", {"html": False}).enable("table")
    tokens = markdown.parse(text)
    titles = []
    for token, inline in zip(tokens, [*tokens[1:], None], strict=True):
        if token.type == "heading_open" and inline is not None:
            heading = "".join(t.content for t in inline.children or ())
            own = token.tag == "h1"
            token.attrSet("id", _id(name) if own else f"{_id(name)}--{anchor(heading)}")
            # The page has a heading of its own above the chapters.
            token.tag = f"h{int(token.tag[1]) + 1}"
            titles.append((token.tag, heading, token.attrs["id"]))
        elif token.type == "heading_close":
            token.tag = f"h{int(token.tag[1]) + 1}"
        for child in token.children or ():
            _make_local(child, name)
    return {
        "id": _id(name),
        "title": titles[0][1],
        "body": Markup(markdown.renderer.render(tokens, markdown.options, {})),
    }


def _id(name: str) -> str:
    return Path(name).stem.lower()


def _make_local(token: Token, chapter: str) -> None:
    """Let a link lead to its place on the page, and a picture travel in it."""
    if token.type == "link_open":
        target = str(token.attrGet("href") or "")
        found = _LINK.fullmatch(target)
        if found:
            token.attrSet("href", _target(chapter, found["file"] or "", found["anchor"] or ""))
        elif not target.startswith("https://"):  # A file of the package; the page stands alone.
            del token.attrs["href"]
    elif token.type == "image":
        token.attrSet("src", _embedded(FOLDER / str(token.attrGet("src"))))


def _target(chapter: str, file: str, place: str) -> str:
    name = Path(file).name or chapter
    if name == PAGE.name:
        name = "functions.md"
    return f"#{_id(name)}--{place}" if place else f"#{_id(name)}"


def _embedded(path: Path) -> str:
    kind = {".svg": "image/svg+xml", ".png": "image/png"}[path.suffix]
    return f"data:{kind};base64,{base64.b64encode(path.read_bytes()).decode('ascii')}"
