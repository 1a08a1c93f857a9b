"""Pushrods as columns: the load at which one bends sideways."""

from __future__ import annotations

import math

from workbook_tools.catalog import tables
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Force, Length, Material, Stress
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Camshaft and valvetrain"


@worksheet_function(SECTION)
def pushrod_buckling(
    tube_diameter: Length,
    tube_wall: Length,
    column_length: Length,
    yield_stress: Stress,
    material: Material = "steel",
) -> Force:
    """Load at which a straight pushrod buckles, by Euler or Johnson.

    Parameters
    ----------
    tube_diameter
        Outside.
    tube_wall
        Half the diameter for a solid rod.
    column_length
        Between the centers of its ball ends, which turn freely.
    yield_stress
        of the tube as it is, heat treated or not.
    material
        Steel if left out.

    Equation
    --------
    with s = column_length / k, k = sqrt(I / A) and c = sqrt(2 * pi**2 * E / yield_stress):
    above c pi**2 * E * A / s**2 (Euler), else A * yield_stress * (1 - s**2 / (2 * c**2)) (Johnson)

    Validity
    --------
    A straight tube of one section under a steady load through its middle. A tapered tube is
    stiffer than its thin end; a bent one, or a load off its middle, fails far below. Loads
    in a valvetrain are shocks: several times the spring's load at speed.

    Source
    ------
    Wentzell, Machine Design, chapter 3 (Euler and Johnson columns)

    Caution
    -------
    A pushrod that bends drops its valve's timing and can throw parts. The maker's rating comes
    first; keep a large margin, and look for what it touches.
    """
    require(tube_wall <= tube_diameter / 2, "tube_wall", "half the tube's diameter at most")
    require(
        column_length >= 5 * tube_diameter, "column_length", "5 times the tube's diameter or more"
    )
    inside = tube_diameter - 2 * tube_wall
    area = math.pi / 4 * (tube_diameter**2 - inside**2)
    slender = column_length / math.sqrt((tube_diameter**2 + inside**2) / 16)
    modulus = tables.modulus(material)
    bend = math.sqrt(2 * math.pi**2 * modulus / yield_stress)
    euler = math.pi**2 * modulus * area / slender**2
    johnson = area * yield_stress * (1 - slender**2 / (2 * bend**2))
    return euler if slender > bend else johnson
