"""What numbers of an engine are: measurands, which one a number is of, and words for both."""

from workbook_tools.measurands.measurand import Measurand
from workbook_tools.measurands.position import Position
from workbook_tools.measurands.stage import STAGES, Stage
from workbook_tools.measurands.table import all_measurands, find, of_property

__all__ = ["STAGES", "Measurand", "Position", "Stage", "all_measurands", "find", "of_property"]
