"""A batch that is only checked: its findings, with nothing written."""

from __future__ import annotations

import json
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from workbook_tools.batch.batch import read_builds
from workbook_tools.batch.build import Build, Wanted
from workbook_tools.findings.copies import DIGEST_BYTES
from workbook_tools.findings.finding import Finding
from workbook_tools.formulas.references import Place
from workbook_tools.labels.layout import Layout
from workbook_tools.render.data import csv_table
from workbook_tools.render.html import counted
from workbook_tools.settings.shop import Shop
from workbook_tools.summary.data_rows import FINDING_COLUMNS
from workbook_tools.summary.finding_order import counted_by_kind
from workbook_tools.summary.standing import numbered


@dataclass(frozen=True)
class CheckedBuild:
    """One build and what is told of it.

    path: its file, as it was named or found; part: which of several jobs in the file;
    results, readings: how many there are that checks could look at; numbers: what the page of
    the build numbers each of the findings by.
    """

    path: Path
    part: str
    job: str
    results: int
    readings: int
    findings: tuple[Finding, ...]
    numbers: tuple[str, ...]


@dataclass(frozen=True)
class Checked:
    """What checking a batch came to, in the order of the files.

    left_out: findings that are there and were not asked for; unread, left_aside: as in a batch.
    """

    builds: tuple[CheckedBuild, ...]
    left_out: int
    unread: tuple[tuple[Path, str], ...]
    left_aside: tuple[tuple[Path, str], ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Every finding that was asked for."""
        return tuple(finding for build in self.builds for finding in build.findings)

    @property
    def open_findings(self) -> tuple[Finding, ...]:
        """Those of them that nobody has accepted."""
        return tuple(finding for finding in self.findings if finding.accepted is None)

    @property
    def sentence(self) -> str:
        """What was looked at and what was found, a line for the end."""
        looked = (
            f"{counted(len(self.builds), 'build')} with "
            f"{counted(sum(b.results for b in self.builds), 'result')} and "
            f"{counted(sum(b.readings for b in self.builds), 'reading')} checked"
        )
        kinds = ", ".join(f"{many} {kind}" for kind, many in counted_by_kind(self.findings))
        accepted = len(self.findings) - len(self.open_findings)
        found = counted(len(self.open_findings), "finding") + (f" ({kinds})" if kinds else "")
        told = found if self.open_findings else "no findings"
        told += f", {accepted} more accepted" if accepted else ""
        left_out = f", {self.left_out} left out as asked" if self.left_out else ""
        lost = f"; {len(self.unread)} not read" if self.unread else ""
        return f"{looked}: {told}{left_out}{lost}."


def check_books(
    named: Sequence[Path],
    each: Callable[[Sequence[Path]], Iterable[Path]] = iter,
    *,
    layout: Layout | None = None,
    shop: Shop | None = None,
    codes: Collection[str],
    stand_ins: Mapping[Path, Path] | None = None,
    jobs: int = 0,
    cluster: str = "",
    cache: Path | None = None,
) -> Checked:
    """Check every book in the files and folders named, and write nothing but the cache.

    shop: whose lists of a record's sections and accepted findings hold; codes: of the findings
    to tell; all else, and what is raised, as for `read_builds`.
    """
    with read_builds(
        named,
        Wanted(layout, shop or Shop(), kinds=()),
        each,
        stand_ins=stand_ins,
        jobs=jobs,
        cluster=cluster,
        cache=cache,
    ) as batch:
        pairs = list(zip(batch.paths, batch.builds, strict=True))
    builds = tuple(_checked(path, build, codes) for path, build in pairs)
    total = sum(len(build.findings) for _, build in pairs)
    told = sum(len(build.findings) for build in builds)
    return Checked(builds, total - told, batch.unread, batch.left_aside)


def _checked(path: Path, build: Build, codes: Collection[str]) -> CheckedBuild:
    every = zip(numbered(build.findings), build.findings, strict=True)
    told = [(number, finding) for number, finding in every if finding.code in codes]
    return CheckedBuild(
        path,
        build.part,
        build.job.number.text,
        build.results,
        len(build.numbers) // DIGEST_BYTES,
        tuple(finding for _, finding in told),
        tuple(number for number, _ in told),
    )


def check_lines(checked: Checked) -> tuple[str, ...]:
    """The findings, a line each: where, the code and kind, what was found, what to do."""
    return tuple(
        f"{build.path}{_spot(build, finding)}: {finding.code} ({finding.kind}): "
        f"{finding.message} {finding.advice}"
        for build in checked.builds
        for finding in build.findings
    )


def finding_notes(checked: Checked) -> tuple[dict[Place, str], int]:
    """The findings as notes, by the cell that each is about; and how many are of no cell."""
    notes: dict[Place, list[str]] = {}
    for finding in checked.findings:
        if finding.place is not None:
            also = ", ".join(map(str, finding.also))
            told = f"{finding.kind} ({finding.code}): {finding.message} {finding.advice}"
            notes.setdefault(finding.place, []).append(told + (f" See {also}." if also else ""))
    no_cell = sum(finding.place is None for finding in checked.findings)
    return {place: "\n\n".join(texts) for place, texts in notes.items()}, no_cell


def _spot(build: CheckedBuild, finding: Finding) -> str:
    if finding.place is not None:
        return f":{finding.place}"
    return f":{build.part}" if build.part else ""


def _rows(checked: Checked) -> Iterable[dict[str, Any]]:
    for build in checked.builds:
        for number, finding in zip(build.numbers, build.findings, strict=True):
            place = finding.place
            yield {
                "file": str(build.path),
                "job": build.job,
                "number": number,
                "code": finding.code,
                "kind": finding.kind,
                "sheet": place.sheet if place else "",
                "cell": place.address if place else "",
                "cells": [f"{p.sheet}!{p.address}" for p in finding.places],
                "message": finding.message,
                "advice": finding.advice,
                "accepted": finding.accepted is not None,
            }


def check_csv(checked: Checked) -> str:
    """The findings as CSV text, with the columns of findings.csv and the path as the file."""
    listed = ({**row, "cells": "; ".join(row["cells"])} for row in _rows(checked))
    return csv_table(FINDING_COLUMNS, ([row[name] for name in FINDING_COLUMNS] for row in listed))


def check_json(checked: Checked) -> str:
    """The findings as JSON text: an object with findings, the files not read, and counts."""
    told = {
        "findings": list(_rows(checked)),
        "not_read": [{"file": str(path), "reason": why} for path, why in checked.unread],
        "builds": len(checked.builds),
        "results": sum(build.results for build in checked.builds),
        "readings": sum(build.readings for build in checked.builds),
        "left_out": checked.left_out,
    }
    return json.dumps(told, ensure_ascii=False, indent=1) + "\n"
