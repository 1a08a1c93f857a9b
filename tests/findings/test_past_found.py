"""Finished sizes on the wrong side of what was found.

That boring makes a bore larger, and that a worn liner is exchanged for a new one, is common
practice, no source.
"""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs


@pytest.mark.parametrize(
    ("bore", "doubted"),
    [
        pytest.param("Bore", True, id="a bore does not shrink"),
        pytest.param("Liner bore", False, id="a liner may be a new one"),
    ],
)
def test_a_bore_smaller_than_it_was_found_is_doubted_but_no_new_liner(make_book, bore, doubted):
    rows = [["Job", "26-041"], ["Customer", "Ostrow"], ["mm"], [],
            ["Cyl", f"{bore} found", f"{bore} final"],
            [1, 86.12, 86.32], [2, 86.11, 86.32], [3, 86.13, 86.32], [4, 86.2, 86.01]]  # fmt: skip
    (job,) = read_jobs(make_book({"Sheet": rows}))
    found = [f.place.address for f in check(job) if f.code == "finished-past-found"]
    assert found == (["C9"] if doubted else [])


def test_a_head_higher_than_it_came_in_is_doubted(findings):
    rows = [["Head height before (in)", 3.4875], ["Head height after (in)", 3.7495]]
    assert "larger than as found" in findings(S=rows)["S!B2"][1]
    rows[1][1] = 3.4795
    assert findings(S=rows) == {}
