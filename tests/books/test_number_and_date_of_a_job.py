"""The number of a job and the day it began behind one label.

That shops head their sheets so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from workbook_tools.books.opening import read_cells
from workbook_tools.jobs.job_fields import read_job


@pytest.mark.parametrize(
    ("label", "behind", "started"),
    [
        ("Nr. / Datum", "23.10.2023", "23.10.2023"),
        ("No. / date", "2023-10-23", "2023-10-23"),
        ("Nr. / Datum", "steht noch aus", ""),
        ("Auftrag Nr.", "23.10.2023", ""),
    ],
)
def test_a_date_behind_the_number(
    make_book: Callable[..., Path], label: str, behind: str, started: str
) -> None:
    rows = [
        ["Zweiradtechnik Ostwind - Motorblatt"],
        [label, "23-114", behind, None, "Maschine", "Hellvogt 700"],
        ["Kunde", "Kallenbach", None, None, "Monteur", "Ostwind"],
        [],
        ["fertig", "1.12.2023"],
    ]
    job = read_job(read_cells(make_book({"S": rows})))
    assert (job.number.text, job.started.text) == ("23-114", started)
