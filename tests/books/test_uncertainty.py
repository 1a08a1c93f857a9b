"""The uncertainty of results by the shop's gauges, and what a verdict then cannot tell.

The rules are those of the GUM (JCGM 100:2008); its example H.1, the end gauge, is worked through
by the same two functions. Inputs of H.1 as the page "Gauge block measurement (GUM H1)" of the
documentation of the GUM tree calculator has them; its results, 50.000 838 mm and a combined
standard uncertainty of 32 nm, from memory.
"""

import math
from dataclasses import replace

import pytest
from sample import CROWN, RATIO, call

from workbook_tools.catalog import calculate, find
from workbook_tools.findings import check
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.read import read_book
from workbook_tools.jobs.records import Argument
from workbook_tools.jobs.sensitivity import sensitivities, slopes
from workbook_tools.jobs.uncertainty import key_of, root_sum_square, uncertainties
from workbook_tools.quantities import LENGTH
from workbook_tools.settings.gauges import gauge_of
from workbook_tools.settings.shop import ShopError, read_shop, write_shop
from workbook_tools.summary.summary import summarize

BORES = gauge_of("Bore gauge", {"measures": ["bore"], "uncertainty": "0.0002 in"})
PISTONS = gauge_of("Micrometer", {"measures": ["piston diameter"], "uncertainty": "0.0001 in"})


def test_the_end_gauge_of_the_gum():
    values = {"standard": 50.000623, "difference": 215e-6, "alpha": 11.5e-6,
              "alpha apart": 0.0, "theta": -0.1, "theta apart": 0.0}  # fmt: skip

    def length(v):
        apart = v["alpha apart"] * v["theta"] + v["alpha"] * v["theta apart"]
        return v["standard"] + v["difference"] - v["standard"] * apart

    standard = {
        "standard": 25e-6,
        "difference": math.sqrt(5.8**2 + 3.9**2 + 6.7**2) * 1e-6,
        "alpha": 2e-6 / math.sqrt(3),
        "alpha apart": 1e-6 / math.sqrt(3),
        # The mean's, and the swing of the bench, which is an arcsine of 0.5 degrees.
        "theta": math.hypot(0.2, 0.5 / math.sqrt(2)),
        "theta apart": 0.05 / math.sqrt(3),
    }
    found = slopes(length, values)
    assert length(values) == pytest.approx(50.000838, abs=5e-7)
    contributions = [slope * standard[name] for name, slope in found.items()]
    assert round(root_sum_square(contributions) * 1e6) == 32


FIT = [
    ["Bore (in)", 4.0001],
    ["Piston diameter (in)", 3.9959],
    ["Piston clearance (in)", "=ENG.PISTON_CLEARANCE(B1,B2)"],
    ["Least", 0.0040],
    ["Most", 0.0060],
    ["Verdict", "=ENG.VERDICT(B3,B4,B5)"],
]


def cannot_tell(make_book, rows, gauges):
    found = check(read_book(make_book({"S": rows})), gauges=gauges)
    return [f for f in found if f.code == "cannot-tell"]


def test_a_clearance_has_the_uncertainty_of_both_its_sizes(make_book):
    found = uncertainties(read_book(make_book({"S": FIT})), [BORES, PISTONS])
    # By hand: U/2 of each, and a twelfth of the square of the step of 0.0001 in.
    step = 0.0001 / math.sqrt(12)
    by_hand = 2 * math.sqrt(0.0001**2 + 0.00005**2 + 2 * step**2)
    assert found[Place("S", "B3")].bare == pytest.approx(by_hand, rel=1e-6)
    assert found[Place("S", "B3")].unit == "in"


def test_a_limit_within_the_uncertainty_cannot_be_told_by(make_book):
    # 0.0042 in: 0.0002 above the least.
    (told,) = cannot_tell(make_book, FIT, [BORES, PISTONS])
    assert told.place == Place("S", "B3")
    assert "ok by simple acceptance" in told.message
    assert "lower limit lies within the expanded uncertainty of 0.00024 in (k = 2)" in told.message
    assert not cannot_tell(make_book, [["Bore (in)", 4.0009], *FIT[1:]], [BORES, PISTONS])


@pytest.mark.parametrize("gauges", [[], [BORES], [PISTONS]])
def test_without_the_gauge_of_every_size_no_uncertainty_is_told(make_book, gauges):
    assert not cannot_tell(make_book, FIT, gauges)
    book = read_book(make_book({"S": FIT}))
    assert Place("S", "B3") not in uncertainties(book, gauges)


def test_the_data_tells_the_step_of_each_line_and_the_uncertainty(make_book):
    rows = [*FIT, ["Deck clearance (mm)", 0.15]]
    book = read_book(make_book({"S": rows}))
    data = summarize(book, (), gauges=[BORES, PISTONS]).data
    bore, piston, deck = (
        next(r for r in data["readings"] if r["cell"] == at) for at in ("B1", "B2", "B7")
    )
    assert (bore["resolution"], piston["resolution"]) == (0.0001, 0.0001)
    # A length of a few hundredths is read to a hundredth of a millimeter at least.
    assert deck["resolution"] == 0.01
    step = 0.0001 / math.sqrt(12)
    assert bore["uncertainty"] == pytest.approx(2 * math.hypot(0.0001, step), rel=1e-5)
    assert deck["uncertainty"] is None
    clearance = next(r for r in data["results"] if r["cell"] == "B3")
    by_hand = math.hypot(bore["uncertainty"], piston["uncertainty"])
    assert clearance["uncertainty"] == pytest.approx(by_hand, rel=1e-5)
    without = summarize(book, ()).data
    assert all(r["uncertainty"] is None for r in (*without["readings"], *without["results"]))


def test_a_bore_that_comes_into_two_volumes_counts_once_with_both(make_book):
    """The ratio's slope by the bore is that of the two volumes together: by the chain rule."""
    book = read_book(make_book({"S": [*RATIO, CROWN]}))
    ratio = next(r for r in book.records if r.measurand == "compression_ratio")
    bore, stroke, deck = (x * 0.0254 for x in (4.0, 3.5, 0.005))
    swept = math.pi / 4 * bore**2 * stroke
    gasket = math.pi / 4 * (4.1 * 0.0254) ** 2 * 0.04 * 0.0254
    clearance = 69e-6 + gasket + math.pi / 4 * bore**2 * deck
    by_bore = (
        math.pi / 2 * bore * stroke / clearance - swept / clearance**2 * math.pi / 2 * bore * deck
    )
    assert sensitivities(ratio, {})["S!B3"] == pytest.approx(by_bore, rel=1e-6)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('measures = ["bore"], uncertainty = "0.0002"', "with its unit"),
        ('measures = ["bore"], uncertainty = "2 g"', "a bore is no mass"),
        ('measures = ["boar"], uncertainty = "0.0002 in"', "boar: no such size"),
        ('measures = [], uncertainty = "0.0002 in"', "a list of what it measures"),
        ('uncertainty = "0.0002 in"', "expected measures and uncertainty"),
    ],
)
def test_a_gauge_that_cannot_be_read_is_refused(tmp_path, line, words):
    path = tmp_path / "shop.toml"
    path.write_text(f'gauges."Bore gauge" = {{ {line} }}\n', "utf-8")
    with pytest.raises(ShopError, match=words):
        read_shop(path)


def test_the_examples_of_the_starting_file_are_gauges(tmp_path):
    path = write_shop(tmp_path)
    lines = [x.removeprefix("# ") for x in path.read_text("utf-8").splitlines() if "gauges." in x]
    path.write_text("\n".join(lines), "utf-8")
    assert [g.name for g in read_shop(path).gauges] == ["Bore gauge", "Micrometers"]


OF_TWO = [
    ["Cyl", "1", "2"],
    ["Bore (in)", 4.0001, 4.0013],
    ["Piston diameter (in)", 3.9959, 3.9960],
    ["Stroke (in)", 3.5],
    ["Piston clearance min (in)", 0.0040],
    ["Piston clearance max (in)", 0.0060],
    ["Number of cylinders", 2],
]
STROKES = gauge_of("Bench", {"measures": ["stroke"], "uncertainty": "0.001 in"})


def derived(book, gauges):
    data = summarize(book, (), gauges=gauges).data
    return {(r["measurand"], r["part"]["number"]): r for r in data["results"]}


def test_what_the_batch_derives_has_the_uncertainty_of_all_that_it_comes_from(make_book):
    found = derived(read_book(make_book({"S": OF_TWO})), [BORES, PISTONS, STROKES])
    step = 0.0001 / math.sqrt(12)
    u_bore, u_piston = (math.hypot(half, step) for half in (0.0001, 0.00005))
    clearance = found["piston_clearance", 2]
    assert clearance["state"] == "computed"
    assert clearance["uncertainty"] == pytest.approx(2 * math.hypot(u_bore, u_piston), rel=1e-5)
    # By hand: V = pi / 4 (b1^2 + b2^2) s; one stroke alone is read to its gauge, not to 0.5 in.
    u_stroke = math.hypot(0.0005, 0.001 / math.sqrt(12))
    # Both bores by one gauge move together (GUM 5.2.2, note 1).
    by_bores = math.pi / 2 * 3.5 * u_bore * (4.0001 + 4.0013)
    by_stroke = math.pi / 4 * (4.0001**2 + 4.0013**2) * u_stroke
    volume = found["displacement", None]
    assert volume["uncertainty"] == pytest.approx(2 * math.hypot(by_bores, by_stroke), rel=1e-5)
    without = derived(read_book(make_book({"S": OF_TWO})), [BORES, PISTONS])
    assert without["displacement", None]["uncertainty"] is None


def test_a_derived_ratio_has_the_uncertainty_that_its_formula_has(make_book):
    """By the partial derivatives, which `tests/published` compares with those of SymPy."""
    us = {"bore": "0.0002 in", "stroke": "0.001 in", "chamber volume": "0.4 cc",
          "gasket bore": "0.002 in", "gasket thickness": "0.0005 in", "deck clearance": "0.0006 in",
          "dish volume": "0.3 cc"}  # fmt: skip
    gauges = [gauge_of(what, {"measures": [what], "uncertainty": u}) for what, u in us.items()]
    book = read_book(make_book({"S": [*RATIO, CROWN]}))
    known = uncertainties(book, gauges)
    ratio = next(r for r in book.records if r.measurand == "compression_ratio")
    assert ratio.computed_by_batch
    cells = ["B3", "B6", "B5", "B7", "B8", "B4", "B9"]
    sizes = [r.value for at in cells for r in book.readings if r.place == Place("S", at)]
    halves = [known[Place("S", at)].bare / 2 for at in cells]
    expected = calculate(find("RATIO_UNCERTAINTY"), [*sizes, *halves]).value
    assert known[key_of(ratio)].bare == pytest.approx(2 * expected, rel=1e-5)


def test_a_cell_that_comes_into_a_mean_and_stands_alone_counts_once(make_book):
    """(b1 + b2) / 2 - b1 is (b2 - b1) / 2, which moves by half with each."""
    book = read_book(make_book({"S": [["Bore", 4.0001], ["Bore of the sleeve", 4.0003]]}))
    first, second = (Place("S", at) for at in ("B1", "B2"))
    mean = Argument("bore", "AVERAGE(B1:B2)", 4.0002, "in", None, None,
                    parts=((first, 0.5), (second, 0.5)))  # fmt: skip
    alone = Argument("piston_diameter", "B1", 4.0001, "in", first, None)
    made = call("", "", "PISTON_CLEARANCE", 4.0002, 4.0001, computed_by_batch=True)
    made = made._replace(arguments=(mean, alone), measurand="piston_clearance")
    bores = tuple(
        r._replace(measurand="bore", kind=LENGTH, unit="in", state="read") for r in book.readings
    )
    known = uncertainties(replace(book, records=(made,), readings=bores), [BORES])
    one = known[first].bare
    assert known[key_of(made)].bare == pytest.approx(one / math.sqrt(2), rel=1e-6)


def test_a_guarded_call_and_the_mean_behind_it_carry_the_uncertainty(make_book):
    """As build books have it; three readings by one gauge are no better than the gauge."""
    rows = [
        ["Bore (in)", 4.0001, 4.0003, 4.0002],
        ["Mean bore (in)", '=IF(COUNTBLANK(B1:D1)=0,ENG.MEAN_READING(B1:D1,3),"")'],
        ["Piston diameter (in)", 3.9959],
        ["Bore taken (in)", '=IF($B$2="","",$B$2)'],
        ["Piston clearance (in)", '=IF(COUNTBLANK(B3)=0,ENG.PISTON_CLEARANCE(B4,B3),"")'],
    ]
    book = read_book(make_book({"S": rows}))
    known = uncertainties(book, [BORES, PISTONS])
    bore, piston = known[Place("S", "B1")].bare, known[Place("S", "B3")].bare
    assert known[Place("S", "B2")].bare == pytest.approx(bore, rel=1e-6)
    assert known[Place("S", "B5")].bare == pytest.approx(math.hypot(bore, piston), rel=1e-6)
    (result,) = (r for r in summarize(book, ()).data["results"] if r["cell"] == "B5")
    assert result["unit"] == "in"
    assert result["si"] == pytest.approx(result["value"] * 0.0254)


def test_a_limit_that_a_derived_number_cannot_be_told_by(make_book):
    gauges = [BORES, PISTONS]
    book = read_book(make_book({"S": OF_TWO}))
    (told,) = (f for f in check(book, gauges=gauges) if f.code == "cannot-tell")
    assert told.message.startswith("Piston clearance, Cyl 1, worked out from B2 and others, is")
    assert "lower limit lies within the expanded uncertainty of 0.00024 in (k = 2)" in told.message
    summary = summarize(book, (), gauges=gauges)
    (fact,) = (f for f in summary.facts if f.name == "Piston clearance")
    assert fact.verdict == "within; cannot tell, 1 of 2"
    assert fact.row.verdict == "1 of 2 ok; cannot tell: Cyl 1"
    assert fact.row.uncertainty == "U = 0.00024 in (k = 2)"
    assert not any(f.code == "cannot-tell" for f in check(book))


def test_a_taper_is_not_held_to_its_least_of_zero_and_several_are_told_as_one(make_book):
    rows = [
        ["Cyl", 1, 2, 3],
        ["Bore (in)", 4.0001, 4.0001, 4.0001],
        ["Piston diameter (in)", 3.9959, 3.9959, 3.9959],
        ["Piston clearance (in)", *(f"=ENG.PISTON_CLEARANCE({c}2,{c}3)" for c in "BCD")],
        ["Verdict", *(f"=ENG.VERDICT({c}4,0,0.0043)" for c in "BCD")],
    ]
    (told,) = cannot_tell(make_book, rows, [BORES, PISTONS])
    assert "Cyl 1 (and 2 more like it) is 0.0042 in" in told.message
    assert "Its upper limit" in told.message
    rows[4] = ["Verdict", *(f"=ENG.VERDICT({c}4,0,0.01)" for c in "BCD")]
    rows[2] = ["Piston diameter (in)", 3.9999, 3.9999, 3.9999]
    assert not cannot_tell(make_book, rows, [BORES, PISTONS])


def test_a_typed_number_beside_its_own_limit_cannot_be_told_either(make_book):
    rows = [["Bore (in)", 4.0001], ["Bore max (in)", 4.0002]]
    assert [f.place.address for f in cannot_tell(make_book, rows, [BORES])] == ["B1"]
    over = [["Bore (in)", 4.0003], ["Bore max (in)", 4.0002]]
    (told,) = check(read_book(make_book({"S": over})), gauges=[BORES])
    assert told.code == "out-of-band"
    assert told.message.endswith("upper limit lies within the expanded uncertainty of 0.00021 in "
                                 "(k = 2): cannot tell.")  # fmt: skip
