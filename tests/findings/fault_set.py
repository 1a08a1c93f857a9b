"""One fault put into invented books that are clean otherwise, and what is found of it.

Run by hand it prints how many faults of each kind are found and how many false alarms there
are: python tests/findings/fault_set.py [engines] [seed]. No limit of a check is read from here
or tuned to a seed: try others.
"""

from __future__ import annotations

import random
import sys
from dataclasses import dataclass, field

from faults import FAULTS
from invented_books import again

from workbook_tools.findings import check, check_batch

ENGINES = 64
SEED = 1

# What a finding may be called that counts as this fault found; by default a slip.
SLIP = ("unit slip", "disagreement")
KINDS: dict[str, tuple[str, ...]] = {
    "missing cylinder": ("missing reading",), "range cut short": ("disagreement",),
    "typed over a formula": ("stale result",), "reading missing": ("missing reading",),
    "signature missing": ("not signed",), "a call in the other units": ("unit slip",),
    "pistons of another size": ("disagreement", "out of band"),
    "shells of another size": ("disagreement", "out of band"),
}  # fmt: skip


@dataclass
class Tally:
    """How a kind of fault fared: put in, found at a right cell, found anywhere."""

    put_in: int = 0
    found: int = 0
    missed: list[str] = field(default_factory=list)


def _cells(findings):
    return {(f.place.sheet, f.place.address.split(":")[0]) for f in findings if f.place}


def clean_books(engines: int = ENGINES, seed: int = SEED, step: int = 1):
    """(the clean books of a set as read, every finding on them as text)."""
    books, alarms = [], []
    for n in range(0, engines, step):
        page = again(seed, n)
        books.append(page.book(f"{page.job}.xlsx"))
        alarms += [f"{page.job} {page.layout}: {f.kind}: {f.message}" for f in check(books[-1])]
    for n, findings in check_batch(books).items():
        alarms += [f"{books[n].file_name}: {f.kind}: {f.message}" for f in findings]
    return books, alarms


def measure(engines: int = ENGINES, seed: int = SEED, step: int = 1):
    """(tallies by fault, false alarms as texts, clean books): step > 1 takes fewer engines."""
    tallies = {name: Tally() for name in [*FAULTS, "copied readings"]}
    clean, alarms = clean_books(engines, seed, step)
    for n, book in zip(range(0, engines, step), clean, strict=True):
        page, usual = again(seed, n), set(check(book))
        for name, fault in FAULTS.items():
            faulty, rng = again(seed, n), random.Random(f"{seed} {n} {name}")
            places = fault(faulty, rng)
            if places is None:
                continue
            findings = set(check(faulty.book())) - usual
            tally = tallies[name]
            tally.put_in += 1
            right = [f for f in findings if f.kind in KINDS.get(name, SLIP)]
            if _cells(right) & set(places):
                tally.found += 1
            else:
                tally.missed.append(
                    f"{page.job} {page.layout} {places[:2]} {[f.message for f in findings][:2]}"
                )
    _copies(engines, seed, step, tallies["copied readings"])
    return tallies, alarms, clean


def _copies(engines, seed, step, tally):
    """Each book in turn with one row of readings from another book of as many cylinders."""
    pages = {n: again(seed, n) for n in range(0, engines, step)}
    for n, page in pages.items():
        alike = (page.engine.cylinders, page.engine.system)
        others = [
            p for m, p in pages.items()
            if m != n and (p.engine.cylinders, p.engine.system) == alike
        ]  # fmt: skip
        if page.engine.cylinders < 4 or not others:
            continue
        rng = random.Random(f"{seed} {n} copied")
        source, copy = rng.choice(others), again(seed, n)
        for key in ("bore", "skirt"):
            for k in range(page.engine.cylinders):
                copy.set(key, k, source.get(key, k))
        tally.put_in += 1
        found = check_batch([source.book("a.xlsx"), copy.book("b.xlsx")])
        if found.get(1):
            tally.found += 1
        else:
            tally.missed.append(page.job)


def report(engines: int, seed: int) -> str:
    """The table of what is found."""
    tallies, alarms, clean = measure(engines, seed)
    lines = [f"{'fault':34}{'put in':>8}{'found':>8}{'share':>8}"]
    for name, t in tallies.items():
        share = f"{t.found / t.put_in:.0%}" if t.put_in else "-"
        lines.append(f"{name:34}{t.put_in:8}{t.found:8}{share:>8}")
    lines.append(f"false alarms on {len(clean)} clean books: {len(alarms)}")
    lines += alarms[:20]
    return "\n".join(lines)


if __name__ == "__main__":
    print(report(int(sys.argv[1]) if len(sys.argv) > 1 else ENGINES,
                 int(sys.argv[2]) if len(sys.argv) > 2 else SEED))  # fmt: skip
