"""A build's data as rows of the tables of a batch, under the names that the data has."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from operator import itemgetter
from typing import Any

READING_COLUMNS = (
    "file",
    "job",
    "sheet",
    "cell",
    "label",
    "measurand",
    "of",
    "number",
    "bank",
    "at",
    "stage",
    "function",
    "value",
    "unit",
    "si",
    "state",
    "reason",
)
FINDING_COLUMNS = (
    "file",
    "job",
    "number",
    "code",
    "kind",
    "sheet",
    "cell",
    "cells",
    "message",
    "advice",
)
_NOT_SAID = dict.fromkeys(READING_COLUMNS, "")
_columns = itemgetter(*READING_COLUMNS)
Rows = tuple[tuple[object, ...], ...]


def reading_rows(data: Mapping[str, Any]) -> Rows:
    """Every reading, every result and every missing reading of a build, by READING_COLUMNS.

    The state tells them apart: that of a reading is read, asked or refused, of a missing one
    missing; any other is of a result. reason: why it is no number to go by, "" where it is.
    """
    return tuple(_reading_rows(data))


def _reading_rows(data: Mapping[str, Any]) -> Iterator[tuple[object, ...]]:
    missing = [{**spot, "state": "missing"} for spot in data["required"]["missing"]]
    build = _build(data)
    for one in (*data["readings"], *missing, *data["results"]):
        told = {**_NOT_SAID, **one, **one.get("part", {}), **build}
        told["reason"] = one.get("reason", "") or one.get("problem", "")
        if isinstance(told["value"], list):
            told["value"] = _cell(told["value"])
        yield _columns(told)


def finding_rows(data: Mapping[str, Any]) -> Rows:
    """Every finding on a build, by FINDING_COLUMNS; cells are separated by "; "."""
    return tuple(
        tuple(_cell({**one, **_build(data)}[name]) for name in FINDING_COLUMNS)
        for one in ({**found, "cells": "; ".join(found["cells"])} for found in data["findings"])
    )


def _build(data: Mapping[str, Any]) -> dict[str, str]:
    return {"file": data["book"]["file"], "job": data["job"]["number"]["text"]}


def _cell(value: object) -> object:
    return json.dumps(value, ensure_ascii=False) if isinstance(value, list) else value
