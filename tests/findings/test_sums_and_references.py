"""Formulas of two tables in one column, sums with a gap, and results typed beside remarks.

That shops keep their sheets so is common practice, no source.
"""

from __future__ import annotations

import pytest

from workbook_tools.findings import check
from workbook_tools.jobs.read import read_book


@pytest.fixture
def found(make_book):
    """found(rows, saved) -> {cell: code} of what is told of a book of these rows."""

    def codes(rows, saved):
        book = read_book(make_book({"S": rows}, {"S": saved}))
        return {f.place.address: f.code for f in check(book) if f.place is not None}

    return codes


def test_the_next_table_in_a_column_hides_no_wrong_reference(found):
    bores = (93.512, 93.513, 93.511, 93.512)
    rows = [["Cyl (mm)", "Found", "Honed", "Piston", "Clearance"]]
    rows += [[n, 93.14, bore, 93.43, f"=C{n + 1}-D{n + 1}"] for n, bore in enumerate(bores, 1)]
    rows[3][4] = "=C3-D4"
    rows += [[], [], ["Main (mm)", "Found", "Ground", "Shell", "Clearance"]]
    rows += [[n, 66.94, 66.735, 66.792, f"=D{n + 8}-C{n + 8}"] for n in range(1, 6)]
    saved = {"E2": 0.082, "E3": 0.083, "E4": 0.083, "E5": 0.082}
    saved |= {f"E{n}": 0.057 for n in range(9, 14)}
    assert found(rows, saved).get("E4") == "formula-unlike-siblings"


def test_the_found_size_in_place_of_the_final_one_is_told(found):
    rows = [["Guide (mm)", "found", "final", "Stem", "Clearance"]]
    rows += [[n, 6.046, 6.006, 5.974, f"=C{n + 1}-D{n + 1}"] for n in range(1, 7)]
    rows[4][4] = "=B5-D5"
    saved = {f"E{n}": 0.032 for n in range(2, 8)} | {"E5": 0.072}
    assert found(rows, saved).get("E5") == "formula-unlike-siblings"
    # What was measured again in a cell that the others have not is taken on purpose.
    again = [[*row[:1], None, *row[2:]] for row in rows]
    again[4] = [4, 6.046, *rows[4][2:]]
    assert "E5" not in found([rows[0], *again[1:]], saved)


LIST = [
    ["Balance (g)"], ["big end", 431], ["little end", 162.4], ["piston", 381.5], ["pin", 96.2],
    ["ring set", 33.4], ["locks", 3.2], ["shells", 38.8], ["oil", 3],
]  # fmt: skip


def test_a_sum_that_leaves_out_one_of_a_list_is_told(found):
    whole = "=B2+B8+B9+(B3+B4+B5+B6+B7)*0.5"
    short = "=B2+B8+B9+(B3+B4+B5+B6)*0.5"
    assert found([*LIST, ["Bobweight", short]], {"B10": 809.55}).get("B10") == "range-cut-short"
    assert "B10" not in found([*LIST, ["Bobweight", whole]], {"B10": 811.15})


def test_a_result_typed_beside_a_remark_is_no_formula_typed_over(found):
    rows = [["cyl (in)", "top", "bottom", "piston", "p/w"]]
    rows += [[n, 4.0305, 4.0305, 4.0261, f"=(B{n + 1}+C{n + 1})/2-D{n + 1}"] for n in range(1, 6)]
    saved = {f"E{n}": 0.0044 for n in range(2, 7)}
    typed = [list(row) for row in rows]
    typed[3][4] = saved.pop("E4")
    assert found(typed, saved).get("E4") == "typed-over"
    typed[3][1] = "4.0305 ok"
    assert "E4" not in found(typed, saved)


def test_banks_alike_by_chance_are_not_copied(found):
    pins = [0.9278, 0.9277, 0.9276, 0.9276]
    lines = {
        "Bore (in)": [4.0121, 4.0123, 4.0122, 4.0124, 4.0122, 4.0121, 4.0125, 4.0123],
        "Piston (in)": [4.0082, 4.0081, 4.0083, 4.0080, 4.0084, 4.0082, 4.0081, 4.0083],
        "Chamber cc": [61.9, 62.1, 62.0, 62.3, 62.2, 61.8, 62.4, 62.0],
        "Top ring gap (in)": [0.0171, 0.0173, 0.0175, 0.0172, 0.0174, 0.0176, 0.0170, 0.0177],
        "Pin (in)": pins * 2,
    }
    rows = [["Cylinder", *range(1, 9)], *([name, *sizes] for name, sizes in lines.items())]
    assert "copied-part" not in found(rows, {}).values()
    copied = {name: sizes[:4] * 2 for name, sizes in lines.items()}
    rows = [["Cylinder", *range(1, 9)], *([name, *sizes] for name, sizes in copied.items())]
    assert "copied-part" in found(rows, {}).values()


def test_digits_exchanged_are_told_with_the_zero_that_a_number_lost(found):
    bottoms = [4.0305, 4.0304, 4.0305, 4.0305, 4.0305, 4.035, 4.0305, 4.0304]
    rows = [["cyl (in)", "bore top", "bore bot", "pist"]]
    rows += [[n, 4.0306, bottom, 4.0262] for n, bottom in enumerate(bottoms, 1)]
    assert found(rows, {}).get("C7") == "digits-exchanged"


def test_a_weight_between_a_sum_and_its_list_is_told(found):
    rows = [["Balance card (grams)"], ["Piston", 412], ["Pin", 118], ["Rings", 40], ["Locks", 2],
            ["Rod small end", 178], ["Recip total", "=SUM(B2:B5)"]]  # fmt: skip
    assert found(rows, {"B7": 572}).get("B7") == "range-cut-short"
    assert "B7" not in found([*rows[:-1], ["Recip total", "=SUM(B2:B6)"]], {"B7": 750})


def test_bores_copied_at_all_places_are_told(found):
    first = [83.012, 83.010, 83.011, 83.013, 83.009, 83.010]
    second = [83.014, 83.011, 83.012, 83.009, 83.008, 83.010]
    rows = [["Bores (mm)", "top x", "top y", "mid x", "mid y", "bot x", "bot y"]]
    rows += [
        [1, *first],
        [2, *second],
        [3, *second],
        [4, 83.010, 83.012, 83.013, 83.010, 83.011, 83.009],
    ]
    assert "copied-part" in found(rows, {}).values()
    rows[3] = [3, 83.011, 83.013, 83.010, 83.012, 83.010, 83.012]
    assert "copied-part" not in found(rows, {}).values()


VOLUMES = [["Chamber", 64.55, "cc"], ["Valve reliefs (+)", 5.3, "cc"], ["Gasket", 8.71, "cc"]]


@pytest.mark.parametrize(("last", "told"), [("B3", "range-cut-short"), ("B4", None)])
def test_a_volume_right_above_its_total_belongs_to_it(found, last, told):
    rows = [*VOLUMES, ["Deck", 1.94, "cc"], ["Total above piston", f"=SUM(B1:{last})", "cc"]]
    saved = 78.56 if last == "B3" else 80.5
    assert found(rows, {"B5": saved}).get("B5") == told
