"""Engines drawn at random, every size one that such an engine can have."""

from __future__ import annotations

import math
import random
from dataclasses import dataclass, field


@dataclass
class Engine:
    """The readings of one engine, in the units of its book."""

    system: str
    cylinders: int
    mains: int
    one: dict[str, float] = field(default_factory=dict)
    rows: dict[str, list[float]] = field(default_factory=dict)


def on_grid(value, step):
    return round(round(value / step) * step, 6)


def draw_engine(rng: random.Random) -> Engine:
    """An engine as a shop might build it: sizes usual together, readings that scatter."""
    metric = rng.random() < 0.45
    cylinders = rng.choice([1, 2, 3, 4, 4, 4, 5, 6, 6, 8, 8, 8])
    engine = Engine(
        "metric" if metric else "inch",
        cylinders,
        rng.choice([3, 5, 5, 7]) if cylinders > 3 else cylinders + 1,
    )
    mm = 25.4 if metric else 1.0
    fine = 0.001 if metric else 0.0001
    coarse = 0.01 if metric else 0.0005
    bore, taper = rng.uniform(2.9, 4.5), 0.0002
    stroke = bore * rng.uniform(0.72, 1.18)
    rod, height = stroke * rng.uniform(1.55, 2.0), rng.uniform(1.1, 1.9)
    deck, tilt = rng.choice([-0.003, 0.0, 0.006, 0.010, 0.018]), rng.uniform(0, 0.002)
    thickness = rng.choice([0.028, 0.036, 0.039, 0.041, 0.047, 0.051])
    gasket_bore = bore + rng.uniform(0.035, 0.13)
    crown = rng.choice([4.2, 5.0, 12.0, 18.0, -5.5, -8.0])

    def size(v):
        return on_grid(v * mm, fine)

    one = engine.one
    one["stroke"] = on_grid(stroke * mm, 0.1 if metric else 0.001)
    one["rod"] = on_grid(rod * mm, 0.1 if metric else 0.001)
    one["height"] = on_grid(height * mm, 0.05 if metric else 0.001)
    stack = one["stroke"] / 2 + one["rod"] + one["height"]
    one["deck height"] = on_grid(stack + deck * mm + rng.gauss(0, 0.001) * mm, coarse)
    one["gasket"] = on_grid(thickness * mm, 0.01 if metric else 0.001)
    one["gasket bore"] = on_grid(gasket_bore * mm, 0.1 if metric else 0.005)
    one["cylinders"] = cylinders
    one["factor"] = rng.choice([0.0045, 0.005, 0.0055])
    swept = 3.14159265 / 4 * bore**2 * stroke * 16.387
    ratio = rng.uniform(8.3, 11.6)
    gasket_cc = 3.14159265 / 4 * gasket_bore**2 * thickness * 16.387
    chamber = max(
        9.0, swept / (ratio - 1) - gasket_cc - crown - 3.14159265 / 4 * bore**2 * deck * 16.387
    )
    unit = 1.0 if metric else 1 / 16.387
    one["stated"] = on_grid(swept * cylinders * unit * rng.uniform(0.996, 1.004), 1.0)
    rows = engine.rows

    def draw(name, count, center, scatter, step, scale=mm):
        rows[name] = [on_grid(rng.gauss(center, scatter) * scale, step) for _ in range(count)]

    draw("bore", cylinders, bore, taper, fine)
    clearance = bore * rng.uniform(0.0005, 0.0016)
    draw("skirt", cylinders, bore - clearance, 0.00015, fine)
    rows["deck"] = [
        on_grid(
            (deck + tilt * (k / max(1, cylinders - 1) - 0.5) + rng.gauss(0, 0.0006)) * mm, coarse
        )
        for k in range(cylinders)
    ]
    draw("chamber", cylinders, chamber, 0.25, 0.1, 1.0)
    draw("crown", cylinders, crown, 0.08, 0.1, 1.0)
    gap = bore * rng.uniform(0.0045, 0.0065)
    draw("top gap", cylinders, gap, 0.0005, coarse)
    draw("second gap", cylinders, gap * rng.uniform(1.05, 1.25), 0.0006, coarse)
    for name, count, diameter in (
        ("main", engine.mains, rng.uniform(2.0, 2.9)), ("pin", cylinders, rng.uniform(1.7, 2.3)),
    ):  # fmt: skip
        wall = rng.choice([0.059, 0.0755, 0.0945])
        oil = diameter * rng.uniform(0.0008, 0.0013)
        draw(f"{name} journal", count, diameter, 0.00015, fine)
        draw(f"{name} housing", count, diameter + 2 * wall + oil, 0.00015, fine)
        rows[f"{name} wall"] = [on_grid(wall * mm, fine)] * count
    return engine


def ratio_of(engine: Engine, n: int, turned: bool = False) -> float:
    """The compression ratio of a cylinder, with the sign of its crown turned if wanted."""
    unit = 0.001 if engine.system == "metric" else 16.387064
    one, rows = engine.one, engine.rows
    area = math.pi / 4 * rows["bore"][n] ** 2 * unit
    gasket = math.pi / 4 * one["gasket bore"] ** 2 * one["gasket"] * unit
    crown = rows["crown"][n] * (-1 if turned else 1)
    left = rows["chamber"][n] + gasket + area * rows["deck"][n] + crown
    return area * one["stroke"] / left + 1
