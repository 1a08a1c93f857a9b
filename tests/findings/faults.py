"""Faults that are put into invented books that are clean otherwise."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

from invented_books import Page, columns
from invented_engines import on_grid, ratio_of

# Each fault changes a page and returns the cells where a finding is right, or None where
# the book has nothing that the fault can be put into.

Places = list[tuple[str, str]]
Fault = Callable[[Page, random.Random], Places | None]


def _pick(page, rng, keys):
    key = rng.choice([k for k in keys if page.has(k)])
    count = sum(1 for k, _ in page.at if k == key)
    return key, rng.randrange(count), count


def _results(page, key):
    """Where a finding about a reading may stand: the cell, or a result that rests on it."""
    return [v for (k, _), v in page.at.items() if k == key]


SIZES = ("bore", "skirt", "main journal", "main housing", "pin journal", "pin housing")


def one_turn(page, rng):
    key, n, _ = _pick(page, rng, SIZES)
    turn = rng.choice([0.5] if page.engine.system == "metric" else [0.025, 0.1])
    page.set(key, n, round(page.get(key, n) + rng.choice([-1, 1]) * turn, 5))
    return [page.place(key, n), *_around(page, key, n)]


def _around(page, key, n):
    """The results right beside a size."""
    near = {"bore": "clearance", "skirt": "clearance"}.get(key, f"{key.split()[0]} clearance")
    return [page.place(near, n)] if (near, n) in page.at else []


def slipped_decimal(page, rng):
    key, n, _ = _pick(page, rng, (*SIZES, "top gap", "second gap", "chamber"))
    page.set(key, n, round(page.get(key, n) * rng.choice([10, 0.1]), 7))
    return [page.place(key, n)]


def unit_of_one_reading(page, rng):
    key, n, _ = _pick(page, rng, (*SIZES, "top gap", "second gap"))
    factor = 1 / 25.4 if page.engine.system == "metric" else 25.4
    page.set(key, n, round(page.get(key, n) * factor, 5))
    return [page.place(key, n)]


def thousandths(page, rng):
    key, n, _ = _pick(page, rng, ("top gap", "second gap", "deck", "gasket"))
    value = page.get(key, n)
    if abs(value) < 1e-9:
        return None
    page.set(key, n, round(value * 1000, 4))
    return [page.place(key, n)]


def unit_of_a_size(page, rng):
    key, n, _ = _pick(
        page, rng, ("stroke", "rod", "height", "deck height", "gasket", "gasket bore")
    )
    factor = 1 / 25.4 if page.engine.system == "metric" else 25.4
    page.set(key, n, round(page.get(key, n) * factor, 4))
    return [page.place(key, n)]


def call_without_units(page, rng):
    key, n, _ = _pick(page, rng, ("quench", "clearance", "displacement", "main clearance"))
    formula = page.get(key, n)
    if page.metric:
        page.set(key, n, formula.replace(',,"metric"', "").replace(',"metric"', ""))
    elif key == "main clearance":
        page.set(key, n, formula[:-1] + ',,"metric")')
    else:
        page.set(key, n, formula[:-1] + ',"metric")')
    return [*page.at.values()]


def half_of_one(page, rng):
    key, n, _ = _pick(page, rng, (*SIZES, "top gap", "second gap"))
    page.set(key, n, round(page.get(key, n) * rng.choice([0.5, 0.5, 2]), 6))
    return [page.place(key, n)]


def sign_of_one_deck(page, rng):
    _, n, _ = _pick(page, rng, ("deck",))
    if abs(page.get("deck", n)) < (0.1 if page.engine.system == "metric" else 0.004):
        return None
    page.set("deck", n, -page.get("deck", n))
    return [page.place("deck", n)]


def sign_of_all_decks(page, rng):
    decks = [page.get("deck", n) for n in range(page.engine.cylinders)]
    if abs(sum(decks) / len(decks)) < (0.1 if page.engine.system == "metric" else 0.004):
        return None
    for n, deck in enumerate(decks):
        page.set("deck", n, -deck)
    return _results(page, "deck")


# Ratios that nobody is surprised at, with or without boost (common practice, no source).
ORDINARY = (7.0, 15.0)


def sign_of_all_crowns(page, rng):
    """Nothing in a book tells of it that says neither dish nor dome, names no ratio wanted, and
    comes to an ordinary ratio all the same: such books are not counted.
    """
    words = (page.get("crown head") or "").split()[0]
    silent = words not in ("Dish", "Dome") and not page.has("ratio wanted")
    if silent and ORDINARY[0] <= ratio_of(page.engine, 0, turned=True) <= ORDINARY[1]:
        return None
    for n in range(page.engine.cylinders):
        page.set("crown", n, -page.get("crown", n))
    return _results(page, "crown")


def gasket_bore_of_cylinder(page, rng):
    bore = page.get("bore", 0)
    page.set("gasket bore", 0, on_grid(bore, 0.1 if page.engine.system == "metric" else 0.005)
             if rng.random() < 0.5 else bore)  # fmt: skip
    return [page.place("gasket bore")]


def gasket_of_cylinder_cell(page, rng):
    title, _ = page.place("gasket volume")
    formula = page.get("gasket volume").replace(
        page.ref("gasket bore", 0, title) + ",", page.ref("bore", 0, title) + ",", 1
    )
    page.set("gasket volume", 0, formula)
    return [page.place("bore", 0), page.place("gasket volume")]


def hot_for_cold(page, rng):
    n = rng.randrange(page.engine.cylinders)
    title, _ = page.place("quench", n)
    formula = page.get("quench", n)
    page.set(
        "quench", n, formula.replace(page.ref("deck", n, title), page.ref("hot deck", n, title))
    )
    return [page.place("hot deck", n)]


def missing_cylinder(page, rng):
    """One cylinder's readings and results are not in the table at all."""
    if page.engine.cylinders < 4 or (page.layout == "banks" and page.engine.cylinders in (6, 8)):
        return None
    n = rng.randrange(1, page.engine.cylinders)
    for key in [*columns(), "number"]:
        if (key, n) in page.at:
            page.set(key, n, None)
    if page.has("mean bore"):
        page.set("mean bore", 0, None)
    return [*page.at.values()]


def range_cut_short(page, rng):
    if not page.has("mean bore"):
        return None
    title, _ = page.place("mean bore")
    n = page.engine.cylinders
    formula = page.get("mean bore").replace(
        f":{page.ref('bore', n - 1, title)},{n}", f":{page.ref('bore', n - 2, title)},{n - 1}"
    )
    page.set("mean bore", 0, formula)
    return [page.place("mean bore")] if n > 3 else None


def typed_over(page, rng):
    key, n, count = _pick(
        page, rng, ("clearance", "quench", "ratio", "main clearance", "pin clearance")
    )
    if count < 3:
        return None
    value = {"clearance": 0.0021, "quench": 0.041, "ratio": 10.1}.get(key, 0.0019)
    page.set(key, n, value * (25.4 if page.metric and key != "ratio" else 1))
    return [page.place(key, n)]


def rounded_formula(page, rng):
    n = rng.randrange(page.engine.cylinders)
    title, _ = page.place("clearance", n)
    digits = 2 if page.metric else 3
    formula = page.get("clearance", n)
    for key in ("bore", "skirt"):
        formula = re.sub(
            rf"\b{page.ref(key, n, title)}\b", f"ROUND({page.ref(key, n, title)},{digits})", formula
        )
    page.set("clearance", n, formula)
    return [page.place(k, n) for k in ("bore", "skirt", "clearance")]


# So few sizes that are all the same may be honest work to a round size: a crank ground to
# 2.4490 reads so at every journal, and nothing in a book tells that from rounded readings.
FEW_ALIKE = 5


def rounded_readings(page, rng):
    key = rng.choice(["bore", "main journal"])
    count = sum(1 for k, _ in page.at if k == key)
    for n in range(count):
        page.set(key, n, round(page.get(key, n), 2 if page.metric else 3))
    alike = len({page.get(key, n) for n in range(count)}) == 1 and count <= FEW_ALIKE
    return _results(page, key) if count > 3 and not alike else None


def stated_size_wrong(page, rng):
    value = page.get("stated")
    digits = str(int(value))
    other = rng.choice([d for d in "123456789" if d != digits[0]]) + digits[1:]
    page.set("stated", 0, rng.choice([float(other), round(value * rng.choice([0.93, 1.06]))]))
    return [page.place("stated")]


def stroke_wrong(page, rng):
    page.set("stroke", 0, round(page.get("stroke") * rng.choice([0.9, 1.1, 1.05]), 3))
    return [page.place("stated"), page.place("stroke"), page.place("stack"),
            *([page.place("stroke again")] if page.has("stroke again") else [])]  # fmt: skip


def digits_swapped_on_copy(page, rng):
    if not page.has("bore again") or page.engine.cylinders < 4:
        return None
    n = rng.randrange(page.engine.cylinders)
    value = page.get("bore again", n)
    page.set(
        "bore again",
        n,
        round(value + rng.choice([9, -9, 27, 1]) * (0.001 if page.metric else 0.0001), 5),
    )
    return [page.place("bore again", n), page.place("bore", n)]


def job_number_left(page, rng):
    key = rng.choice([k for k in ("job on bottom end", "job on cylinders") if page.has(k)])
    page.set(key, 0, "INV-999")
    return [page.place(key), page.place("job")] if key == "job on cylinders" else None


def reading_missing(page, rng):
    key, n, _ = _pick(page, rng, ("bore", "skirt", "deck", "chamber", "main journal", "gasket"))
    page.set(key, n, None)
    return [page.place(key, n)]


def signature_missing(page, rng):
    page.set("checked", 0, None)
    title, _ = page.place("checked")
    return [(title, "D4")]


def shells_of_another_size(page, rng):
    step = 0.25 if page.metric else 0.01
    for n in range(page.engine.mains):
        page.set("main journal", n, round(page.get("main journal", n) - step, 5))
    return _results(page, "main clearance")


def oversize_pistons_missing(page, rng):
    step = 0.25 if page.metric else 0.01
    for n in range(page.engine.cylinders):
        page.set("skirt", n, round(page.get("skirt", n) - step, 5))
    return _results(page, "clearance")


def free_gasket(page, rng):
    """The free thickness where the compressed one belongs."""
    n = rng.randrange(page.engine.cylinders)
    key, n = rng.choice([("quench", n), ("gasket volume", 0)])
    title, _ = page.place(key, n)
    old = page.ref("gasket", 0, title)
    page.set(
        key, n, re.sub(rf"(?<!\w){re.escape(old)}\b", page.ref("free", 0, title), page.get(key, n))
    )
    return [page.place("free")]


def rocked_for_clearance(page, rng):
    n = rng.randrange(2)
    page.set("guide verdict", n, page.get("guide verdict", n).replace("(C", "(B"))
    return [page.place("wobble", n)]


def hot_lash_for_cold(page, rng):
    """The hot figure set cold, or a lift that is worked out with lash of the other state."""
    state = "cold" if "cold" in page.get("lift head") else "hot"
    other = "hot" if state == "cold" else "cold"
    if rng.random() < 0.5:
        page.set("lift head", 0, page.get("lift head").replace(state, other))
        return [page.place("intake lash")]
    n = rng.choice(["intake lash", "exhaust lash"])
    wanted = {"intake lash": 10, "exhaust lash": 11}[n]
    page.set(n, 0, page.cells["Valves and bolts"][wanted, 2])
    for key in ("intake lash head", "exhaust lash head", "lift head"):
        page.set(key, 0, page.get(key).replace("hot", "cold"))
    return [page.place(n)]


def dry_torque(page, rng):
    """A dry figure where a lubricant stands beside it, in a table or in a call."""
    if rng.random() < 0.5:
        dry = rng.choice(["Torque, dry", "Dry torque", "Torque on dry threads"])
        page.set("torque head", 0, page.get("torque head").replace("Torque", dry))
        return [page.place("fastener", 0), page.place("fastener", 1)]
    page.set(
        "bolt torque head", 0, re.sub(r", [\w ()-]+?(?= \()", ", dry", page.get("bolt torque head"))
    )
    return [page.place("bolt torque")]


def cam_degrees(page, rng):
    title, _ = page.place("stroke left")
    old, new = page.ref("closing", 0, title), page.ref("closing on cam", 0, title)
    page.set("stroke left", 0, page.get("stroke left").replace(old, new))
    return [page.place("closing on cam")]


def per_side_for_total(page, rng):
    title, _ = page.place("hone")
    old, new = page.ref("fit wanted", 0, title), page.ref("fit per side", 0, title)
    page.set("hone", 0, page.get("hone").replace(old, new))
    return [page.place("fit per side")]


FAULTS: dict[str, Fault] = {
    "one turn of the micrometer": one_turn,
    "slipped decimal": slipped_decimal,
    "one reading in the other unit": unit_of_one_reading,
    "a size in the other unit": unit_of_a_size,
    "thousandths typed": thousandths,
    "a call in the other units": call_without_units,
    "half or double": half_of_one,
    "sign of one deck": sign_of_one_deck,
    "sign of all decks": sign_of_all_decks,
    "sign of all crowns": sign_of_all_crowns,
    "gasket bore typed as bore": gasket_bore_of_cylinder,
    "bore's cell as gasket bore": gasket_of_cylinder_cell,
    "hot for cold": hot_for_cold,
    "free gasket for compressed": free_gasket,
    "rocked reading as clearance": rocked_for_clearance,
    "hot lash for cold": hot_lash_for_cold,
    "dry torque with lubricant": dry_torque,
    "cam degrees for crank": cam_degrees,
    "per side for total": per_side_for_total,
    "missing cylinder": missing_cylinder,
    "range cut short": range_cut_short,
    "typed over a formula": typed_over,
    "rounded by formula": rounded_formula,
    "rounded readings": rounded_readings,
    "stated size wrong": stated_size_wrong,
    "stroke of another engine": stroke_wrong,
    "reading differs on two sheets": digits_swapped_on_copy,
    "job number left": job_number_left,
    "reading missing": reading_missing,
    "signature missing": signature_missing,
    "shells of another size": shells_of_another_size,
    "pistons of another size": oversize_pistons_missing,
}
