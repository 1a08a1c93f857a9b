"""The catalog: every worksheet function, written once."""

from __future__ import annotations

import re
from functools import lru_cache

from workbook_tools.catalog import airflow as airflow
from workbook_tools.catalog import altitude as altitude
from workbook_tools.catalog import balance as balance
from workbook_tools.catalog import bands as bands
from workbook_tools.catalog import bearings as bearings
from workbook_tools.catalog import bolt_stretch as bolt_stretch
from workbook_tools.catalog import cam_phase as cam_phase
from workbook_tools.catalog import camshaft as camshaft
from workbook_tools.catalog import charge as charge
from workbook_tools.catalog import compression as compression
from workbook_tools.catalog import crosshatch as crosshatch
from workbook_tools.catalog import cycle_torque as cycle_torque
from workbook_tools.catalog import deck_plane as deck_plane
from workbook_tools.catalog import displacement as displacement
from workbook_tools.catalog import dynamic_compression as dynamic_compression
from workbook_tools.catalog import engine_balance as engine_balance
from workbook_tools.catalog import fasteners as fasteners
from workbook_tools.catalog import fits as fits
from workbook_tools.catalog import flow_bench as flow_bench
from workbook_tools.catalog import fuel as fuel
from workbook_tools.catalog import fuel_delivery as fuel_delivery
from workbook_tools.catalog import growth as growth
from workbook_tools.catalog import interference as interference
from workbook_tools.catalog import joints as joints
from workbook_tools.catalog import knock as knock
from workbook_tools.catalog import lubrication as lubrication
from workbook_tools.catalog import matching as matching
from workbook_tools.catalog import measuring as measuring
from workbook_tools.catalog import milling as milling
from workbook_tools.catalog import motion as motion
from workbook_tools.catalog import oil as oil
from workbook_tools.catalog import oil_flow as oil_flow
from workbook_tools.catalog import oil_grades as oil_grades
from workbook_tools.catalog import oil_pump as oil_pump
from workbook_tools.catalog import piston_effort as piston_effort
from workbook_tools.catalog import piston_speed as piston_speed
from workbook_tools.catalog import pistons as pistons
from workbook_tools.catalog import power as power
from workbook_tools.catalog import power_correction as power_correction
from workbook_tools.catalog import preload as preload
from workbook_tools.catalog import pushrods as pushrods
from workbook_tools.catalog import quench as quench
from workbook_tools.catalog import readings as readings
from workbook_tools.catalog import reasons as reasons
from workbook_tools.catalog import rings as rings
from workbook_tools.catalog import roundness as roundness
from workbook_tools.catalog import thread_engagement as thread_engagement
from workbook_tools.catalog import threads as threads
from workbook_tools.catalog import tuned_lengths as tuned_lengths
from workbook_tools.catalog import two_strokes as two_strokes
from workbook_tools.catalog import uncertainty as uncertainty
from workbook_tools.catalog import usual_bands as usual_bands
from workbook_tools.catalog import valve_motion as valve_motion
from workbook_tools.catalog import valve_springs as valve_springs
from workbook_tools.catalog import valvetrain as valvetrain
from workbook_tools.catalog import volumes as volumes
from workbook_tools.catalog import weather as weather
from workbook_tools.catalog.calculate import OMITTED, CellError, Result, calculate
from workbook_tools.catalog.errors import ArgumentError
from workbook_tools.catalog.registry import (
    PREFIX,
    REQUIRED,
    UNITS_HELP,
    Function,
    Parameter,
    entries,
    entry,
)

__all__ = [
    "OMITTED",
    "PREFIX",
    "REQUIRED",
    "UNITS_HELP",
    "ArgumentError",
    "CellError",
    "Function",
    "Parameter",
    "Result",
    "calculate",
    "entries",
    "find",
]


def find(name: str) -> Function | None:
    """The function of a name in any spelling of its prefix: ENG.QUENCH, eng_quench, QUENCH."""
    return entry(_bare(name))


@lru_cache(maxsize=1024)
def _bare(name: str) -> str:
    return re.sub(rf"^{PREFIX}[._]", "", name.upper())
