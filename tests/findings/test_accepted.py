"""Findings that are accepted: by a line of the book, or in a file beside the books."""

import pytest
from typer.testing import CliRunner

from workbook_tools.cli import app
from workbook_tools.findings import check
from workbook_tools.findings.codes import CODES
from workbook_tools.jobs.read import read_book
from workbook_tools.settings.accepted import Accepted, accepted_of
from workbook_tools.settings.shop import ShopError, shop_for
from workbook_tools.summary.finding_order import counted_by_kind
from workbook_tools.summary.summary import summarize

MAINS = [
    ["Job", "24-031"],
    ["Main", 1, 2, 3],
    ["Main clearance (in)", 0.0021, 0.0031, 0.0014],
    ["Verdict", *(f"=ENG.VERDICT({c}3,0.0015,0.0025)" for c in "BCD")],
]
SAVED = {"B4": "ok", "C4": "high", "D4": "low"}
LIST = ["No.", "What, and where", "Value", "Why it may stay", "Accepted by", "On"]


@pytest.fixture
def found(make_book):
    def of(*lines, listed=()):
        rows = [*MAINS, [], LIST, *lines]
        book = read_book(make_book({"S": rows}, {"S": SAVED}))
        return {
            f.place.address: f for f in check(book, (), listed) if f.code == "out-of-band"
        }, book

    return of


@pytest.mark.parametrize(
    ("what", "value"),
    [
        ("C3", 0.0031), ("S!C3", "0.0031 in"), ("main 2, S C3", None),
        ("Main clearance, main 2", 0.0031), ("clearance of the main bearing, Main 2", "0,0031"),
    ],
)  # fmt: skip
def test_a_line_of_the_book_accepts_a_finding(found, what, value):
    findings, book = found(["1", what, value, "thick oil is used", "R. Lund", "2025-05-28"])
    accepted = findings["C3"]
    assert str(accepted.accepted) == "R. Lund, 2025-05-28: thick oil is used"
    assert accepted.message.endswith("Accepted by R. Lund, 2025-05-28: thick oil is used.")
    assert findings["D3"].accepted is None
    assert counted_by_kind(findings.values()) == (("out of band", 1),)
    told = {f["cell"]: f for f in summarize(book, tuple(findings.values())).data["findings"]}
    assert (told["C3"]["accepted"], told["D3"]["accepted"]) == (True, False)
    assert told["C3"]["acceptance"] == str(accepted.accepted)


@pytest.mark.parametrize(
    "line",
    [
        ["1", "C3", 0.0031, "thick oil", None, None],  # Nobody accepts it.
        ["1", "C3", 0.0029, "thick oil", "R. Lund", None],  # Another value was accepted.
        ["1", "Main clearance", 0.0031, "thick oil", "R. Lund", None],  # Not said which.
        ["1", "C33", 0.0031, "thick oil", "R. Lund", None],
        ["1", "Main clearance, main 1", 0.0021, "thick oil", "R. Lund", None],
        ["1", None, None, None, "R. Lund", None],
    ],
)
def test_a_line_about_something_else_accepts_nothing(found, line):
    findings, _ = found(line)
    assert {f.accepted for f in findings.values()} == {None}
    assert len(findings) == 2


def test_a_signature_is_made_and_not_accepted(make_book):
    rows = [["Job", "24-031"], ["Finished", "2025-04-02"], *MAINS[1:], ["Released by", None], []]
    rows += [LIST, ["1", "Released by, A6", None, "on holiday", "R. Lund", None]]
    saved = {cell: SAVED[f"{cell[0]}4"] for cell in ("B5", "C5", "D5")}
    found = check(read_book(make_book({"S": rows}, {"S": saved})))
    assert [f.accepted for f in found if f.code == "missing-signature"] == [None]


def test_a_file_beside_the_books_accepts_a_finding(found):
    entry = Accepted("24-031", "S!C3", "R. Lund", "2025-05-28", "thick oil")
    for one, accepted in (
        (entry, True),
        (entry._replace(cell="'s'!$C$3", code="out-of-band"), True),
        (entry._replace(code="near-limit"), False),
        (entry._replace(job="24-032"), False),
    ):
        findings, _ = found(listed=(one,))
        assert (findings["C3"].accepted is not None) is accepted
        assert findings["D3"].accepted is None


TEXT = """[[accepted]]
job = "24-031"
cell = "S!C3"
who = "R. Lund"
when = "2025-05-28"
why = "thick oil is used"
"""


def test_check_counts_only_what_is_open(make_book, tmp_path):
    path = make_book({"S": [*MAINS[:3], [None, "ok", MAINS[3][2]]]}, {"S": {"C4": "high"}})
    run = CliRunner().invoke(app, ["check", str(path), "--afresh", "--processes", "1"])
    assert (run.exit_code, "1 finding (1 out of band)" in run.stdout) == (1, True)
    (tmp_path / "accepted.toml").write_text(TEXT, encoding="utf-8")
    run = CliRunner().invoke(app, ["check", str(path), "--afresh", "--processes", "1"])
    assert "Accepted by R. Lund, 2025-05-28: thick oil is used." in run.stdout
    assert "no findings, 1 more accepted" in run.stdout
    assert run.exit_code == 0


def test_the_file_is_read_whatever_shop_holds(tmp_path):
    (tmp_path / "accepted.toml").write_text(TEXT, encoding="utf-8")
    (one,) = shop_for([tmp_path]).accepted
    assert one == Accepted("24-031", "S!C3", "R. Lund", "2025-05-28", "thick oil is used")
    assert accepted_of([tmp_path / "book.xlsx"]) == (one,)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (('why = "thick oil is used"', ""), "line 1: why is missing"),
        (("why", "wy"), "line 6: wy: no such key; the nearest is why"),
        (("S!C3", "C3"), "line 3: cell: expected sheet and cell"),
        (("why =", 'code = "out-of-bnd"\nwhy ='), "line 6: code: no finding has the code"),
        (("[[accepted]]", "[accepted]"), "expected a [[accepted]]"),
        (("[[accepted]]", "[[accept]]"), "accept: expected [[accepted]]"),
    ],
)
def test_a_file_that_cannot_be_used_is_refused(tmp_path, change, said):
    (tmp_path / "accepted.toml").write_text(TEXT.replace(*change), encoding="utf-8")
    with pytest.raises(ShopError) as refused:
        shop_for([tmp_path], codes=CODES)
    assert said in str(refused.value)
