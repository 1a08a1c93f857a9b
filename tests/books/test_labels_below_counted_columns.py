"""Labels with their values below a table that counts, and a size that was checked again.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from pathlib import Path

from books.small_sheet import Rows, check_told

RODS: Rows = [
    ["rods", 1, 3, 5, 7, 2, 4, 6, 8],
    ["crankpin", 2.1688, 2.1689, 2.1688, 2.1688, 2.1688, 2.1689, 2.1689, 2.1689],
    ["bolt stretch", 0.0055, 0.0055, 0.0055, 0.0055, 0.0055, 0.0056, 0.0055, 0.0057],
    [*[None] * 10, "in. unless noted"],
    ["stroke", 3.6, None, "end play", None, None, 0.006, None, "lash in, hot", None, 0.022],
    ["rod c-c", 6.035, None, "in. spring inst. ht", None, None, 1.8, None, "lash ex, hot", None,
     0.024],
]  # fmt: skip


def test_labels_below_a_text_alone_leave_the_table(tmp_path: Path) -> None:
    check_told(tmp_path, RODS, {
        "D7": "rod_bolt_stretch 5 0.0055 in", "B9": "stroke 3.6 in",
        "G9": "crank_end_play 0.006 in", "K9": "intake_lash 0.022 in",
        "G10": "intake_spring_height 1.8 in", "K10": "exhaust_lash 0.024 in",
    })  # fmt: skip


def test_what_was_checked_again_is_final(tmp_path: Path) -> None:
    rows: Rows = [
        ["cyl #", 1, 2, 3, 4],
        ["bore", 4.055, 4.0551, 4.0551, 4.055],
        ["cc chamber", 73.5, 73.2, 71.9, 73.2, "before the gasket match, ignore"],
        ["cc re-checked", 74.1, 74.1, 74.2, 74.2],
    ]
    check_told(tmp_path, rows, {
        "B7": "chamber_volume 1 73.5 cc", "B8": "chamber_volume 1 final 74.1 cc",
        "E8": "chamber_volume 4 final 74.2 cc",
    })  # fmt: skip
