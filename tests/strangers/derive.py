"""What follows from the facts of a job by arithmetic: clearances, quench, ratio, displacement.

Plain sums of the trade's definitions, worked out here and not by the program that is measured.
"""

from __future__ import annotations

import math
from statistics import fmean


def derived(job):
    """The derived facts of a job, in SI, each with the doubt of what it was made from."""
    known = _Known(job.facts)
    found = []
    for quantity, larger, smaller in (
        ("piston_clearance", "bore", "piston_diameter"),
        ("main_bearing_clearance", "main_bearing_bore", "main_journal"),
        ("rod_bearing_clearance", "rod_bearing_bore", "rod_journal"),
        ("pin_clearance", "small_end_bore", "pin_diameter"),
        ("intake_stem_clearance", "intake_guide_bore", "intake_stem_diameter"),
        ("exhaust_stem_clearance", "exhaust_guide_bore", "exhaust_stem_diameter"),
    ):
        found += known.pairs(quantity, larger, smaller, lambda a, b: a - b)
    found += known.pairs("quench", "deck_clearance", "gasket_thickness", lambda a, b: a + b)
    return found + _engine(job, known) + _ratios(job, known)


class _Known:
    """Facts by measurand and position; what is said for the whole engine stands under None."""

    def __init__(self, facts):
        self.by = {}
        for fact in facts:
            places = self.by.setdefault(fact["quantity"], {})
            # Two different numbers for one place: neither is gone by.
            again = places.get(fact.get("at"))
            differs = again is not None and abs(again[0] - fact["si"]) > 1e-9
            places[fact.get("at")] = (fact["si"], bool(fact.get("doubt")) or differs)

    def at(self, quantity, place):
        places = self.by.get(quantity, {})
        return places.get(place, places.get(None))

    def places(self, *quantities):
        seen = {at for q in quantities for at in self.by.get(q, {}) if at is not None}
        return sorted(seen, key=str)

    def pairs(self, quantity, first, second, combine):
        results = []
        for place in self.places(first, second) or [None]:
            a, b = self.at(first, place), self.at(second, place)
            if a and b:
                results.append(_fact(quantity, combine(a[0], b[0]), place, a[1] or b[1]))
        return results


def _fact(quantity, si, at, doubt):
    made = {"quantity": quantity, "si": si}
    return made | ({"at": at} if at is not None else {}) | ({"doubt": True} if doubt else {})


def _engine(job, known):
    stroke, rod = known.at("stroke", None), known.at("rod_length", None)
    found = []
    bores = list(known.by.get("bore", {}).values())
    if stroke and bores and job.cylinders:
        area = math.pi / 4 * fmean(b[0] ** 2 for b in bores)
        doubt = stroke[1] or any(b[1] for b in bores)
        found.append(_fact("displacement", area * stroke[0] * job.cylinders, None, doubt))
    if stroke and rod:
        found.append(_fact("rod_stroke_ratio", rod[0] / stroke[0], None, stroke[1] or rod[1]))
    return found


def _ratios(job, known):
    needed = (
        "bore",
        "stroke",
        "chamber_volume",
        "gasket_thickness",
        "gasket_bore",
        "deck_clearance",
    )
    needed += ("crown_volume",)
    found = []
    for place in known.places(*needed) or [None]:
        got = [known.at(quantity, place) for quantity in needed]
        if any(g is None for g in got):
            continue
        bore, stroke, chamber, thickness, gasket, deck, crown = (g[0] for g in got)
        swept = math.pi / 4 * bore**2 * stroke
        left = chamber + math.pi / 4 * (gasket**2 * thickness + bore**2 * deck) + crown
        doubt = any(g[1] for g in got)
        found.append(_fact("compression_ratio", (swept + left) / left, place, doubt))
    return found
