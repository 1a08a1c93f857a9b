"""What a label says of a number against what a call takes it for, with a right book beside it.

That rocked readings are about double, that lash moves as an engine warms up, and that a
lubricant changes the tension are common practice, no source; nut factors with and without
paste are those of Shigley, Mechanical Engineering Design, Table 8-15.
"""

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book


@pytest.fixture
def findings(make_book):
    """What is found in sheets of rows by address, without what was never calculated."""

    def of(rows):
        book = read_book(make_book({"S": rows}))
        return {f.place.address: (f.kind, f.message) for f in check(book) if f.place is not None}

    return of


def one(found):
    """The only finding: (address, sentence), of the kind that two cells disagree."""
    ((address, (kind, message)),) = found.items()
    assert kind == "disagreement"
    return address, message


# -- gasket thickness


def gasket(label, call):
    return [["Deck clearance (in)", 0.010], [f"{label} (in)", 0.051],
            ["Compressed thickness (in)", 0.040], ["Result", call]]  # fmt: skip


@pytest.mark.parametrize(
    "label", ["Gasket thickness, free", "Uncompressed thickness", "Gasket thickness before torque",
              "Gasket, not compressed"],
)  # fmt: skip
@pytest.mark.parametrize("call", ["=ENG.QUENCH(B1,B2)", "=ENG.GASKET_VOLUME(4.1,B2)"])
def test_a_free_gasket_where_the_compressed_one_belongs(findings, label, call):
    address, message = one(findings(gasket(label, call)))
    assert address == "B2"
    assert "0.051 in, is uncompressed, but ENG." in message
    assert "takes its gasket thickness compressed. Quench and gasket volume come out" in message
    assert "Compressed thickness (B3) is 0.04 in." in message


@pytest.mark.parametrize(
    "label", ["Gasket thickness", "Gasket thickness, compressed", "Free choice, compressed gasket"]
)
def test_a_gasket_that_says_compressed_or_nothing_is_taken_as_it_is(findings, label):
    assert findings(gasket(label, "=ENG.QUENCH(B1,B2)")) == {}


# -- guides


def guides(judged):
    return [["Guide clearance, least (in)", 0.0010], ["Guide clearance, most (in)", 0.0045], [],
            ["Valve", "Guide wobble (in)", "Guide clearance (in)", "Judged"],
            [1, 0.0030, "=B5/2", f"=ENG.VERDICT({judged}5,B1,B2)"],
            [2, 0.0034, "=B6/2", f"=ENG.VERDICT({judged}6,B1,B2)"]]  # fmt: skip


def test_rocked_guides_judged_as_clearances(findings):
    address, message = one(findings(guides("B")))
    assert address == "B5"
    assert "(and 1 more like it), is a rocked (wobble) reading" in message
    assert "judges it by a limit for a clearance, Guide clearance, least (B1)" in message
    assert findings(guides("C")) == {}


def test_a_limit_for_rocked_readings_may_judge_them(findings):
    rows = guides("B")
    rows[0][0], rows[1][0] = "Guide wobble, least (in)", "Guide wobble, most (in)"
    assert findings(rows) == {}


def test_a_rocked_reading_as_the_clearance_of_a_call(findings):
    rows = [["Wobble at the journal (in)", 0.0040],
            ["Film (in)", "=ENG.FILM_THICKNESS(500,2.1,1,B1,10,3000)"]]  # fmt: skip
    assert "takes it for a clearance" in findings(rows)["B1"][1]
    rows[0][0] = "Wobble at the journal, halved (in)"
    assert "B1" not in findings(rows)


def test_a_piston_rocked_for_its_deck_is_common_practice(findings):
    rows = [["Deck clearance, piston rocked both ways (in)", 0.006], ["Deck, least (in)", 0.0],
            ["Deck clearance, most (in)", 0.010], ["", "=ENG.VERDICT(B1,B2,B3)"]]  # fmt: skip
    assert findings(rows) == {}


# -- lash


def lash(set_label, value, wanted="Intake lash wanted, hot"):
    return [[f"{wanted} (in)", 0.016], [f"{set_label} (in)", value], ["Lobe lift (in)", 0.320],
            ["Lift (in)", "=ENG.VALVE_LIFT(B3,1.5,B2)"]]  # fmt: skip


def test_a_hot_figure_set_cold(findings):
    address, message = one(findings(lash("Intake lash, cold", 0.016)))
    assert address == "B2"
    assert "is 0.016 in, taken cold: the very figure that is wanted hot" in message
    assert "Intake lash wanted, hot (B1)" in message


@pytest.mark.parametrize(
    ("label", "value", "wanted"),
    [
        ("Intake lash, hot", 0.016, "Intake lash wanted, hot"),
        ("Intake lash, cold", 0.010, "Intake lash wanted, hot"),  # Worked out.
        ("Exhaust lash, cold", 0.016, "Intake lash wanted, hot"),  # The other valve's.
        ("Intake lash", 0.016, "Intake lash wanted, hot"),  # Does not say.
        ("Intake lash, cold", 0.016, "Intake lash wanted"),
    ],
)
def test_lash_that_agrees_or_does_not_say_is_not_doubted(findings, label, value, wanted):
    assert findings(lash(label, value, wanted)) == {}


def test_a_book_that_says_once_how_lash_is_set(findings):
    rows = [["Lash", "cold"], *lash("Intake lash", 0.016)]
    rows[4][1] = "=ENG.VALVE_LIFT(B4,1.5,B3)"
    assert "taken cold" in findings(rows)["B3"][1]


def test_a_remark_above_a_number_is_not_its_label(findings):
    rows = [["Lash", "cold"], ["Intake lash", "a card's lash is usually meant hot"], [0.016, 0.016],
            ["Lift (in)", "=ENG.VALVE_LIFT(0.32,1.5,A3)"]]  # fmt: skip
    assert findings(rows) == {}


def test_a_cold_lift_with_the_lash_of_a_hot_engine(findings):
    rows = lash("Intake lash, hot", 0.016)
    rows[3][0] = "Valve lift, cold (in)"
    address, message = one(findings(rows))
    assert address == "B2"
    assert "is a hot size, but ENG.VALVE_LIFT in B4 takes its lash cold" in message
    rows[3][0] = "Valve lift, hot (in)"
    assert findings(rows) == {}


# -- torque


def bolts(head, lubricant, figure=65):
    return [["Stroke (in)", 3.5], ["Speed", "=ENG.MEAN_PISTON_SPEED(B1,6000)"], [],
            ["Fastener", "Lubricant", head, "Done"],
            ["Head bolts", lubricant, figure, "R. V."]]  # fmt: skip


@pytest.mark.parametrize(
    ("head", "lubricant", "figure"),
    [
        ("Torque, dry (ft-lb)", "moly paste", 65),
        ("Torque (ft-lb)", "engine oil", "65 dry"),
        ("Torque, oiled (ft-lb)", "dry", 65),
        ("Torque, oiled (ft-lb)", "moly paste", 65),
    ],
)
def test_a_torque_for_other_threads_in_a_table(findings, head, lubricant, figure):
    address, message = one(findings(bolts(head, lubricant, figure)))
    assert address == "A5"
    assert f"Head bolts (A5) has {head}: {figure}, for" in message
    assert f"the threads have {lubricant}" in message


@pytest.mark.parametrize(
    ("head", "lubricant"),
    [
        ("Torque (ft-lb)", "moly paste"), ("Torque, dry (ft-lb)", "dry"),
        ("Torque, dry (ft-lb)", "no oil"), ("Torque, lubricated (ft-lb)", "moly lube"),
        ("Torque, oiled (ft-lb)", "oil"), ("Torque, dry (ft-lb)", None),
    ],
)  # fmt: skip
def test_a_torque_for_the_threads_that_are_there(findings, head, lubricant):
    assert findings(bolts(head, lubricant)) == {}


def preload(torque, factor, value=0.12):
    return [[f"{torque} (ft-lb)", 45], [factor, value], ["Thread (in)", 0.4375],
            ["Preload", "=ENG.PRELOAD_FROM_TORQUE(B1,B3,B2)"]]  # fmt: skip


def test_a_dry_torque_with_the_nut_factor_of_a_paste(findings):
    address, message = one(findings(preload("Rod bolts, dry", "Nut factor, moly paste")))
    assert address == "B1"
    assert "is a torque for dry threads" in message
    assert "the nut factor for threads with paste, Nut factor, moly paste (B2)" in message
    assert findings(preload("Rod bolts, with moly", "Nut factor, moly paste")) == {}
    assert findings(preload("Rod bolts", "Nut factor")) == {}


@pytest.mark.parametrize(
    ("factor", "value", "words"),
    [
        ("Nut factor, dry", 0.12, "0.13 and less is for threads with a paste"),
        ("Nut factor, moly paste", 0.20, "0.19 and more is for threads without a paste"),
        ("Nut factor, oiled", 0.15, ""),
        ("Nut factor, dry", 0.20, ""),
    ],
)
def test_a_nut_factor_that_its_own_words_do_not_fit(findings, factor, value, words):
    found = findings(preload("Rod bolts", factor, value))
    assert (words in found["B2"][1]) if words else found == {}


# -- degrees of the cam and of the crank


def closing(label, unit):
    return [["Stroke (in)", 3.48], ["Rod (in)", 5.7], [f"{label} ({unit})", 29],
            ["Stroke left (in)", "=ENG.EFFECTIVE_STROKE(B1,B2,B3)"]]  # fmt: skip


@pytest.mark.parametrize(
    ("label", "unit"),
    [("Intake closes", "cam deg"), ("Intake closes", "deg cam"),
     ("Intake closes, cam degrees", "deg")],
)  # fmt: skip
def test_cam_degrees_where_crank_degrees_belong(findings, label, unit):
    address, message = one(findings(closing(label, unit)))
    assert address == "B3"
    assert "is in cam degrees, but ENG.EFFECTIVE_STROKE in B4" in message
    assert "takes its intake closing in crank degrees. One cam degree is two" in message


@pytest.mark.parametrize(
    ("label", "unit"),
    [("Intake closes", "deg"), ("Intake closes, crank deg", "deg"), ("Cam card, closing", "deg"),
     ("Cam degree wheel", "deg")],
)  # fmt: skip
def test_crank_degrees_are_right_whatever_else_the_cam_has_to_do_with_it(findings, label, unit):
    assert findings(closing(label, unit)) == {}


def test_a_lobe_separation_in_crank_degrees(findings):
    rows = [["Lobe separation, crank degrees", 176], ["Intake centerline (deg)", 106],
            ["Advance (deg)", "=ENG.CAM_ADVANCE(B1,B2)"]]  # fmt: skip
    address, message = one(findings(rows))  # And not of the advance of 70 degrees besides.
    assert address == "B1"
    assert "takes its lobe separation in cam degrees" in message
    rows[0][1], rows[2][1] = 220, "=ENG.CAM_ADVANCE(B1/2,B2)"
    assert findings(rows) == {}


# -- per side and over the diameter


def hone(label, value):
    return [["Skirt (in)", 4.0261], [f"{label} (in)", value],
            ["Hone to (in)", "=ENG.HONE_TO_SIZE(B1,B2)"]]  # fmt: skip


@pytest.mark.parametrize("label", ["Clearance wanted, per side", "Fit each side"])
def test_a_clearance_per_side_where_the_total_belongs(findings, label):
    address, message = one(findings(hone(label, 0.002)))
    assert address == "B2"
    assert "0.002 in, is per side, but ENG.HONE_TO_SIZE in B3 takes its clearance over" in message
    assert "out by a factor of two" in message


@pytest.mark.parametrize(
    "label",
    [
        "Clearance wanted",
        "Clearance, total",
        "Clearance, total, not per side",
        "A side",
        "Radial clearance",
    ],
)
def test_a_total_clearance_is_right(findings, label):
    assert findings(hone(label, 0.004)) == {}


def test_a_clearance_judged_by_limits_per_side(findings):
    rows = [["Bore (in)", 4.0301], ["Piston (in)", 4.0261],
            ["Fit (in)", "=ENG.PISTON_CLEARANCE(B1,B2)"], ["Least, per side (in)", 0.0015],
            ["Most, per side (in)", 0.0045], ["Judged", "=ENG.VERDICT(B3,B4,B5)"]]  # fmt: skip
    address, message = one(findings(rows))
    assert address == "B3"
    assert "judges it by a limit that is per side, Least, per side (B4)" in message
    rows[3][0], rows[4][0] = "Least, total (in)", "Most, total (in)"
    assert findings(rows) == {}


def test_a_diameter_where_the_radius_belongs(findings):
    rows = [["Mass (g)", 12.0], ["Drilled on a diameter of (in)", 3.2],
            ["Unbalance", "=ENG.UNBALANCE(B1,B2)"]]  # fmt: skip
    assert "takes its radius per side" in one(findings(rows))[1]
    rows[1][0] = "Drilled on a radius of (in)"
    assert findings(rows) == {}
