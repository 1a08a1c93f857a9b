"""Names and texts under which Excel shows a catalog function, within Excel's limits."""

from __future__ import annotations

import re

from workbook_tools.catalog import PREFIX, UNITS_HELP, Function

# What xlwings imports, and what every saved book's wrapper names: changing it breaks books.
MODULE = "workbook_tools.hosts.excel.functions"
# The package is in no index: it comes from a clone of the project, with xlwings and pywin32.
INSTALLATION = r'pip install "PATH\TO\THE\CLONE[excel]"'
# Excel's function wizard takes no more; xlwings would cut in mid-word.
_MOST_CHARACTERS = 255


def vba_name(function: Function) -> str:
    """The name in Excel, where no dot may stand: ENG_QUENCH."""
    return f"{PREFIX}_{function.name}"


def category(function: Function) -> str:
    """The heading under which Excel's function wizard lists it."""
    return f"{PREFIX} {function.section}"


def about(function: Function) -> str:
    """What the function wizard says about a function, 255 characters at most."""
    return _fitting(function.summary, function.caution, function.result_help)


def argument_help(function: Function) -> dict[str, str]:
    """What the function wizard says about each argument, 255 characters at most."""
    helps = {p.name: ("Optional. " if p.optional else "") + p.help for p in function.parameters}
    if function.takes_units:
        helps["units"] = f"Optional. {UNITS_HELP}"
    return {name: _fitting(text) for name, text in helps.items()}


def _fitting(*texts: str) -> str:
    """As many whole sentences as fit, in order; of a first one that is too long the start."""
    sentences = [s for text in texts for s in re.split(r"(?<=[.!?]) +", text) if s]
    fitting = ""
    for sentence in sentences:
        longer = f"{fitting} {sentence}".strip()
        if len(longer) > _MOST_CHARACTERS:
            break
        fitting = longer
    if fitting or not sentences:
        return fitting
    return sentences[0][: _MOST_CHARACTERS - 1].rsplit(" ", 1)[0] + "…"
