"""What the headings over a label say together."""

from __future__ import annotations

from collections.abc import Sequence

from workbook_tools.measurands.composing import Said, said
from workbook_tools.measurands.lexicon import Sense, rules

# The words of a heading, each with its senses.
Heading = Sequence[tuple[str, Sequence[Sense]]]


def said_over(headings: Sequence[Heading]) -> Said | None:
    """What headings say together; of each thing the nearest heading that says it."""
    every = [_said_by(heading) for heading in headings]
    if not every:
        return None
    parts = [one.parts for one in every if one.parts]
    return Said(
        # "Cyl" over a line of them says less than what the table is about: "Liners".
        parts=next((p for p in parts if p != ("cylinder",)), parts[0] if parts else ()),
        nouns=next((one.nouns for one in every if one.nouns), ()),
        which=next((one.which for one in every if one.which), ()),
        at=every[0].at,  # "Top" over ring gaps is a ring, and nothing further off.
        conditions=next((one.conditions for one in every if one.conditions), ()),
    )


def _said_by(words: Heading) -> Said:
    """What the words of one heading say: no count; a ring alone is a part, a unit a noun."""
    rule = rules()
    likeliest = [
        next((s for s in senses if s.noun not in rule.counts), Sense()) for _, senses in words
    ]
    one = said(likeliest)
    parts, nouns = one.parts, one.nouns
    if not parts and set(one.which) & {*rule.ring_numbers.values()}:
        parts = ("ring",)
    elif not (parts or one.which or one.at):
        # Tappets are the lash, and still a part.
        parts = tuple(s.part for text, every in words if len(text) > 2 for s in every if s.part)
    if not nouns:
        nouns = tuple(rule.unit_noun[unit] for unit in one.units if unit in rule.unit_noun)
    return one._replace(parts=parts[: max(len(one.parts), 1)], nouns=nouns)
