"""Displacement: what bore, stroke and number of cylinders make of an engine's size."""

from __future__ import annotations

import math

from workbook_tools.catalog.kinds import Count, Displacement, Length, Ratio, Volume
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Displacement"


@worksheet_function(SECTION)
def cylinder_volume(bore: Length, stroke: Length) -> Volume:
    """Swept volume of one cylinder.

    Parameters
    ----------
    bore
        Finished cylinder bore, the mean of its readings.
    stroke
        Stroke of the crank, twice its throw.

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
def displacement(bore: Length, stroke: Length, cylinders: Count) -> Displacement:
    """Displacement of the engine from bore, stroke and number of cylinders.

    Parameters
    ----------
    bore
        Finished cylinder bore, the mean of all cylinders.
    stroke
        Stroke of the crank, twice its throw.
    cylinders
        Number of cylinders.

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
def stroke_for_displacement(displacement: Displacement, bore: Length, cylinders: Count) -> Length:
    """Stroke that gives a wanted displacement with a given bore.

    Parameters
    ----------
    displacement
        Wanted displacement of the whole engine.
    bore
        Finished cylinder bore.
    cylinders
        Number of cylinders.

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
def bore_for_displacement(displacement: Displacement, stroke: Length, cylinders: Count) -> Length:
    """Bore that gives a wanted displacement with a given stroke.

    Parameters
    ----------
    displacement
        Wanted displacement of the whole engine.
    stroke
        Stroke of the crank, twice its throw.
    cylinders
        Number of cylinders.

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
def bore_stroke_ratio(bore: Length, stroke: Length) -> Ratio:
    """Bore to stroke ratio: above 1 the engine is oversquare, below 1 undersquare.

    Parameters
    ----------
    bore
        Cylinder bore.
    stroke
        Stroke of the crank, twice its throw.

    Equation
    --------
    bore_stroke_ratio = bore / stroke

    Source
    ------
    Heywood, Internal Combustion Engine Fundamentals, chapter 2 (ratio of cylinder bore to
    piston stroke)
    """
    return bore / stroke
