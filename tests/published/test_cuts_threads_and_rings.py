"""Intake faces after milling, chain slack, engaged thread, ring tension: geometry another way."""

import math

import numpy as np
import pytest
from scipy import integrate, optimize
from sources import from_memory, independent, practice

from workbook_tools.catalog import ArgumentError


@pytest.mark.parametrize(("v_angle", "face_angle"), [(90, 80), (60, 75), (90, 90), (72, 68)])
def test_intake_faces_as_two_vectors(agree, eng, v_angle, face_angle):
    # The head comes nearer along its cylinders by the cut, the manifold falls straight down by
    # `drop`; face of head and manifold then overlap by `cut`. Seen along the face nothing may move.
    half, gamma = math.radians(v_angle / 2), math.radians(face_angle - v_angle / 2)
    head = -0.01 * np.array([math.sin(half), math.cos(half)])
    along = np.array([math.cos(gamma), math.sin(gamma)])
    normal = np.array([-math.sin(gamma), math.cos(gamma)])
    # drop * (down . along) = head . along; cut = head . normal - drop * (down . normal)
    down = np.array([0.0, -1.0])
    matrix = np.array([[down @ along, 0.0], [down @ normal, 1.0]])
    drop, cut = np.linalg.solve(matrix, [head @ along, head @ normal])
    source = independent("movements of head and manifold", np.linalg.solve)
    arguments = (0.01, v_angle, face_angle)
    agree("INTAKE_FACE_CUT", source, float(cut), eng("INTAKE_FACE_CUT", *arguments))
    agree("INTAKE_FLOOR_CUT", source, float(drop), eng("INTAKE_FLOOR_CUT", *arguments))


def test_intake_faces_as_the_trade_has_it(agree, eng):
    source = practice("1.23 and 1.71 times the cut for a V8 of 90 degrees", memory=True)
    agree("INTAKE_FACE_CUT", source, 1.23, eng("INTAKE_FACE_CUT", 0.01, 90, 80) / 0.01, rel=5e-3)
    agree("INTAKE_FLOOR_CUT", source, 1.71, eng("INTAKE_FLOOR_CUT", 0.01, 90, 80) / 0.01, rel=5e-3)


def test_a_chain_pressed_in(agree, eng):
    # The slack strand as 10 links that lean as they like between centers that are nearer, while
    # the other strand is straight: the farthest that its middle pin can be from the line.
    before, loss = 5.2, 0.005
    near = before - loss
    link = (2 * before - near) / 10
    ends = {"type": "eq", "fun": lambda a: [link * np.cos(a).sum() - near, np.sin(a).sum()]}
    found = optimize.minimize(
        lambda a: -link * np.sin(a[:5]).sum(),
        np.linspace(0.1, -0.1, 10),
        constraints=ends,
        options={"ftol": 1e-12},
    )
    source = independent("pins of a chain pulled aside", optimize.minimize)
    assert found.success
    agree("CHAIN_DEFLECTION", source, -found.fun, eng("CHAIN_DEFLECTION", before, loss), rel=1e-6)


# Tensile stress area, pitch, least pitch diameter, largest minor diameter of the nut.
HALF_INCH = (0.1419, 1 / 13, 0.4435, 0.434)
QUARTER_INCH = (0.0318, 1 / 20, 0.2127, 0.207)


def width_at(diameter, pitch_diameter, pitch):
    """Width of a 60 degree thread at a diameter, from its outline at 200 001 places of a pitch.

    The pitch diameter is where thread and groove are equally wide.
    """
    along = np.linspace(-pitch / 2, pitch / 2, 200_001)
    outline = pitch_diameter + 2 * (pitch / 4 - abs(along)) / math.tan(math.radians(30))
    return float(np.mean(outline > diameter)) * pitch


OUTLINE = independent("outline of the thread, sampled", np.mean)


@pytest.mark.parametrize("thread", [HALF_INCH, QUARTER_INCH])
def test_a_thread_that_holds_twice_its_bolt(agree, eng, thread):
    # Sheared where the nut's crests meet the bolt's thread: twice the area that is pulled.
    area, pitch, middle, crest = thread
    sheared_a_pitch = math.pi * crest * width_at(crest, middle, pitch)
    expected = 2 * area / sheared_a_pitch * pitch
    agree("THREAD_ENGAGEMENT", OUTLINE, expected, eng("THREAD_ENGAGEMENT", *thread), rel=1e-4)


@pytest.mark.parametrize(("thread", "length"), [(HALF_INCH, 0.3643), (QUARTER_INCH, 0.1728)])
def test_classes_2a_and_2b(agree, eng, thread, length):
    source = from_memory("Machinery's Handbook, limits of 1/2-13 and 1/4-20 UNC 2A and 2B")
    agree("THREAD_ENGAGEMENT", source, length, eng("THREAD_ENGAGEMENT", *thread), rel=1e-3)


def test_a_soft_hole_takes_more_thread_and_a_hard_one_no_less(agree, eng):
    alone = eng("THREAD_ENGAGEMENT", *HALF_INCH)
    thread = (alone, *HALF_INCH[1:], 0.4876, 0.4565)
    soft = eng("ENGAGEMENT_IN_WEAKER_HOLE", *thread, 190_000, 45_000)
    # The hole's thread shears where the bolt's crests meet it: all but the groove of its outline.
    width = 1 / 13 - width_at(0.4876, 0.4565, 1 / 13)
    hole = math.pi * 0.4876 * 13 * width * 45_000
    agree("ENGAGEMENT_IN_WEAKER_HOLE", OUTLINE, 2 * 0.1419 * 190_000 / hole, soft, rel=1e-4)
    assert eng("ENGAGEMENT_IN_WEAKER_HOLE", *thread, 190_000, 250_000) == alone


def test_half_a_ring_held_by_the_pressure_around_it(agree, eng):
    # Even pressure around half a ring, summed up, against the tension of its two ends.
    bore, width, pressure = 104.4, 1.2, 0.2
    pull = integrate.quad(lambda t: pressure * width * bore / 2 * math.sin(t), 0, math.pi)[0]
    source = independent("pressure summed around half a ring", integrate.quad)
    got = eng("RING_WALL_PRESSURE", pull / 2, bore, width, "metric")
    agree("RING_WALL_PRESSURE", source, pressure, got)


@pytest.mark.parametrize(
    ("name", "arguments", "parameter"),
    [
        ("INTAKE_FACE_CUT", (0.01, 90, 40), "face_angle"),
        ("INTAKE_FLOOR_CUT", (0.01, 90, 40), "face_angle"),
        ("INTAKE_FACE_CUT", (10, 90, 80), "deck_cut"),
        ("CHAIN_DEFLECTION", (5.2, 0.6), "center_loss"),
        ("THREAD_ENGAGEMENT", (0.1419, 0.0769, 0.4435, 0.46), "hole_minor_diameter"),
        (
            "ENGAGEMENT_IN_WEAKER_HOLE",
            (0.36, 0.0769, 0.4435, 0.434, 0.4876, 0.4565, 190, 45),
            "bolt_strength",
        ),
    ],
)
def test_what_is_refused(eng, name, arguments, parameter):
    with pytest.raises(ArgumentError) as refused:
        eng(name, *arguments)
    assert refused.value.parameter == parameter
