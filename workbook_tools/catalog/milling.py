"""What cuts of decks and mains change elsewhere: intake faces of a V, the slack of a chain."""

from __future__ import annotations

import math
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import require
from workbook_tools.catalog.kinds import ABOVE_ZERO, Length, Limits, Note
from workbook_tools.catalog.measured import HALF_TURN
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Deck and quench"

# 10 mm at most: more is a number in thousandths.
CutOfBanks = Annotated[
    float,
    quantities.LENGTH,
    Limits(0.0, 0.01, low_open=True),
    Note("From each deck, or from the gasket face of each head; the sum where both were cut."),
]
VAngle = Annotated[
    float, quantities.ANGLE, HALF_TURN, Note("Between the two banks: 90 deg for most V8s.")
]
FaceAngle = Annotated[
    float,
    quantities.ANGLE,
    HALF_TURN,
    Note("Between gasket face and intake face of the head, as a protractor shows it."),
]
Cut = Annotated[float, quantities.LENGTH, ABOVE_ZERO]


@worksheet_function(SECTION)
def intake_face_cut(deck_cut: CutOfBanks, v_angle: VAngle, face_angle: FaceAngle) -> Cut:
    """What to cut from the intake face of each head of a V, after deck or head were cut.

    Returns
    -------
    Square to the intake face. The manifold then drops by ENG.INTAKE_FLOOR_CUT.

    Equation
    --------
    cut = deck_cut * sin(v_angle / 2) / sin(face_angle - v_angle / 2)

    Validity
    --------
    Both banks cut alike, so that ports and bolt holes line up as before. For banks at 90 deg and
    faces at 80 deg it is 1.23 times the deck's cut, the trade's usual figure. The same amount may
    come off the manifold's face instead.

    Source
    ------
    common practice, no source (geometry of the wedge between the banks)

    Caution
    -------
    An intake that does not seal draws in oil and air: fit it dry, measure the gaps at top and
    bottom, and cut by those.
    """
    half = v_angle / 2
    require(face_angle > half, "face_angle", "more than half the angle between the banks")
    return deck_cut * math.sin(half) / math.sin(face_angle - half)


@worksheet_function(SECTION)
def intake_floor_cut(deck_cut: CutOfBanks, v_angle: VAngle, face_angle: FaceAngle) -> Cut:
    """How far the intake manifold of a V drops after deck or head and the intake faces were cut.

    Returns
    -------
    To be cut from the end rails of manifold or block, unless a thick gasket or a bead of sealer
    takes it up.

    Equation
    --------
    drop = deck_cut * sin(face_angle) / sin(face_angle - v_angle / 2)

    Validity
    --------
    Both banks cut alike, so that ports and bolt holes line up as before. For banks at 90 deg and
    faces at 80 deg it is 1.71 times the deck's cut, the trade's usual figure.

    Source
    ------
    common practice, no source (geometry of the wedge between the banks)

    Caution
    -------
    An intake that does not seal draws in oil and air: fit it dry, measure the gaps, and cut by
    those.
    """
    half = v_angle / 2
    require(face_angle > half, "face_angle", "more than half the angle between the banks")
    return deck_cut * math.sin(face_angle) / math.sin(face_angle - half)


@worksheet_function("Camshaft and valvetrain")
def chain_deflection(center_distance: Length, center_loss: Length) -> Length:
    """How far the slack strand of a timing chain can be pressed in, after line boring or honing.

    Parameters
    ----------
    center_distance
        Between crank and camshaft, as it was when the chain was tight.
    center_loss
        By how much the crank came nearer to the camshaft.

    Returns
    -------
    At the middle of the strand, from straight to fully pressed in, with all slack on one side.

    Equation
    --------
    deflection = sqrt((L / 2 + center_loss)**2 - (L / 2)**2), L = center_distance - center_loss

    Validity
    --------
    Two sprockets of which the strands run nearly along the line of centers; wear of the chain comes
    on top. The slack of both strands, 2 * center_loss, gathers in one.

    Source
    ------
    common practice, no source (geometry of a triangle)

    Caution
    -------
    A slack chain jumps teeth, and valves meet pistons. The chain maker's limit comes first.
    """
    require(center_loss < center_distance / 10, "center_loss", "less than a tenth of the distance")
    half = (center_distance - center_loss) / 2
    return math.sqrt((half + center_loss) ** 2 - half**2)
