"""Displacement: what bore, stroke and number of cylinders make of an engine's size."""

from __future__ import annotations

import math

from workbook_tools.catalog.measured import (
    Bore,
    BoreStrokeRatio,
    CylinderCount,
    CylinderVolume,
    Displacement,
    Stroke,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Displacement"


@worksheet_function(SECTION)
def cylinder_volume(bore: Bore, stroke: Stroke) -> CylinderVolume:
    """Swept volume of one cylinder.

    Parameters
    ----------
    bore
        finished: the mean of its readings.

    Returns
    -------
    In cc in both unit systems, as chamber and gasket volumes are.

    Equation
    --------
    cylinder_volume = pi / 4 * bore**2 * stroke

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (displaced volume of a
    cylinder)
    """
    return math.pi / 4 * bore**2 * stroke


@worksheet_function(SECTION)
def displacement(bore: Bore, stroke: Stroke, cylinders: CylinderCount) -> Displacement:
    """Displacement of the engine from bore, stroke and number of cylinders.

    Parameters
    ----------
    bore
        finished: the mean of all cylinders.

    Returns
    -------
    In cubic inches, or in cc with "metric".

    Equation
    --------
    displacement = pi / 4 * bore**2 * stroke * cylinders

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (displaced volume of a
    cylinder)
    """
    return math.pi / 4 * bore**2 * stroke * cylinders


@worksheet_function(SECTION)
def stroke_for_displacement(
    displacement: Displacement, bore: Bore, cylinders: CylinderCount
) -> Stroke:
    """Stroke that gives a wanted displacement with a given bore.

    Parameters
    ----------
    displacement
        wanted, of the whole engine.
    bore
        finished.

    Equation
    --------
    stroke = displacement / (pi / 4 * bore**2 * cylinders)

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (displaced volume of a
    cylinder, solved for the stroke)
    """
    return displacement / (math.pi / 4 * bore**2 * cylinders)


@worksheet_function(SECTION)
def bore_for_displacement(
    displacement: Displacement, stroke: Stroke, cylinders: CylinderCount
) -> Bore:
    """Bore that gives a wanted displacement with a given stroke.

    Parameters
    ----------
    displacement
        wanted, of the whole engine.

    Equation
    --------
    bore = sqrt(displacement / (pi / 4 * stroke * cylinders))

    Validity
    --------
    Says nothing about the wall that is left: sound the cylinder walls before boring.

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (displaced volume of a
    cylinder, solved for the bore)
    """
    return math.sqrt(displacement / (math.pi / 4 * stroke * cylinders))


@worksheet_function(SECTION)
def bore_stroke_ratio(bore: Bore, stroke: Stroke) -> BoreStrokeRatio:
    """Bore to stroke ratio: above 1 the engine is oversquare, below 1 undersquare.

    Equation
    --------
    bore_stroke_ratio = bore / stroke

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (ratio of cylinder bore to
    piston stroke)
    """
    return bore / stroke
