"""Where a cell's text stands, for the tests of cell texts."""

from workbook_tools import quantities
from workbook_tools.labels.content import Field

INCH = Field("bearing clearance", quantities.LENGTH, system="inch")
METRIC = INCH._replace(system="metric")
NOWHERE = INCH._replace(system=None)
# What is usual of a bearing clearance, in meters: from 0.0005 to 0.008 in.
USUAL = INCH._replace(likely=(0.0005 * 0.0254, 0.008 * 0.0254), neighbors=(0.0024, 0.0025, 0.0026))


def field(meaning, kind=quantities.LENGTH, system="inch", **more):
    return Field(meaning, kind, system=system, **more)


BORE = field("bore")
OVER = field("oversize")
UNDER = field("undersize")
RATIO = field("compression_ratio", quantities.RATIO)
CHAMBER = field("chamber_volume", quantities.VOLUME)
CROWN = field("crown_volume", quantities.VOLUME)
DISPLACEMENT = field("displacement", quantities.DISPLACEMENT, None)
GASKET = field("gasket_thickness")
DECK = field("deck_clearance")
TORQUE = field("torque", quantities.TORQUE)
SPRING = field("spring load", quantities.FORCE)
HEIGHT = field("spring height")
LASH = field("lash")
GAP = field("top_ring_gap")
CENTERLINE = field("intake centerline", quantities.ANGLE)
ADVANCE = field("cam advance", quantities.ANGLE)
DURATION = field("duration", quantities.ANGLE)
CLOSING = field("intake_closing", quantities.ANGLE)
LEAK = field("leak_down", quantities.NUMBER)
CRANKING = field("cranking_pressure", quantities.PRESSURE)
OIL = field("oil pressure", quantities.PRESSURE)
POWER = field("power", quantities.POWER)
WEIGHT = field("piston_mass", quantities.MASS)
ROCKER = field("rocker ratio", quantities.NUMBER)
DATE = field("date", quantities.TEXT)
WHO = field("builder", quantities.TEXT)
WHICH = field("position", quantities.TEXT)
JOB = field("number", quantities.TEXT)
