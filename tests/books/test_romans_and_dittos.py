"""Mains counted by Roman figures, a ditto of the other valve, and words of several shops.

That builders write so is common practice, no source; the sizes are invented.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told


@pytest.mark.parametrize(
    ("rows", "expected"),
    [
        pytest.param(
            [["Kurbelwelle / Lager, alles mm"], [None, "Lager I", "Lager II", "Lager III"],
             ["Zapfen alt", 51.86, 51.84, 51.86], ["Zapfen geschliffen", 51.505, 51.502, 51.499],
             ["Lager ausgedreht", 51.555, 51.561, 51.558], ["Lagerspiel", 0.05, 0.059, 0.059]],
            {"B7": "main_journal 1 found 51.86 mm", "C8": "main_journal 2 machined 51.502 mm",
             "D9": "main_bearing_bore 3 machined 51.558 mm",
             "D10": "main_bearing_clearance 3 0.059 mm"},
            id="mains in Roman figures",
        ),
        pytest.param(
            [["luz válv. adm. frío", 0.35, None, "luz válv. esc. frío", 0.4],
             ["resorte cerrado adm., altura", 43.5, None, "idem esc.", 43.2]],
            {"B6": "intake_spring_height 43.5 mm", "E6": "exhaust_spring_height 43.2 mm"},
            id="a ditto of the other valve in its row",
        ),
        pytest.param(
            [[None, "Einlass", None, "Auslass"],
             ["Zylinder", "Schaft", "Spiel kalt", "Schaft", "Spiel kalt"],
             [1, 7.468, 0.2, 7.457, 0.25], [2, 7.473, 0.2, 7.453, 0.25]],
            {"C7": "intake_lash 1 0.2 mm", "E8": "exhaust_lash 2 0.25 mm"},
            id="cold lash below the valves",
        ),
        pytest.param(
            [["mm", 1, 2], ["piston bajo tapa", 0.13, 0.11], ["guida-stelo asp.", 0.025, 0.028],
             ["Kopfdichtung Cu, gepresst", 1.3], ["Kopfdichtring", 2.1]],
            {"B6": "deck_clearance 1 0.13 mm", "C7": "intake_stem_clearance 2 0.028 mm",
             "B8": "gasket_thickness 1.3 mm", "B9": "gasket_thickness 2.1 mm"},
            id="words",
        ),
    ],
)  # fmt: skip
def test_lines_are_read(tmp_path: Path, rows: Rows, expected: dict[str, str]) -> None:
    check_told(tmp_path, rows, expected)
