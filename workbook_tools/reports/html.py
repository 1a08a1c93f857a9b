"""Set summaries in type: one self-contained page a build, and the page of a batch."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from urllib.parse import quote

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from workbook_tools.books.records import State
from workbook_tools.findings.finding import FindingKind
from workbook_tools.reports.strips import LENGTH, MARGIN
from workbook_tools.reports.summary import KINDS, Summary
from workbook_tools.reports.templates import template_folder

# How much each kind of finding asks for, which sets the shape of its mark.
_WEIGHTS: dict[FindingKind, str] = {
    "out of band": "stop",
    "close to the limit": "look",
    "missing reading": "gap",
    "stale result": "look",
    "disagreement": "stop",
    "copied reading": "look",
    "unit slip": "stop",
    "unreadable": "gap",
}
# What the state of a result says in a sentence.
_STATE_WORDS: dict[State, str] = {
    "same": "recomputed and the same as saved",
    "stale": "stale",
    "not saved": "computed here but never saved",
    "error": "without a result",
}
_JOB_FIELDS = ("customer", "engine", "builder", "started", "finished")


@dataclass(frozen=True)
class Unreadable:
    """A file of the batch that could not be read as a book, and the reason in words."""

    file_name: str
    reason: str


@dataclass(frozen=True)
class IndexEntry:
    """A build as the page of the batch lists it, and the file name of its own page."""

    summary: Summary
    page: str


def css_text(text: str) -> str:
    """A text as the content of a CSS string, so that no character of it can end the string."""
    even = " ".join(text.split())
    return re.sub(r"[^A-Za-z0-9 .,-]", lambda found: f"\\{ord(found[0]):x} ", even)


def breakable(name: object) -> Markup:
    """A cell's address or a function's name that may be broken where a line is short."""
    parts = re.split(r"(?<=[!_])", str(name))
    return Markup("<wbr>").join(escape(part) for part in parts)


def kind_counted(count: int, kind: FindingKind) -> str:
    """Findings of a kind in number: "2 missing readings", "2 out of band"."""
    noun = kind.split()[-1] in ("reading", "result", "disagreement", "slip")
    return counted(count, kind) if noun else f"{count} {kind}"


def link(name: str) -> str:
    """A file name as a relative link."""
    return "./" + quote(name)


def counted(count: int, one: str, many: str = "") -> str:
    """A number with its noun: "1 finding", "2 findings"."""
    return f"{count:,} {one if count == 1 else many or one + 's'}"


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=FileSystemLoader(template_folder()),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters.update(css_text=css_text, link=link, breakable=breakable)
    environment.globals.update(
        counted=counted,
        kind_counted=kind_counted,
        job_fields=_JOB_FIELDS,
        weights=_WEIGHTS,
        state_words=_STATE_WORDS,
        strip_height=f"{LENGTH + 2 * MARGIN:g}",
    )
    return environment


def render_html(summary: Summary) -> str:
    """The page of one build: self-contained, for screen and for paper. Raises nothing."""
    return _environment().get_template("summary.html.jinja").render(summary=summary)


def render_index(entries: Sequence[IndexEntry], unreadable: Sequence[Unreadable] = ()) -> str:
    """The page of a batch: its builds in the given order, and the files that were no books."""
    kinds = [k for k in KINDS if any(f.kind == k for e in entries for f in e.summary.findings)]
    return (
        _environment()
        .get_template("index.html.jinja")
        .render(
            entries=entries,
            unreadable=unreadable,
            kinds=kinds,
            results=sum(e.summary.results for e in entries),
            findings=sum(len(e.summary.findings) for e in entries),
        )
    )
