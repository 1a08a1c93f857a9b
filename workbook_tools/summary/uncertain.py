"""What the uncertainty of its numbers says of a summary's items."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from workbook_tools.jobs.uncertainty import Key, Uncertainty
from workbook_tools.summary.item import Item


def with_uncertainty(items: Iterable[Item], known: Mapping[Key, Uncertainty]) -> Iterator[Item]:
    """Items with their expanded uncertainty, marked where a limit lies within it.

    A verdict stays that of simple acceptance.
    """
    if not known:
        yield from items
        return
    for item in items:
        derived = item.state == "computed"
        one = known.get((item.place, item.measurand, item.part) if derived else item.place)
        if one is None or item.value is None or one.unit != item.of.unit:
            yield item
            continue
        yield item._replace(unsure=_is_unsure(item, one), expanded=one.bare)


def _is_unsure(item: Item, known: Uncertainty) -> bool:
    if item.band is None or item.value is None or not item.band.verdict:
        return False
    return bool(known.unproved(item.value, item.band.low, item.band.high))
