"""Where a cam's lobes stand, from the lobe separation and the advance that a card gives."""

from __future__ import annotations

from workbook_tools.catalog.camshaft import SECTION
from workbook_tools.catalog.measured import (
    CamAdvance,
    ExhaustCenterline,
    IntakeCenterline,
    LobeSeparation,
)
from workbook_tools.catalog.registry import worksheet_function


@worksheet_function(SECTION)
def intake_centerline(lobe_separation: LobeSeparation, cam_advance: CamAdvance) -> IntakeCenterline:
    """Intake centerline in crank degrees, from the lobe separation and the cam's advance.

    Parameters
    ----------
    lobe_separation
        from the cam card.
    cam_advance
        wanted or ground in.

    Equation
    --------
    intake_centerline = lobe_separation - cam_advance, the lobe separation in cam degrees being the
    centerline in crank degrees of a cam that stands straight up

    Validity
    --------
    One camshaft turning at half the crank's speed. INTAKE_OPENING and INTAKE_CLOSING make events
    of it.

    Source
    ------
    common practice, no source (geometry of the degree wheel)

    Caution
    -------
    Advance brings the intake valve nearer to the piston: measure piston to valve.
    """
    return lobe_separation - cam_advance


@worksheet_function(SECTION)
def exhaust_centerline(
    lobe_separation: LobeSeparation, cam_advance: CamAdvance
) -> ExhaustCenterline:
    """Exhaust centerline in crank degrees, from the lobe separation and the cam's advance.

    Parameters
    ----------
    lobe_separation
        from the cam card.
    cam_advance
        wanted or ground in.

    Equation
    --------
    exhaust_centerline = lobe_separation + cam_advance, the lobe separation in cam degrees being the
    centerline in crank degrees of a cam that stands straight up

    Validity
    --------
    One camshaft turning at half the crank's speed. EXHAUST_OPENING and EXHAUST_CLOSING make events
    of it.

    Source
    ------
    common practice, no source (geometry of the degree wheel)

    Caution
    -------
    Retard brings the exhaust valve nearer to the piston: measure piston to valve.
    """
    return lobe_separation + cam_advance
