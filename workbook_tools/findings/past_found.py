"""A size that work can only have taken further, and that went back: unlike its siblings.

Journals get smaller by grinding, bores larger; one that did not was misread, built up or
exchanged.
"""

from __future__ import annotations

from collections.abc import Iterator

from workbook_tools.findings.evidence import Evidence, Size
from workbook_tools.findings.finding import Finding
from workbook_tools.measurands.words import read_label

# Which way work takes a size.
_WAYS = {
    "main_journal": -1, "rod_journal": -1, "cam_journal": -1, "bore": 1, "main_housing_bore": 1,
    "rod_housing_bore": 1, "main_bearing_bore": 1, "head_height": -1,
}  # fmt: skip
# What only loses by work, and needs no others beside it to tell.
_ONLY_LOSES = ("head_height", "deck_height")
# By so much (SI) a size must have gone back; wear and another micrometer make less.
_LEAST = 1e-4
# So many parts beside it must have gone the right way.
_FEWEST = 2


def check_past_found(evidence: Evidence) -> Iterator[Finding]:
    """A finding for each finished size on the wrong side of what was found."""
    for name, way in _WAYS.items():
        sizes = [s for s in evidence.of(name) if s.typed and s.part.number]
        found = {s.part.which: s for s in sizes if s.stage == "found"}
        done = {s.part.which: s for s in sizes if s.stage in ("", "machined", "final")}
        both = [(found[which], done[which]) for which in done if which in found]
        back = [(f, d) for f, d in both if way * (d.si - f.si) < -_LEAST and not _is_new(d)]
        if len(both) - len(back) >= _FEWEST and len(back) * 3 <= len(both):
            yield from (_finding(f, d, way, len(both) - len(back)) for f, d in back)
    for name in _ONLY_LOSES:
        sizes = [s for s in evidence.of(name) if s.typed and not s.part.number]
        came = [s for s in sizes if s.stage == "found"]
        went = [s for s in sizes if s.stage in ("", "machined", "final")]
        if len(came) == len(went) == 1 and went[0].si - came[0].si > _LEAST:
            yield _finding(came[0], went[0], -1, 0)


def _is_new(size: Size) -> bool:
    """Whether a bore is that of a liner, which may be a new one."""
    return read_label(size.name).part == "liner"


def _finding(found: Size, done: Size, way: int, others: int) -> Finding:
    word = "smaller" if way > 0 else "larger"
    here = frozenset({done.place})
    why = f"the other {others} went the other way" if others else "work only takes off it"
    return Finding(
        "finished-past-found",
        done.place,
        f"{done.name} is {done.shown}, {word} than as found, {found.shown} "
        f"({found.place.address}); {why}.",
        "Measure it again, and say so where it was built up, sleeved or exchanged.",
        (found.place,),
        explains=here,
        rests_on=here,
    )
