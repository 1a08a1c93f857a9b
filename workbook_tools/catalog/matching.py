"""Choosing parts for each other: pistons to bores, pistons to rods."""

from __future__ import annotations

from workbook_tools.catalog.blocks import require_filled, require_same_number
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import Masses, Positions, Rows
from workbook_tools.catalog.measured import (
    Bores,
    PistonClearance,
    PistonDiameters,
)
from workbook_tools.catalog.readings import found, number, taken
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Choosing and matching"


def _ascending(values: tuple[float, ...]) -> list[int]:
    """Where the values stand, the smallest first."""
    return sorted(range(len(values)), key=values.__getitem__)


def _beside(block: Rows, chosen: list[int]) -> tuple[tuple[float, ...], ...]:
    """What was chosen for each cell of a block, counted from 1, in the block's shape."""
    rest = iter(chosen)
    return tuple(tuple(float(next(rest) + 1) for _ in row) for row in block)


def _nearest_in_order(wanted: list[float], sizes: list[float]) -> list[int]:
    """For each of ascending wanted sizes one of ascending sizes, least squares in all.

    For a cost that grows with distance the best choice never crosses, so that a table of
    the best ways to serve the first few wanted sizes from the first few sizes finds it.
    """
    unreachable = float("inf")
    best = [[0.0] * (len(sizes) + 1)]
    for served, want in enumerate(wanted, 1):
        row = [unreachable] * (len(sizes) + 1)
        for used in range(served, len(sizes) + 1):
            taking = best[served - 1][used - 1] + (want - sizes[used - 1]) ** 2
            row[used] = min(row[used - 1], taking)
        best.append(row)
    choice: list[int] = []
    used = len(sizes)
    for served in range(len(wanted), 0, -1):
        while best[served][used] == best[served][used - 1]:
            used -= 1
        used -= 1
        choice.append(used)
    return choice[::-1]


@worksheet_function(SECTION)
def pistons_to_bores(
    bores: Bores, pistons: PistonDiameters, clearance: PistonClearance
) -> Positions:
    """Which piston goes into which bore, so that every clearance comes near the wanted one.

    Parameters
    ----------
    bores
        as measured, one cell for each cylinder. No cell may be empty.
    pistons
        as measured on the skirt, at least as many as bores. No cell may be empty.
    clearance
        wanted.

    Returns
    -------
    For each bore, in the same rows and columns, where its piston stands in the range of
    pistons, counted from 1 row by row.

    Equation
    --------
    least sum of (bore - piston - clearance)**2 over all ways to give each bore a piston

    Validity
    --------
    Exact. Does not know a least clearance: compute PISTON_CLEARANCE for the chosen pairs
    and judge each.

    Source
    ------
    common practice, no source (pistons matched to bores); the linear assignment problem

    Caution
    -------
    Too little clearance seizes the engine. The piston maker's figure comes first.
    """
    require_filled(bores, "bores")
    require_filled(pistons, "pistons")
    require(number(pistons) >= number(bores), "pistons", "as many as bores or more", found(pistons))
    sizes, holes = taken(pistons), taken(bores)
    require(clearance <= 0.02 * min(holes), "clearance", "2 % of the smallest bore at most")
    by_size, by_hole = _ascending(sizes), _ascending(holes)
    places = _nearest_in_order([holes[i] - clearance for i in by_hole], [sizes[i] for i in by_size])
    chosen = [0] * len(holes)
    for hole, place in zip(by_hole, places, strict=True):
        chosen[hole] = by_size[place]
        require(
            abs(holes[hole] - sizes[by_size[place]]) <= 0.02 * holes[hole],
            "pistons",
            "enough pistons within 2 % of the size of their bores",
            f"none for bore {hole + 1} of the range",
        )
    return _beside(bores, chosen)


@worksheet_function(SECTION)
def parts_to_sets(first_masses: Masses, second_masses: Masses) -> Positions:
    """Which parts go together so that the sets weigh alike: heavy rods with light pistons.

    Parameters
    ----------
    first_masses
        Masses of the parts that stay where they are, such as rods. No cell may be empty.
    second_masses
        Masses of the parts to choose, such as pistons: as many. No cell may be empty.

    Returns
    -------
    For each first part, in the same rows and columns, where its second part stands in its
    range, counted from 1 row by row.

    Equation
    --------
    the heaviest first part takes the lightest second one, and so on: no other pairing gives
    a lighter heaviest set or a heavier lightest one

    Validity
    --------
    Only the sums are evened out. Rods are matched at each end separately.

    Source
    ------
    common practice, no source (swapping parts between light and heavy before cutting)
    """
    require_filled(first_masses, "first_masses")
    require_filled(second_masses, "second_masses")
    require_same_number(
        second_masses, first_masses, "second_masses", "as many parts as in the first range"
    )
    # Parts of one kind: one of them in another unit would only shift the pairing.
    require(
        max(taken(first_masses)) <= 2 * min(taken(first_masses)),
        "first_masses",
        "parts of one kind, none twice as heavy as another",
    )
    require(
        max(taken(second_masses)) <= 2 * min(taken(second_masses)),
        "second_masses",
        "parts of one kind, none twice as heavy as another",
    )
    heavy_last = _ascending(taken(first_masses))
    light_last = _ascending(taken(second_masses))[::-1]
    chosen = [0] * len(heavy_last)
    for first, second in zip(heavy_last, light_last, strict=True):
        chosen[first] = second
    return _beside(first_masses, chosen)
