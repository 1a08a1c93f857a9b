"""What a printed summary says, as plain data that a Typst template sets in type."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict
from typing import Any, Literal

from workbook_tools.render.html import (
    ABOUT_FACTS,
    WEIGHTS,
    about_numbers,
    kind_counted,
    recomputed_words,
)
from workbook_tools.settings.shop import Paper, Shop
from workbook_tools.summary.customer import customer_copy
from workbook_tools.summary.key_facts import KeyFact
from workbook_tools.summary.rows import Number, Row
from workbook_tools.summary.scale_strips import ScaleStrip
from workbook_tools.summary.summary import Section, Summary

Copy = Literal["customer", "shop"]

JOB_FIELDS = ("number", "customer", "engine", "builder", "started", "finished")


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
        "title": summary.title,
        "sha256": summary.sha256,
        "version": summary.tool_version,
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
        "changed": told.changed,
        "said": [list(one) for one in told.said],
        "facts": _groups(told.groups, shop=False),
        "outside": list(told.outside),
        "doubted": list(told.doubted),
        "torques": [asdict(torque) for torque in told.torques],
        "untouched": list(told.untouched),
        "no_torques": told.no_torques,
        "about_facts": told.about_facts,
        "about_torques": told.about_torques,
        "released": told.released,
        "break_in": [list(part) for part in told.break_in],
        "missing": list(told.missing),
        "cautions": [asdict(caution) for caution in told.cautions],
    }


def _groups(groups: Sequence[tuple[str, Sequence[KeyFact]]], *, shop: bool) -> list[dict[str, Any]]:
    """The key facts under their headings; the numbers of findings are the shop's own."""
    return [
        {
            "group": name,
            "facts": [fact_data(fact) | ({} if shop else {"told": []}) for fact in some],
        }
        for name, some in groups
    ]


def _for_shop(summary: Summary) -> dict[str, Any]:
    checked = summary.recomputed
    return {
        "changed": summary.changed,
        "glance": [one._asdict() for one in summary.glance],
        "standing": {"word": summary.standing.word, "counts": list(summary.standing.counts)},
        "facts": _groups(summary.fact_groups, shop=True),
        "about_facts": ABOUT_FACTS,
        "about_numbers": about_numbers(summary.numbers),
        "findings": [
            {
                "kind": group.kind,
                "weight": WEIGHTS[group.kind],
                "advice": group.advice,
                "counted": kind_counted(len(group.told), group.kind),
                "each": [
                    {
                        "number": number,
                        "place": str(f.place) if f.place else "whole book",
                        "message": f.message,
                        "accepted": str(f.accepted or ""),
                    }
                    for number, f in group.told
                ],
            }
            for group in summary.finding_groups
        ],
        "coverage": f"{summary.coverage} {recomputed_words(checked)}".strip(),
        "people": [asdict(one) for one in summary.people],
        "lists": [
            {"title": title, "heads": list(table.heads), "rows": [list(row) for row in table.rows]}
            for title, table in summary.lists
        ],
        "unlisted": summary.unlisted,
        "counts": dict(checked.counts),
        "calls": checked.calls,
        "sections": [_section(section) for section in summary.sections],
        "readings": [_section(section) for section in summary.readings],
        "absent": list(summary.absent),
        "empty": [
            {"place": f"{one['sheet']}!{one['cell']}", "label": one["label"]}
            for one in summary.data["required"]["missing"]
        ],
        "strange": [
            {"place": f"{one['sheet']}!{one['cell']}", "value": one["value"], "near": one["near"]}
            for one in summary.data["coverage"]["not_understood"]
        ],
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


def fact_data(fact: KeyFact) -> dict[str, Any]:
    """A key fact as data, as its row of the first page says it."""
    row, extent = fact.row, fact.row.extent
    return {
        "name": fact.name,
        "one": fact.one,
        "measured": row.measured,
        "where": fact.where,
        "gaps": fact.gaps,
        "unit": fact.unit,
        "least": extent.least if extent else "",
        "least_at": fact.least_at,
        "largest": extent.largest if extent else "",
        "largest_at": fact.largest_at,
        "band": row.band,
        "origin": row.origin,
        "strip": _strip(row.strip) if row.strip and fact.is_drawn else None,
        "worst": row.worst,
        "verdict": fact.verdict,
        "told": list(row.told),
    }


def _strip(strip: ScaleStrip) -> dict[str, Any]:
    return {
        "marks": [mark._asdict() for mark in strip.marks],
        "band": list(strip.band) if strip.band else None,
        "edges": list(strip.edges),
    }


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
        "told": list(row.told),
        "notes": [list(note) for note in row.notes],
        "stripped": row.stripped,
        "extent": asdict(row.extent) if row.extent else None,
        "numbers": [_number(number) for number in row.numbers],
        **({"uncertainty": row.uncertainty} if row.uncertainty else {}),
    }


def _number(number: Number) -> dict[str, Any]:
    return {
        "position": number.position,
        "text": number.text,
        "typed_as": number.typed_as,
        "state": number.state,
        "verdict": number.verdict,
        "band": number.band,
        "address": number.place.address,
    }
