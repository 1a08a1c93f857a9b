"""Set a summary on paper: Typst templates, the fonts that come with it, one fixed time."""

from __future__ import annotations

import json
import os
import re
import shutil
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Lock
from typing import Any

import typst

from workbook_tools.render.printed import Copy, printed
from workbook_tools.render.templates import TemplateError, template_folder, template_path
from workbook_tools.settings.shop import Paper, Shop
from workbook_tools.summary.summary import Summary

SUMMARY = "summary.typ"
# A PDF holds the time it was made at; two runs would differ by it.
_TIMESTAMP = 0
# The port that discards what it is sent (RFC 863), and that nothing listens on.
_NOWHERE = "http://127.0.0.1:9"
_PLACE = re.compile(r"┌─ (?P<file>.+?):(?P<line>\d+):\d+")


def summary_pdf(summary: Summary, shop: Shop, copy: Copy, paper: Paper | None = None) -> bytes:
    """The printed summary of one build.

    copy: "customer" (one or two pages) or "shop" (everything); paper: the shop's where it is
    None. The same summary gives the same bytes. Raises TemplateError, with template, line and
    reason, where a template of the shop's own does not work.
    """
    return pdf(SUMMARY, printed(summary, shop, copy, paper), shop.templates)


def pdf(template: str, data: Mapping[str, Any], override: Path | None = None) -> bytes:
    """Data set in type by a Typst template.

    template: its file name; data: what JSON can hold, which reaches the template as data
    and never as markup; override: a folder whose template of that name is used instead.
    Raises TemplateError.
    """
    text = json.dumps(data, ensure_ascii=False, allow_nan=False).encode("utf-8", "replace").decode()
    own = sorted(override.glob("*.typ")) if override is not None else []
    if not own:
        return _compiled(_compiler(template_folder() / template), template, text, override)
    with TemporaryDirectory() as folder:
        # The program's templates under the shop's, so that one of them can be replaced alone.
        for path in (*sorted(template_folder().glob("*.typ")), *own):
            shutil.copyfile(path, Path(folder) / path.name)
        with _nothing_fetched():
            compiler = typst.Compiler(
                Path(folder) / template,
                root=folder,
                ignore_system_fonts=True,
                package_path=folder,
                package_cache_path=folder,
            )
            return _compiled(compiler, template, text, override)


# Typst fetches a package that a template imports, and can be kept from it only by a proxy
# that does not answer.
_DEAD_PROXY = dict.fromkeys(("HTTPS_PROXY", "https_proxy", "ALL_PROXY", "all_proxy"), _NOWHERE)
_NO_EXCEPTIONS = dict.fromkeys(("NO_PROXY", "no_proxy"), "")
_one_at_a_time = Lock()


@contextmanager
def _nothing_fetched() -> Iterator[None]:
    """Let no template of the shop's own reach the network."""
    with _one_at_a_time:
        settings = {**_DEAD_PROXY, **_NO_EXCEPTIONS}
        before = {name: os.environ.get(name) for name in settings}
        os.environ.update(settings)
        try:
            yield
        finally:
            for name, value in before.items():
                if value is None:
                    os.environ.pop(name, None)
                else:
                    os.environ[name] = value


def _compiled(compiler: typst.Compiler, template: str, data: str, override: Path | None) -> bytes:
    try:
        done = compiler.compile(format="pdf", sys_inputs={"data": data}, timestamp=_TIMESTAMP)
    except typst.TypstError as error:
        found = _PLACE.search(error.diagnostic)
        name = Path(found["file"]).name if found else template
        line = int(found["line"]) if found else None
        reason = error.message
        if "decode image" in reason:
            reason = f"the shop's logo cannot be read as a picture; save it anew: {reason}"
        if "download package" in reason or "package not found" in reason:
            reason = "packages are not fetched; lay what it imports beside it as a .typ file"
        raise TemplateError(template_path(name, override), line, reason) from None
    if not isinstance(done, bytes):
        raise TemplateError(template_path(template, override), None, "it gives no pages")
    return done


@lru_cache(maxsize=4)
def _compiler(path: Path) -> typst.Compiler:
    # Without the system's fonts every machine sets the same page.
    return typst.Compiler(path, root=path.parent, ignore_system_fonts=True)
