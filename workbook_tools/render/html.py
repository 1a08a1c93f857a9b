"""Set summaries in type: one self-contained page a build, and the page of a batch."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from functools import cache, lru_cache
from hashlib import sha256
from pathlib import Path
from traceback import extract_tb
from typing import Any, Protocol
from urllib.parse import quote

import jinja2
from jinja2 import (
    BytecodeCache,
    Environment,
    FileSystemLoader,
    StrictUndefined,
    TemplateNotFound,
    TemplateRuntimeError,
    TemplateSyntaxError,
)
from jinja2.bccache import Bucket
from jinja2.sandbox import ImmutableSandboxedEnvironment
from markupsafe import Markup, escape

from workbook_tools.findings.code import FindingKind
from workbook_tools.findings.finding import Finding
from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.records import State
from workbook_tools.kept_files import keep_made, recall_made
from workbook_tools.render.templates import TemplateError, template_folder, template_path
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.customer import customer_copy
from workbook_tools.summary.standing import LETTER_WORDS, Standing
from workbook_tools.summary.summary import Recomputed, Summary

# How much each kind of finding asks for, which sets the shape of its mark.
WEIGHTS: dict[FindingKind, str] = {
    "out of band": "stop",
    "close to the limit": "look",
    "missing reading": "gap",
    "not signed": "gap",
    "stale result": "look",
    "never calculated": "look",
    "disagreement": "stop",
    "copied reading": "look",
    "unit slip": "stop",
    "unreadable": "gap",
}
# What the state of a result says in a sentence.
_STATE_WORDS: dict[State, str] = {
    "same": "recomputed and the same as saved",
    "stale": "stale",
    "not saved": "computed here, never saved in the book",
    "as saved": "taken as saved",
    "error": "without a result",
    "computed": "computed here from the book's readings",
}
# How the files of page templates end.
_OURS = ".jinja"
_JOB_FIELDS = ("customer", "engine", "builder", "started", "finished")


@dataclass(frozen=True)
class Unreadable:
    """A file of the batch that could not be read as a book, and the reason in words."""

    file_name: str
    reason: str


class Listed(Protocol):
    """What the page of a batch tells of a build."""

    @property
    def file_name(self) -> str: ...  # noqa: D102
    @property
    def job(self) -> Job: ...  # noqa: D102
    @property
    def standing(self) -> Standing: ...  # noqa: D102
    @property
    def results(self) -> int: ...  # noqa: D102
    @property
    def findings(self) -> tuple[Finding, ...]: ...  # noqa: D102
    @property
    def findings_by_kind(self) -> tuple[tuple[FindingKind, int], ...]: ...  # noqa: D102


@dataclass(frozen=True)
class IndexEntry:
    """A build as the page of the batch lists it, and the file name of its own page.

    copy_of: the file that counts in place of this one, "" where this one counts.
    """

    summary: Listed
    page: str
    copy_of: str = ""


JUDGED = (
    "Judged by simple acceptance: a number on its limit is within. Clearances are total, across "
    "the diameter. Bands are for this build; they are not wear limits."
)
ABOUT_FACTS = (
    f"{JUDGED} In a strip the shaded middle is the band; each mark is one position, the first at "
    "the top; a triangle is outside."
)


def about_numbers(numbers: Sequence[str]) -> str:
    """What the letters of findings' numbers stand for, those that there are."""
    used = {number[0] for number in numbers}
    told = (f"{letter} {words}" for letter, words in LETTER_WORDS.items() if letter in used)
    return f"{', '.join(told)}. The same number stands in the row that a finding is about."


def recomputed_words(checked: Recomputed) -> str:
    """What became of the calls of a book, a sentence."""
    states = [
        f"{checked.counts[state]:,} {words}"
        for state, words in _STATE_WORDS.items()
        if checked.counts[state]
    ]
    results = counted(checked.calls, "result")
    return f"{results} of worksheet functions{': ' if states else ''}{', '.join(states)}."


def css_text(text: str) -> str:
    """A text as the content of a CSS string, so that no character of it can end the string."""
    even = " ".join(text.split())
    return re.sub(r"[^A-Za-z0-9 .,-]", lambda found: f"\\{ord(found[0]):x} ", even)


def breakable(name: object) -> Markup:
    """A cell's address or a function's name that may be broken where a line is short."""
    return _breakable(str(name))


def told_place(told: Mapping[str, str]) -> Markup:
    """The place that data tell of as sheet and cell, which may be broken too."""
    return _breakable(f"{told['sheet']}!{told['cell']}")


@lru_cache(maxsize=8192)
def _breakable(name: str) -> Markup:
    # No sign that stands for another one in HTML has these two in it.
    text = str(escape(name))
    return Markup(text.replace("!", "!<wbr>").replace("_", "_<wbr>"))


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


# Values whose own methods do nothing but tell of them.
_PLAIN_VALUES = (str, int, float, tuple, list, dict, date)


class _Sandbox(ImmutableSandboxedEnvironment):
    """Templates that can show what they are given and do nothing else.

    A shop's template may come from somebody else, and the tables of a month could write
    files: so only what is named here can be called.
    """

    def is_safe_callable(self, obj: Any) -> bool:
        """Whether a template may call this."""
        return super().is_safe_callable(obj) and (
            type(obj).__module__.startswith("jinja2.")
            or any(obj is known for known in self.globals.values())
            or isinstance(getattr(obj, "__self__", None), _PLAIN_VALUES)
            or type(getattr(obj, "__self__", None)).__module__.startswith("jinja2.")
        )


class _CompiledTemplates(BytecodeCache):
    """The program's own templates, compiled by this release of jinja2 for this environment."""

    def _name(self, bucket: Bucket) -> str:
        made_with = f"{jinja2.__version__} {bucket.key} {bucket.checksum}".encode()
        return f"{sha256(made_with + Path(__file__).read_bytes()).hexdigest()}.jinja"

    def load_bytecode(self, bucket: Bucket) -> None:
        """Take what was kept."""
        found = recall_made(self._name(bucket))
        if found is not None:
            bucket.bytecode_from_string(found)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what was compiled."""
        keep_made(self._name(bucket), bucket.bytecode_to_string())


@cache
def environment(override: Path | None) -> Environment:
    """The page templates: those in the override folder before the program's own."""
    folders = [template_folder()] if override is None else [override, template_folder()]
    # The program's own may do what they like, and looking at their every step takes long.
    environment = (Environment if override is None else _Sandbox)(
        loader=FileSystemLoader(folders),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        auto_reload=False,
        bytecode_cache=_CompiledTemplates() if override is None else None,
    )
    environment.filters.update(
        css_text=css_text,
        link=link,
        breakable=breakable,
        told_place=told_place,
        picture=picture,
    )
    environment.globals.update(
        counted=counted,
        kind_counted=kind_counted,
        job_fields=_JOB_FIELDS,
        weights=WEIGHTS,
    )
    return environment


def load_templates() -> None:
    """Compile the program's own templates for the page of a build."""
    own = environment(None)
    for name in own.list_templates():
        if name == "summary.html.jinja" or name.startswith("parts/"):
            own.get_template(name)


# What a template that is well formed can raise; undefined names and forbidden calls are
# TemplateRuntimeErrors.
_FAULTS = (
    TemplateRuntimeError,
    AttributeError,
    TypeError,
    ValueError,
    ArithmeticError,
    LookupError,
    RecursionError,
)


def fill(template: str, override: Path | None = None, **content: Any) -> str:
    """A page template filled in.

    template: its file name; override: a folder whose template of that name is used instead.
    Raises TemplateError, with template, line and reason, where it does not work or does
    what a template may not.
    """
    with _faults_told(template, override):
        return environment(override).get_template(template).render(**_without_paths(content))


def fill_in_pieces(template: str, override: Path | None = None, **content: Any) -> Iterator[str]:
    """The same piece by piece, for a page that is too long for memory."""
    with _faults_told(template, override):
        yield from environment(override).get_template(template).generate(**_without_paths(content))


def _without_paths(content: dict[str, Any]) -> dict[str, Any]:
    shop = content.get("shop")
    # A path can write files.
    return {**content, "shop": replace(shop, templates=None)} if isinstance(shop, Shop) else content


@contextmanager
def _faults_told(template: str, override: Path | None) -> Iterator[None]:
    """Raise a fault of a template as a TemplateError."""
    try:
        yield
    except TemplateSyntaxError as error:
        name = template_path(error.name or template, override)
        raise TemplateError(name, error.lineno, error.message or "not a template") from None
    except TemplateNotFound as error:
        raise TemplateError(template, None, f"there is no template {error.name}") from None
    except _FAULTS as error:
        at = [f for f in extract_tb(error.__traceback__) if f.filename.endswith(_OURS)]
        if not at:
            raise
        raise TemplateError(at[-1].filename, at[-1].lineno, str(error)) from None


def render_html(summary: Summary, shop: Shop | None = None) -> str:
    """The page of one build: self-contained, for screen and for paper.

    shop: at the head of the page, and whose own templates are used. Raises TemplateError
    where one of these does not work.
    """
    shop = shop or Shop()
    return fill(
        "summary.html.jinja",
        shop.templates,
        summary=summary,
        shop=shop,
        about_facts=ABOUT_FACTS,
        about_numbers=about_numbers(summary.numbers),
        recomputed=recomputed_words(summary.recomputed),
    )


def render_customer(summary: Summary, shop: Shop) -> str:
    """The customer's copy of a build as a page: self-contained, for screen and for paper.

    Raises TemplateError as render_html does.
    """
    told = customer_copy(summary)
    return fill("customer.html.jinja", shop.templates, summary=summary, told=told, shop=shop)


def render_index(
    entries: Sequence[IndexEntry], unreadable: Sequence[Unreadable] = (), shop: Shop | None = None
) -> str:
    """The page of a batch: its builds, the worst first, and the files that were no books.

    shop: whose own templates are used. Raises TemplateError where one does not work.
    """
    return fill(
        "index.html.jinja",
        shop.templates if shop else None,
        entries=sorted(entries, key=lambda entry: entry.summary.standing.rank),
        unreadable=unreadable,
        results=sum(e.summary.results for e in entries),
        findings=sum(len(e.summary.findings) for e in entries),
    )


def picture(shop: Shop) -> str:
    """The shop's logo as an address that holds the picture itself, "" without one."""
    if not shop.logo:
        return ""
    return f"data:{shop.logo_kind};base64,{b64encode(shop.logo).decode()}"
