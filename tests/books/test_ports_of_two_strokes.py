"""Ports of two-strokes: when they open, for how long, how high they stand and how wide they are.

That builders of two-strokes write so is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest
from books.small_sheet import Rows, check_told, told

PORTS = [
    ("Exhaust port opens (deg)", 88, "exhaust_port_opening 88 deg"),
    ("Transfer port opens (deg)", 118, "transfer_port_opening 118 deg"),
    ("Intake port opens (deg)", 72, "intake_port_opening 72 deg"),
    ("Intake port duration (deg)", 144, "intake_port_duration 144 deg"),
    ("Blowdown (deg)", 30, "blowdown 30 deg"),
    ("Exhaust port height (mm)", 28.4, "exhaust_port_height 28.4 mm"),
    ("Transfer port height (mm)", 41.2, "transfer_port_height 41.2 mm"),
    ("Exhaust port width (mm)", 38.2, "exhaust_port_width 38.2 mm"),
    ("Transfer port width (mm)", 22.1, "transfer_port_width 22.1 mm"),
]


@pytest.mark.parametrize(("label", "size", "reading"), PORTS, ids=[p[2].split()[0] for p in PORTS])
def test_what_is_measured_of_ports(tmp_path: Path, label: str, size: float, reading: str) -> None:
    check_told(tmp_path, [[label, size]], {"B5": reading})


@pytest.mark.parametrize(
    ("rows", "readings"),
    [
        pytest.param(
            [["Transferts (°)", 124], ["Échappement ouvre (°)", 88],
             ["Durée d'échappement (°)", 184]],
            ["transfer_port_duration 124 deg", "exhaust_port_opening 88 deg",
             "exhaust_port_duration 184 deg"],
            id="French",
        ),
        pytest.param(
            [["Travasi (gradi)", 124], ["Scarico (durata, gradi)", 184],
             ["Aspirazione (durata, gradi)", 144]],
            ["transfer_port_duration 124 deg", "exhaust_port_duration 184 deg",
             "intake_port_duration 144 deg"],
            id="Italian",
        ),
        pytest.param(
            [["Transfers (grados)", 124], ["Duración escape (grados)", 184],
             ["Duración admisión (grados)", 144]],
            ["transfer_port_duration 124 deg", "exhaust_port_duration 184 deg",
             "intake_port_duration 144 deg"],
            id="Spanish",
        ),
        pytest.param(
            [["Überströmer (Grad)", 124], ["Auslass öffnet (Grad)", 88],
             ["Einlass öffnet (Grad)", 72]],
            ["transfer_port_duration 124 deg", "exhaust_port_opening 88 deg",
             "intake_port_opening 72 deg"],
            id="German",
        ),
    ],
)  # fmt: skip
def test_where_there_are_transfer_ports_the_exhaust_is_a_port(
    tmp_path: Path, rows: Rows, readings: Sequence[str]
) -> None:
    check_told(tmp_path, rows, dict(zip(("B5", "B6", "B7"), readings, strict=True)))


def test_where_there_are_none_it_is_a_valve(tmp_path: Path) -> None:
    rows: Rows = [["Échappement ouvre (°)", 88], ["Durée d'échappement (°)", 184]]
    assert not any("port" in words for words in told(tmp_path, rows).values())


@pytest.mark.parametrize(
    ("rows", "readings"),
    [
        pytest.param([["mm"], ["Exhaust port roof", 28.4], ["Transfer port from top", 41.2]],
                     ("exhaust_port_height 28.4 mm", "transfer_port_height 41.2 mm"), id="English"),
        pytest.param([["Quota dal piano (mm)"], ["Luce scarico", 28.4], ["Luce travaso", 41.2]],
                     ("exhaust_port_height 28.4 mm", "transfer_port_height 41.2 mm"), id="Italian"),
        pytest.param([["mm"], ["Altura lumbrera escape", 28.4], ["Altura lumbrera transfer", 41.2]],
                     ("exhaust_port_height 28.4 mm", "transfer_port_height 41.2 mm"), id="Spanish"),
        pytest.param([["mm"], ["Lumière d'échappement, largeur", 38.2],
                      ["Lumière échappement, hauteur", 28.4]],
                     ("exhaust_port_width 38.2 mm", "exhaust_port_height 28.4 mm"), id="French"),
    ],
)  # fmt: skip
def test_sizes_of_ports(tmp_path: Path, rows: Rows, readings: Sequence[str]) -> None:
    check_told(tmp_path, rows, dict(zip(("B6", "B7"), readings, strict=True)))


def test_a_german_row_of_heights(tmp_path: Path) -> None:
    rows: Rows = [["mm", "Auslass", "Überströmer"], ["Schlitzoberkante", 28.4, 41.2]]
    expected = {"B6": "exhaust_port_height 28.4 mm", "C6": "transfer_port_height 41.2 mm"}
    check_told(tmp_path, rows, expected)


@pytest.mark.parametrize("label", ["Blow down", "Vorauslass", "Preescape", "Anticipo scarico"])
def test_from_the_exhaust_to_the_transfers(tmp_path: Path, label: str) -> None:
    check_told(tmp_path, [[f"{label} (°)", 30]], {"B5": "blowdown 30 deg"})


@pytest.mark.parametrize("label", ["Taux corrigé", "Rapporto effettivo", "Relación efectiva"])
def test_the_ratio_from_where_the_exhaust_closes(tmp_path: Path, label: str) -> None:
    check_told(tmp_path, [[label, 8.2]], {"B5": "trapped_ratio 8.2"})
