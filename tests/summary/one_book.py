"""Books of a few calls, and the rows of their summaries."""

from sample import call

from workbook_tools.jobs.paper_records import Job
from workbook_tools.jobs.records import Book


def book(*records, **more):
    return Book("a.xlsx", "0" * 64, Job(), tuple(records), **more)


def rows_of(sections):
    return {row.label: row for section in sections for row in section.rows}


def quench(address, text, deck, position="", **more):
    return call(address, text, "QUENCH", deck, 0.04, position=position, **more)
