"""What a line of numbers measures: by its words, its sizes, and formulas between lines."""

import pytest
from small_sheet import told as told_in_words

from workbook_tools.jobs.read import read_book
from workbook_tools.labels.weights import weights, weights_from


@pytest.fixture
def read(make_book):
    """read(rows) -> {address: Reading}."""

    def readings(rows, title="Sheet"):
        return {r.place.address: r for r in readings.book(rows, title).readings}

    readings.book = lambda rows, title="Sheet": read_book(make_book({title: rows}))
    return readings


def told(readings, *addresses):
    return [(readings[a].measurand, readings[a].state) for a in addresses]


@pytest.mark.parametrize(
    ("cylinder", "bore", "piston", "clearance"),
    [
        ("Cyl", "Bore", "Piston", "Clr"),
        ("Zyl.", "Bohrung", "Kolben", "Spiel"),
        ("Cylindre", "Alésage", "Piston", "Jeu"),
        ("Cilindro", "Diámetro", "Pistón", "Holgura"),
        ("Cilindro", "Canna", "Pistone", "Gioco"),
    ],
)
def test_a_difference_says_what_short_words_leave_open(read, cylinder, bore, piston, clearance):
    rows = [[cylinder, bore, piston, clearance]]
    rows += [[n, 86.010 + n / 1e3, 85.970 + n / 1e3, 0.040] for n in (1, 2, 3, 4)]
    found = read(rows)
    assert told(found, "B2", "C2", "D2") == [
        ("bore", "read"),
        ("piston_diameter", "read"),
        ("piston_clearance", "read"),
    ]
    words = " ".join(e.words for e in found["D2"].evidence)
    assert "bore - piston_diameter in 4 of 4: 35" in words
    assert "words " in words
    assert "sizes 15" in words


def test_a_formula_says_what_a_bare_clearance_is_of(read):
    """Two tables with the same bare words: the sizes that each formula takes tell them apart."""
    rows = [["Cyl", "Bore", "Piston", "Clearance"]]
    rows += [[n, 128.02 + n / 1e3, 127.87 + n / 1e3, f"=B{n + 1}-C{n + 1}"] for n in (1, 2, 3, 4)]
    rows += [[], ["Mains"], ["No.", "Journal", "Bearing", "Clearance"]]
    rows += [[n - 8, 94.97 + n / 1e3, 95.07, f"=(C{n}-B{n})*1"] for n in (9, 10, 11)]
    stated = {s.place.address: s.measurand for s in read.book(rows).stated}
    assert stated["D2"] == "piston_clearance"
    assert {stated[a] for a in ("D9", "D10", "D11")} == {"main_bearing_clearance"}


@pytest.mark.parametrize(
    ("main", "rod", "shell", "clearance"),
    [("Main 1", "Rod 1", "Bearing", "Clearance"), ("Lager 1", "Pleuel 1", "Lagerschale", "Spiel"),
     ("Palier 1", "Bielle 1", "Coussinet", "Jeu"), ("Banco 1", "Biella 1", "Bronzina", "Gioco")],
)  # fmt: skip
def test_an_index_heads_what_stands_below_it_whatever_the_title_says(
    read, main, rod, shell, clearance
):
    """The rods of a table under a title of the crankshaft, with a head that counts them."""
    again = [rod.replace("1", str(n)) for n in (1, 2, 3)]
    rows = [
        ["Vilebrequin"],
        [None, *(main.replace("1", str(n)) for n in (1, 2, 3))],
        [f"{shell} (mm)", 54.783, 54.782, 54.784],
        [None, *again],
        [f"{shell} (mm)", 47.777, 47.778, 47.776],
        [f"{clearance} (mm)", 0.042, 0.044, 0.041],
    ]
    found = read(rows)
    assert {found[a].measurand for a in ("B5", "C5", "D5")} == {"rod_bearing_bore"}
    assert {found[a].measurand for a in ("B6", "C6", "D6")} == {"rod_bearing_clearance"}


def test_without_the_difference_a_short_word_stays_open(read):
    rows = [["Clr"], [0.04], [0.04]]
    assert all(r.state != "read" for r in read(rows).values())


@pytest.mark.parametrize(
    ("sizes", "system", "value"),
    [((4.03, 3.5, 5.7, 0.927), "inch", 4.03), ((86.0, 82.0, 140.0, 22.0), "metric", 86.0)],
)
def test_the_sizes_of_a_whole_book_settle_its_units(read, sizes, system, value):
    labels = ("Bore", "Stroke", "Rod length", "Pin diameter")
    found = read([[label, size] for label, size in zip(labels, sizes, strict=True)])
    assert {(r.system, r.state) for r in found.values()} == {(system, "read")}
    assert found["B1"].value == value


def test_one_size_alone_settles_no_units(read):
    assert read([["Bore", 4.03]])["B1"].state == "asked"


def test_one_reading_in_the_other_unit_does_not_turn_the_book(read):
    rows = [["Bore", 4.03], ["Stroke", 3.5], ["Rod length", 5.7], ["Gasket bore", 4.1],
            ["Deck height", 9.0], ["Compression height", 1.26], ["Pin diameter", 23.5]]  # fmt: skip
    found = read(rows)
    assert found["B1"].system == "inch"
    assert found["B1"].state == "read"


@pytest.mark.parametrize(
    ("word", "sizes"),
    [("Bohrng", (86.01, 86.02, 86.0)), ("Strok", (82.0, 82.0, 82.1))],
)
def test_a_misspelt_word_is_read_where_three_sizes_fit(read, word, sizes):
    line = [["Cyl", 1, 2, 3], [f"{word} (mm)", *sizes]]
    assert {r.state for r in read(line).values() if r.measurand} == {"read"}
    alone = read([[f"{word} (mm)", sizes[0]]])
    assert alone["B1"].state == "asked"


def test_a_size_that_hardly_can_be_is_asked_about_where_the_words_leave_no_doubt(read):
    rows = [["Stroke (in)", 3.5], ["Bore (in)", 40.3]]
    found = read(rows)
    assert (found["B2"].measurand, found["B2"].state) == ("bore", "asked")


@pytest.mark.parametrize(
    ("label", "count"), [("Main bearings", 5), ("Valves of a cylinder", 4), ("Spark plugs", 8)]
)
def test_how_many_there_are_of_a_part_is_no_size_of_it(read, label, count):
    found = read([["Units", "metric"], [label, count]])
    assert "B2" not in found or found["B2"].state != "read"


def test_a_head_about_mains_says_that_a_clearance_is_of_mains(read):
    rows = [["Main bearings"], ["No.", "Clearance (in)"], [1, 0.0021], [2, 0.0022], [3, 0.0023]]
    assert told(read(rows), "B3", "B5") == [("main_bearing_clearance", "read")] * 2


def test_a_bearing_that_nothing_tells_apart_is_asked(read):
    assert read([["Bearing clearance (in)", 0.0021]])["B1"].state == "asked"


def test_the_weights_that_come_with_the_package_are_in_order():
    found = weights()
    assert found.choice.to_ask < found.choice.to_read < found.words.said
    assert found.sizes.impossible < found.sizes.doubtful < 0 < found.sizes.fit
    assert found.relations.of_few < found.relations.of_many


@pytest.mark.parametrize(
    ("change", "expectation"),
    [
        (("said = 60", "said = -60"), r"words\.said: expected one not below zero"),
        (("taken = -35", "taken = 35"), r"relations\.taken: expected one below zero"),
        (("said = 60", 'said = "much"'), r"words\.said: expected a number"),
        (("said = 60", "sayd = 60"), r"weights\.words: expected .*'said', 'sayd'"),
        (("[choice]", "[chance]"), r"expected the parts .*'chance', 'choice'"),
    ],
)
def test_a_weight_that_is_none_is_refused_by_name(change, expectation):
    from workbook_tools.labels import weights as module

    text = module._FILE.read_text("utf-8")
    assert change[0] in text
    with pytest.raises(ValueError, match=expectation):
        weights_from(text.replace(*change, 1))


@pytest.mark.parametrize(("side", "which"), [("INTAKE", "intake"), ("EXHAUST", "exhaust")])
def test_a_bare_clearance_below_a_title_of_one_side_is_a_valves(read, side, which):
    rows = [[side], ["Cyl", "Clearance (mm)", "Shim (mm)"]]
    rows += [[n, 0.20 + n / 100, 2.30 + n / 20] for n in (1, 2, 3, 4)]
    assert told(read(rows), "B3", "C3") == [
        (f"{which}_lash", "read"),
        ("lash_shim_thickness", "read"),
    ]


def test_pins_may_be_crankpins_or_piston_pins_as_their_heading_says(read):
    rows = [["No", "Pins (mm)"], *([n, 47.98 + n / 1e3] for n in (1, 2, 3, 4))]
    assert told(read([["Crankshaft"], *rows]), "B3") == [("rod_journal", "read")]


def test_a_count_with_a_fraction_is_asked_about(tmp_path):
    found = told_in_words(tmp_path, [["Cylinders", 4.02], ["Bore (mm)", 81.01]])
    assert found["B5"].startswith("asked:"), found["B5"]


def test_a_thrust_washer_is_no_bearing_over_both_its_faces(tmp_path):
    rows = [
        ["Thrust washer thickness (mm)", 2.31],
        ["Épaisseur cale de latéral (mm)", 2.36],
        ["Thrust bearing width (in)", 1.12],
    ]
    found = told_in_words(tmp_path, rows)
    assert [found[f"B{row}"] for row in (5, 6, 7)] == [
        "thrust_washer_thickness 2.31 mm",
        "thrust_washer_thickness 2.36 mm",
        "thrust_bearing_width 1.12 in",
    ]
