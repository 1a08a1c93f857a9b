"""The columns of a table that hold fields of jobs, or say which one a row is of."""

from __future__ import annotations

from workbook_tools.labels.cell_texts import words_of
from workbook_tools.labels.job_labels import OTHER
from workbook_tools.labels.table import Table, told_once

# So many fields of jobs side by side head a list of jobs.
_FEWEST_FIELDS = 3
# So many fields of jobs side by side head a list of jobs.
_FEWEST_OF_A_LIST = 4
# The same behind the word for a rebuild, which no other table has.
_FEWEST_OF_REBUILDS = 2
# Whose engine it is, and which, stand over no other list.
_OF_A_JOB = ("customer", "engine")


@told_once
def _offices_above(table: Table) -> frozenset[int]:
    """The columns below fields of jobs that stand a row above the heads of sizes."""
    above = min(table.head.rows) - 1
    columns = table.block.rows.get(above, ())
    fields = sum(table.cells.is_job_field(above, c) for c in columns)
    listed = fields >= _FEWEST_FIELDS
    return frozenset(c for c in columns if listed and c not in table.head.texts)


@told_once
def place_columns(table: Table) -> frozenset[int]:
    """The columns whose heads say that they tell which one a row is of."""
    heads = {c: texts[0].casefold().strip(" .:#") for c, texts in table.head.texts.items()}
    return frozenset(c for c, head in heads.items() if head in words_of("place_heads"))


def _is_of_people(table: Table, text: str) -> bool:
    """Whether a head names a field of a job, initials or what else stands in a log."""
    plain = text.casefold().strip(" .:")
    if plain in words_of("log_heads") or table.cells.vocabulary.job_field(text):
        return True
    return lists_jobs(table) and bool(_fields_meant(table, text))


def _fields_meant(table: Table, text: str) -> set[str]:
    return {label.field for label in table.cells.vocabulary.job.labels(text)} - {OTHER}


@told_once
def lists_jobs(table: Table) -> bool:
    """Whether heads can be so many fields of jobs that all of them are.

    "No." and "By" are none where each row has its own unit and limit.
    """
    if table.head.is_list:
        return False
    texts = [own[0] for own in table.head.texts.values() if own]
    rebuilt = any(map(table.cells.vocabulary.job.is_rebuilt, texts))
    if {*_OF_A_JOB} <= {table.cells.vocabulary.job_field(text) for text in texts}:
        return True
    fields = len(set[str]().union(*(_fields_meant(table, t) for t in texts)))
    return fields >= (_FEWEST_OF_REBUILDS if rebuilt else _FEWEST_OF_A_LIST)


def is_office(table: Table, column: int) -> bool:
    """Whether a column holds fields of jobs: customers, engines, names."""
    if column not in table.kept.offices:
        texts = table.head.texts.get(column, ())
        named = any(_is_of_people(table, t) for t in texts)
        table.kept.offices[column] = named or column in _offices_above(table)
    return table.kept.offices[column]
