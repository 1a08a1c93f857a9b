"""What a printed summary says, as plain data that a Typst template sets in type."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any, Literal

from workbook_tools.findings.codes import FindingKind
from workbook_tools.render.html import WEIGHTS, counted, kind_counted
from workbook_tools.settings.shop import Paper, Shop
from workbook_tools.summary.customer import customer_copy
from workbook_tools.summary.rows import Number, Row
from workbook_tools.summary.strips import LENGTH, MARGIN, Gauge, short_position
from workbook_tools.summary.summary import Section, Summary

Copy = Literal["customer", "shop"]

JOB_FIELDS = ("number", "customer", "engine", "builder", "started", "finished")
# Positions that stand side by side on paper before a strip goes on below.
ACROSS = 12


def printed(summary: Summary, shop: Shop, copy: Copy, paper: Paper | None = None) -> dict[str, Any]:
    """The data of a printed summary: texts, numbers as shown, geometry of strips.

    copy: "customer" leaves raw readings, findings and provenance out; paper: the shop's
    where it is None. Raises nothing.
    """
    data: dict[str, Any] = {
        "copy": copy,
        "paper": paper or shop.paper,
        "shop": shop_data(shop),
        "job": {name: getattr(summary.job, name).text for name in JOB_FIELDS},
        "file": summary.file_name + (f", {summary.read_through}" if summary.read_through else ""),
        "sha256": summary.sha256,
        "version": summary.tool_version,
        "strip_height": LENGTH + 2 * MARGIN,
        "across": ACROSS,
    }
    return data | (_for_customer(summary) if copy == "customer" else _for_shop(summary))


def shop_data(shop: Shop) -> dict[str, Any]:
    """The shop at the head of a page; the logo as numbers, which a template makes bytes of."""
    return {
        "name": shop.name,
        "address": list(shop.address),
        "logo": list(shop.logo),
        "logo_kind": shop.logo_kind.removeprefix("image/").replace("jpeg", "jpg"),
    }


def _for_customer(summary: Summary) -> dict[str, Any]:
    told = customer_copy(summary)
    return {
        "facts": [list(fact) for fact in told.facts],
        "fits": [{"name": found.fit.name, **row_data(found.row)} for found in told.fits],
        "outside": list(told.outside),
        "torques": [asdict(torque) for torque in told.torques],
        "no_torques": told.no_torques,
        "about_fits": told.about_fits,
        "about_torques": told.about_torques,
        "break_in": [list(part) for part in told.break_in],
        "missing": list(told.missing),
        "cautions": [asdict(caution) for caution in told.cautions],
    }


def _for_shop(summary: Summary) -> dict[str, Any]:
    checked = summary.recomputed
    return {
        "findings": [
            {
                "kind": group.kind,
                "weight": WEIGHTS[group.kind],
                "advice": group.advice,
                "counted": kind_counted(len(group.findings), group.kind),
                "each": [
                    {"place": str(f.place) if f.place else "whole book", "message": f.message}
                    for f in group.findings
                ],
            }
            for group in summary.finding_groups
        ],
        "gist": _gist(summary.findings_by_kind, len(summary.findings), checked.calls),
        "counts": dict(checked.counts),
        "calls": checked.calls,
        "sections": [_section(section) for section in summary.sections],
        "readings": [_section(section) for section in summary.readings],
        "absent": list(summary.absent),
        "cautions": [asdict(caution) for caution in summary.cautions],
        "rest": [
            {
                "place": str(one.place),
                "item": f"{one.label} {one.formula}".strip(),
                "state": one.state,
                "reason": one.reason,
            }
            for one in checked.rest
        ],
        "troubles": [
            {
                "place": str(t.place) if t.place else "",
                "text": f"{t.message}; {t.advice}.",
            }
            for t in summary.troubles
        ],
    }


def _gist(kinds: tuple[tuple[FindingKind, int], ...], found: int, calls: int) -> str:
    results = counted(calls, "result")
    if not found:
        return f"No findings. {results}."
    told = ", ".join(kind_counted(count, kind) for kind, count in kinds)
    return f"{counted(found, 'finding')}: {told}. {results}."


def _section(section: Section) -> dict[str, Any]:
    return {"title": section.title, "rows": [row_data(row) for row in section.rows]}


def row_data(row: Row) -> dict[str, Any]:
    """A row of a summary as data."""
    return {
        "label": row.label,
        "function": row.function,
        "unit": row.unit if row.measured else "",
        "result": row.result,
        "band": row.band,
        "verdict": row.verdict,
        "worst": row.worst,
        "states": row.states,
        "cells": row.cells,
        "sign": row.sign,
        "alike": row.alike,
        "notes": [list(note) for note in row.notes],
        "stripped": row.stripped,
        "extent": asdict(row.extent) if row.extent else None,
        "numbers": [_number(number) for number in row.numbers],
    }


def _number(number: Number) -> dict[str, Any]:
    return {
        "position": number.position,
        "short": short_position(number.position),
        "text": number.text,
        "typed_as": number.typed_as,
        "state": number.state,
        "verdict": number.verdict,
        "band": number.band,
        "address": number.place.address,
        "gauge": _gauge(number.gauge) if number.gauge else None,
    }


def _gauge(gauge: Gauge) -> dict[str, Any]:
    return {
        "shape": gauge.shape,
        "mark": float(gauge.mark),
        "beyond": gauge.beyond,
        "top": float(gauge.top) if gauge.top else None,
        "height": float(gauge.height) if gauge.height else None,
        "edges": [float(edge) for edge in gauge.edges],
    }
