"""Screw threads: designations such as 7/16-20 and M10x1.25, and their stress areas."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Annotated

from workbook_tools import quantities
from workbook_tools.catalog.errors import RequirementError, require
from workbook_tools.catalog.kinds import Choice, Text
from workbook_tools.catalog.measured import (
    FastenerDiameter,
    ThreadPitch,
    ThreadStressArea,
)
from workbook_tools.catalog.registry import worksheet_function

SECTION = "Fasteners"
INCH = 0.0254

Form = Annotated[str, quantities.TEXT, Choice(("metric", "inch"))]


@dataclass(frozen=True)
class Thread:
    """A thread of ISO metric ("metric") or Unified ("inch") form; diameter and pitch in m."""

    form: str
    diameter: float
    pitch: float


# Pitches in mm that a metric designation leaves out: ISO 261, coarse series.
_COARSE: dict[float, float] = {
    2: 0.4, 2.5: 0.45, 3: 0.5, 4: 0.7, 5: 0.8, 6: 1.0, 7: 1.0, 8: 1.25, 10: 1.5, 12: 1.75,
    14: 2.0, 16: 2.0, 18: 2.5, 20: 2.5, 22: 2.5, 24: 3.0, 27: 3.0, 30: 3.5, 33: 3.5, 36: 4.0,
    39: 4.0,
}  # fmt: skip
# Class of tolerance at the end, as drawings have it: 6g, 5g6g; 2A, 3B.
_METRIC = re.compile(
    r"M\s*(\d+(?:[.,]\d+)?)(?:\s*[X×*-]\s*(\d+(?:[.,]\d+)?))?(?:\s*-\s*(?:\d[EFGH]){1,2})?",
    re.IGNORECASE,
)
_UNIFIED = re.compile(
    r"(?:(?:(?P<whole>\d+)[\s-])?(?P<top>\d+)/(?P<bottom>[1-9]\d*)"
    r"|(?:\#|No\.?)\s*(?P<number>\d|1[02])|(?P<size>\d*\.\d+|\d+))"
    r"\s*(?:\"|in)?\s*-\s*(?P<turns>\d{1,2}(?:\.\d+)?)\s*(?:UN[A-Z]{0,3}|TPI)?"
    r"(?:\s*-?\s*[123][AB])?",
    re.IGNORECASE,
)


def _size(found: re.Match[str]) -> float:
    if found["number"]:
        return (60 + 13 * int(found["number"])) / 1000  # ASME B1.1, numbered sizes.
    if found["size"]:
        return float(found["size"])
    return int(found["whole"] or 0) + int(found["top"]) / int(found["bottom"])


def read_thread(text: str) -> Thread:
    """The thread of a designation: "7/16-20", "#10-32 UNF", "M10x1.25", "M10" (coarse).

    Raises RequirementError where the text is none, or its diameter and pitch do not fit.
    """
    even = text.strip()
    metric, unified = _METRIC.fullmatch(even), _UNIFIED.fullmatch(even)
    if metric is not None:
        size = float(metric[1].replace(",", "."))
        require(
            metric[2] is not None or size in _COARSE,
            "thread",
            f'its pitch too, such as "M{size:g}x1.25": M{size:g} alone has no usual one',
        )
        pitch = float(metric[2].replace(",", ".")) if metric[2] else _COARSE[size]
        thread = Thread("metric", size / 1000, pitch / 1000)
    elif unified is not None and float(unified["turns"]) > 0:
        thread = Thread("inch", _size(unified) * INCH, INCH / float(unified["turns"]))
    else:
        raise RequirementError("thread", 'a thread such as "7/16-20" or "M10x1.25"', "")
    hint = '; a numbered size has its sign, as in "#10-32"' if thread.form == "inch" else ""
    require(
        0.03 * thread.diameter <= thread.pitch <= 0.3 * thread.diameter,
        "thread",
        f"a pitch between 3 % and 30 % of the diameter{hint}",
    )
    return thread


@worksheet_function(SECTION)
def thread_area_from_pitch(
    diameter: FastenerDiameter, pitch: ThreadPitch, form: Form
) -> ThreadStressArea:
    """Tensile stress area of a thread, from its diameter and pitch.

    Parameters
    ----------
    form
        "metric" for ISO metric threads, "inch" for Unified ones: their roots differ.

    Equation
    --------
    metric: A = pi / 4 * (diameter - 0.938194 * pitch)**2;
    inch: A = pi / 4 * (diameter - 0.9743 * pitch)**2

    Validity
    --------
    ISO metric and Unified threads of 60 degrees. A bolt with a waisted shank fails there.

    Source
    ------
    ISO 898-1:2013 (stress area from the thread's mean diameters); ASME B1.1 (tensile stress area)

    Caution
    -------
    A fastener that fails can kill. The fastener maker's figures come first.
    """
    require(pitch <= 0.3 * diameter, "pitch", "30 % of the diameter at most")
    depth = 0.938194 if form == "metric" else 0.9743
    return math.pi / 4 * (diameter - depth * pitch) ** 2


@worksheet_function(SECTION)
def thread_stress_area(thread: Text) -> ThreadStressArea:
    """Tensile stress area of a thread, from its designation.

    Parameters
    ----------
    thread
        A text: "7/16-20" (diameter in inches, threads per inch), "0.4375-20", "M10x1.25", "#10-32"
        for a numbered size, or "M10" for the coarse pitch. "UNF" and the like and the class of
        tolerance may follow. In a cell, begin 1/2-20 with an apostrophe, or the program may take
        it for a date.

    Equation
    --------
    metric: A = pi / 4 * (diameter - 0.938194 * pitch)**2;
    inch: A = pi / 4 * (diameter - 0.9743 * pitch)**2

    Validity
    --------
    ISO metric and Unified threads of 60 degrees. A bolt with a waisted shank fails there.

    Source
    ------
    ISO 898-1:2013 (stress area from the thread's mean diameters); ASME B1.1 (tensile stress area)

    Caution
    -------
    A fastener that fails can kill. The fastener maker's figures come first.
    """
    found = read_thread(thread)
    return thread_area_from_pitch(found.diameter, found.pitch, found.form)
