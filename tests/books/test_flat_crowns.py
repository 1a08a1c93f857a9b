"""Pistons that a text calls flat, whose crowns add nothing to the volume.

That shops write so, and that it leaves the ratio without a crown's volume, is common practice,
no source.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told, told


@pytest.mark.parametrize(
    ("row", "cell"),
    [
        (["Piston crown", "flat top"], "B5"),
        (["Piston crown: flat top"], "A5"),
        (["Flat tops"], "A5"),
        (["Pistons are flat"], "A5"),
        (["flat top pistons, no reliefs"], "A5"),
        (["Kolben sind flach, Muldenvolumen 0"], "A5"),
        (["Pistons à calotte plate. Carbu nettoyés"], "A5"),
        (["Pistoni piani, nuovi"], "A5"),
        (["Pistones planos"], "A5"),
    ],
)
def test_flat_pistons_have_crowns_of_no_volume(
    tmp_path: Path, row: list[object], cell: str
) -> None:
    check_told(tmp_path, [row], {cell: "crown_volume 0 cc"})


@pytest.mark.parametrize(
    "rows",
    [
        [["flat top pistons with 4 reliefs"]],
        [["Pistons flat with the deck"]],
        [["Stantuffo sotto piano", 0.4]],
        [["Flat washers below the studs of the pistons' rack"]],
        [["Face flat within", 0.04]],
    ],
)
def test_what_else_is_flat_has_none(tmp_path: Path, rows: Rows) -> None:
    assert not any("crown_volume" in text for text in told(tmp_path, rows).values())


def test_a_volume_that_was_measured_goes_before(tmp_path: Path) -> None:
    rows = [["Piston crown", "flat top"], ["Dish cc", 5]]
    check_told(tmp_path, rows, {"B5": "", "B6": "dish_volume 5 cc"})
