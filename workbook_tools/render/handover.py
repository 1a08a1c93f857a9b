"""Everything that is made of one build: its pages, prints and sheets, by file name."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from workbook_tools.render.data import book_json
from workbook_tools.render.html import render_customer, render_html
from workbook_tools.render.printed import Copy
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.summary import Summary

COPIES: tuple[Copy, Copy] = ("customer", "shop")
KINDS = ("html", "json", "customer", "pdf", "xlsx")


def endings(kinds: Iterable[str] = KINDS) -> tuple[str, ...]:
    """How the names of these kinds of files end, behind the name of the build."""
    alone = {"html": ".html", "json": ".json", "customer": "-customer.html"}
    return tuple(
        ending
        for kind in kinds
        for ending in ([alone[kind]] if kind in alone else [f"-{copy}.{kind}" for copy in COPIES])
    )


def build_files(
    name: str,
    summary: Summary,
    shop: Shop,
    kinds: Iterable[str] = KINDS,
) -> Mapping[str, bytes]:
    """{file name: content} of one build; nothing is written.

    name: of the files, without ending; kinds: which of KINDS are wanted: the shop's page, the
    data, the customer's page, and of a print and a sheet a customer's and a shop's copy. The
    same summary gives the same bytes. Raises TemplateError where a template of the shop's own
    does not work.
    """
    files: dict[str, bytes] = {}
    for kind in kinds:
        if kind == "html":
            files[f"{name}.html"] = render_html(summary, shop).encode("utf-8", "replace")
        elif kind == "customer":
            page = render_customer(summary, shop)
            files[f"{name}-customer.html"] = page.encode("utf-8", "replace")
        elif kind == "json":
            files[f"{name}.json"] = book_json(summary).encode("utf-8", "replace")
        else:
            for copy in COPIES:
                made = _maker(kind)(summary, shop, copy)
                files[f"{name}-{copy}.{kind}"] = made
    return files


def _maker(kind: str) -> Callable[[Summary, Shop, Copy], bytes]:
    # Most batches want neither, and what these load takes longer than a book.
    if kind == "pdf":
        from workbook_tools.render.pdf import summary_pdf

        return summary_pdf
    from workbook_tools.render.sheet import summary_sheet

    return summary_sheet
