"""Numbers that the builder's own formulas were saved with, against what their cells give."""

import pytest

from workbook_tools.books.cells import Cell, OpenBook, Sheet
from workbook_tools.findings import check
from workbook_tools.jobs.read import read_whole

BORES = (4.0302, 4.0305, 4.0307, 4.0301)


def stale(formula, saved, cells=()):
    typed = {(1, n): Cell(f"Bore {n} (in)") for n in range(1, 5)}
    typed |= {(2, n): Cell(bore) for n, bore in enumerate(BORES, 1)}
    typed |= {(4, 1): Cell("Bore, mean (in)"), (4, 2): Cell(saved, formula), **dict(cells)}
    book = read_whole(OpenBook("a.xlsx", "a", (Sheet("S", typed),), {}))
    return [f for f in check(book) if f.code == "stale-formula"]


def test_a_mean_of_an_earlier_bore():
    (found,) = stale("AVERAGE(A2:D2)", 4.0112)
    assert found.place.address == "B4"
    assert "was saved as 4.0112; its formula =AVERAGE(A2:D2) comes to 4.03038" in found.message


@pytest.mark.parametrize(
    ("formula", "saved"),
    [
        ("AVERAGE(A2:D2)", 4.030375),
        ("AVERAGE(A2:D2)", 4.0304),  # as it is shown
        ("AVERAGE(A2:D2)", 4.03),
        ("RAND()*A2", 1.0),
        ('INDIRECT("A2")+A2', 1.0),
        ("A2+NO_SUCH(A2)", 1.0),
        ("A2+Z9Z", 1.0),
    ],
)
def test_what_is_shown_rounded_or_cannot_be_told_is_not_stale(formula, saved):
    assert stale(formula, saved) == []


def test_of_a_chain_only_the_first_is_told():
    chain = [((5, 1), Cell("Twice")), ((5, 2), Cell(8.0224, "B4*2"))]
    assert [f.place.address for f in stale("AVERAGE(A2:D2)", 4.0112, chain)] == ["B4"]


def test_a_size_written_as_text_is_left_to_the_program_that_saved_it():
    assert stale("A2+A6", 8.0602, [((6, 1), Cell("4.03"))]) == []
