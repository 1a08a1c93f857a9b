"""What the uncertainty of its numbers says of a summary's items."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from workbook_tools.jobs.uncertainty import Key, Uncertainty
from workbook_tools.summary.item import RESULT, Item


def with_uncertainty(items: Iterable[Item], known: Mapping[Key, Uncertainty]) -> Iterator[Item]:
    """Items marked where a limit lies within their uncertainty; a result's is noted beside it.

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
        note = f"U = {one.shown} (k = 2)" if item.parameter == RESULT else ""
        yield item._replace(
            unsure=_is_unsure(item, one), note="; ".join(filter(None, (item.note, note)))
        )


def _is_unsure(item: Item, known: Uncertainty) -> bool:
    if item.band is None or item.value is None or not item.band.verdict:
        return False
    per_unit = known.si / known.bare
    limits = (limit for limit in (item.band.low, item.band.high) if limit is not None)
    return any(known.holds((item.value - limit) * per_unit) for limit in limits)
