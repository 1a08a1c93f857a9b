"""The uncertainty of results by the shop's gauges, and what a verdict then cannot tell.

The rules are those of the GUM (JCGM 100:2008); its example H.1, the end gauge, is worked through
by the same two functions. Inputs of H.1 as the page "Gauge block measurement (GUM H1)" of the
documentation of the GUM tree calculator has them; its results, 50.000 838 mm and a combined
standard uncertainty of 32 nm, from memory.
"""

import math

import pytest
from sample import CROWN, RATIO

from workbook_tools.findings import check
from workbook_tools.formulas.references import Place
from workbook_tools.jobs.read import read_book
from workbook_tools.jobs.sensitivity import sensitivities, slopes
from workbook_tools.jobs.uncertainty import combined, uncertainties
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
    assert round(combined(found, standard) * 1e6) == 32


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
