"""How commands end: one table of codes, a line that says why, and nothing raw on the terminal."""

import json
import os
import re
import shutil
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import pytest
from typer.testing import CliRunner

from workbook_tools.cli import app
from workbook_tools.terminal import Exit

ROOT = Path(__file__).parents[1]
BOOK = ROOT / "example_books" / "flat_twin.xlsx"


def at_length(*cases):
    """Cases for the slow tests: a process for each command or book, and others hold the same."""
    return [
        pytest.param(*(case if isinstance(case, tuple) else (case,)), marks=pytest.mark.slow)
        for case in cases
    ]


@pytest.fixture
def place(tmp_path, monkeypatch, make_book):
    """A folder to work in: a good book, a stale one, a bad one, an empty folder, broken files."""
    monkeypatch.chdir(tmp_path)
    for variable in ("XDG_CACHE_HOME", "LOCALAPPDATA", "XDG_CONFIG_HOME", "APPDATA"):
        monkeypatch.setenv(variable, str(tmp_path / "settings"))
    shutil.copy(BOOK, "good.xlsx")
    rows = [["Quench", "=ENG.QUENCH(0.01,0.03)"]]
    make_book({"Sheet": rows}, {"Sheet": {"B1": 0.041}}, file_name="off.xlsx")
    Path("bad.xlsx").write_bytes(b"PK\x03\x04 cut off")
    Path("bad.toml").write_text("[[band]")
    Path("deep.toml").write_text("a = " + "[" * 100_000)
    Path("empty").mkdir()
    return tmp_path


@pytest.mark.parametrize(
    ("command", "code", "said"),
    [
        ("summarize good.xlsx --out o", Exit.DONE, "1 build summarized"),
        ("summarize good.xlsx bad.xlsx --out o", Exit.UNREAD, "NOT READ bad.xlsx: "),
        ("summarize empty --out o", Exit.USAGE, "No books in empty"),
        ("summarize none.xlsx --out o", Exit.USAGE, "There is no file or folder none.xlsx."),
        ("summarize good.xlsx --out good.xlsx", Exit.USAGE, "good.xlsx is a file"),
        ("summarize good.xlsx --out /proc/o", Exit.USAGE, "/proc/o cannot be written"),
        ("summarize good.xlsx --out o --shop none.toml", Exit.USAGE, "no file none.toml."),
        ("summarize good.xlsx --out o --shop bad.toml", Exit.UNREAD, "not readable as TOML"),
        ("summarize good.xlsx --out o --shop deep.toml", Exit.UNREAD, "not readable as TOML"),
        ("summarize good.xlsx --out o --layout none.toml", Exit.USAGE, "no file none.toml."),
        ("summarize good.xlsx --out o --layout empty", Exit.USAGE, "no file empty."),
        ("summarize good.xlsx --out o --layout bad.toml", Exit.UNREAD, "bad.toml, line 1"),
        ("month 2025-06 good.xlsx --out o", Exit.DONE, "June 2025: 1 build"),
        ("month 2025-06 --to 2025-05 good.xlsx --out o", Exit.USAGE, "expected 2025-06 or a later"),
        ("month 2025-13 good.xlsx --out o", Exit.USAGE, "expected a year and a month"),
        ("month 2025-06 empty --out o", Exit.USAGE, "No books in empty"),
        ("survey good.xlsx", Exit.DONE, "1 book"),
        ("survey empty", Exit.USAGE, "No books in empty"),
        ("survey none", Exit.USAGE, "There is no file or folder none."),
        ("survey good.xlsx --layout bad.toml", Exit.UNREAD, "bad.toml, line 1"),
        ("check good.xlsx", Exit.DONE, "1 build with "),
        ("check off.xlsx", Exit.FINDINGS, "off.xlsx:Sheet!B1: stale-result (stale result): "),
        ("check off.xlsx --select stale-resul", Exit.USAGE, "the nearest is stale-result"),
        ("findings", Exit.DONE, "out-of-band"),
        ("findings stale-resul", Exit.USAGE, "the nearest is stale-result"),
        ("check empty", Exit.USAGE, "No books in empty"),
        ("check none.xlsx", Exit.USAGE, "There is no file or folder none.xlsx."),
        ("check good.xlsx --format jsn", Exit.USAGE, "Did you mean 'json'?"),
        ("check good.xlsx --layout bad.toml", Exit.UNREAD, "bad.toml, line 1"),
        ("portable good.xlsx --out new.xlsx", Exit.DONE, "Wrote new.xlsx."),
        ("portable none.xlsx --out new.xlsx", Exit.USAGE, "no file none.xlsx."),
        ("portable bad.xlsx --out new.xlsx", Exit.UNREAD, "bad.xlsx: is not an .xlsx"),
        ("portable good.xlsx --out bad.xlsx", Exit.USAGE, "exists already"),
        ("portable good.xlsx --out n.xlsx --remove --only", Exit.USAGE, "leave out only"),
        ("translate good.xlsx --to vba --out new.xlsx", Exit.DONE, "Wrote new.xlsx."),
        ("translate empty --to vba --out new.xlsx", Exit.USAGE, "no file empty."),
        ("translate bad.xlsx --to vba --out new.xlsx", Exit.UNREAD, "bad.xlsx: is not an .xlsx"),
        ("translate good.xlsx --to vba --out good.xlsx", Exit.USAGE, "is the book itself"),
        ("new new.xlsx --cylinders 2 --units inch", Exit.DONE, "Wrote new.xlsx"),
        ("new bad.xlsx --cylinders 2 --units inch", Exit.USAGE, "exists already"),
        ("new new.xlsx --cylinders two", Exit.USAGE, "'--cylinders': expected a whole number"),
        ("new none/new.xlsx --cylinders 2 --units inch", Exit.USAGE, "there is no folder none"),
        ("new new.xlsx --like none.xlsx", Exit.USAGE, "no file none.xlsx."),
        ("new new.xlsx --like bad.xlsx", Exit.UNREAD, "it cannot be read"),
        ("evaluate ENG.QUENCH(0.01,0.03)", Exit.DONE, "0.0400 in"),
        ("evaluate ENG.QUENCH(0.01,0)", Exit.FINDINGS, "No result: "),
        ('evaluate ENG.QUENCH({0.01,"x"},0.03)', Exit.FINDINGS, "no result"),
        ("functions QUENCH", Exit.DONE, "Equation"),
        ("functions QUENSH", Exit.USAGE, "the nearest is ENG.QUENCH"),
        ("functions QUENSH --json", Exit.USAGE, "the nearest is ENG.QUENCH"),
        ("bands", Exit.DONE, "Proof stress"),
        ("bands --init", Exit.DONE, "Wrote "),
        ("init shop", Exit.DONE, "Wrote "),
        ("init good.xlsx", Exit.USAGE, "nothing was written"),
        ("libreoffice build --out new.oxt", Exit.DONE, "Wrote new.oxt"),
        ("libreoffice build --out good.xlsx", Exit.USAGE, "ends in .oxt"),
        ("libreoffice build --out none/new.oxt", Exit.USAGE, "cannot be written"),
        ("--version", Exit.DONE, f"workbook-tools {version('workbook-tools')}"),
        ("summarize", Exit.USAGE, "Missing argument"),
        ("nonsense", Exit.USAGE, "No such command"),
        *at_length(
            ("month 2025-06 good.xlsx bad.xlsx --out o", Exit.UNREAD, "NOT READ bad.xlsx: "),
            ("survey good.xlsx bad.xlsx", Exit.UNREAD, "NOT READ bad.xlsx: "),
            ("check off.xlsx bad.xlsx", Exit.UNREAD, "NOT READ bad.xlsx: "),
            (
                "month 2025-05 --to 2025-06 good.xlsx --out o",
                Exit.DONE,
                "May to June 2025: 1 build",
            ),
            ("month 2025-06 good.xlsx --out /proc/o", Exit.USAGE, "/proc/o cannot be written"),
            ("portable good.xlsx --out none/new.xlsx", Exit.USAGE, "there is no folder none"),
            ("survey good.xlsx --out good.xlsx", Exit.USAGE, "nothing is overwritten"),
            (
                "check off.xlsx --ignore stale-result",
                Exit.DONE,
                "no findings, 1 left out as asked.",
            ),
        ),
    ],
)
def test_a_command_ends_with_its_code_and_says_why(place, command, code, said):
    done = CliRunner().invoke(app, command.split())
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exception
    assert (done.exit_code, said in done.output) == (code, True), done.output
    assert "Traceback" not in done.output


@pytest.mark.parametrize(
    ("command", "name"),
    [
        ("summarize good.xlsx --out o", "bad.toml"),
        *at_length(
            ("bands", "deep.toml"),
            ("evaluate ENG.QUENCH(0.01,0.03)", "none.toml"),
        ),
    ],
)
def test_bands_that_cannot_be_read_are_told_before_anything_else(place, name, command):
    done = subprocess.run(
        [sys.executable, "-m", "workbook_tools", *command.split()],
        env={**os.environ, "WORKBOOK_TOOLS_BANDS": name},
        capture_output=True,
        text=True,
    )
    assert (done.returncode, done.stdout) == (Exit.UNREAD, "")
    assert re.fullmatch(rf"{name}(, line 1)?: .*\n", done.stderr)
    assert not (place / "o").exists()


@pytest.fixture
def without_rights():
    """How to start a program that files' permissions hold for, also when root runs the tests."""
    if os.name == "nt":
        pytest.skip("Windows keeps permissions in another way")
    if os.geteuid():
        return []
    if shutil.which("setpriv") is None:
        pytest.skip("root may read everything, and there is no setpriv to prevent it")
    rights = "-dac_override,-dac_read_search"
    return ["setpriv", f"--bounding-set={rights}", f"--inh-caps={rights}"]


# Runs commands one after the other and tells their codes and what they said.
ALL = """
import json, sys
from typer.testing import CliRunner
from workbook_tools.cli import app
done = [CliRunner().invoke(app, command.split()) for command in json.load(sys.stdin)]
json.dump([(one.exit_code, one.output, repr(one.exception)) for one in done], sys.stdout)
"""
FORBIDDEN = [
    ("summarize good.xlsx shut.xlsx --out o", Exit.UNREAD, "1 build summarized"),
    ("summarize good.xlsx --out o --shop shut.toml", Exit.UNREAD, "Permission denied"),
    ("portable locked/a.xlsx --out new.xlsx", Exit.UNREAD, "cannot be read"),
    ("init locked", Exit.USAGE, "nothing was written"),
]
MORE_FORBIDDEN = [
    ("month 2025-06 good.xlsx --out locked/o", Exit.USAGE, "cannot be written"),
    ("month 2025-06 good.xlsx shut.xlsx --out o", Exit.UNREAD, "June 2025: 1 build"),
    ("survey good.xlsx shut.xlsx", Exit.UNREAD, "NOT READ shut.xlsx: "),
    ("summarize good.xlsx --out locked", Exit.USAGE, "cannot be written"),
    ("summarize good.xlsx --out o --shop locked/a.toml", Exit.UNREAD, "cannot be read"),
    ("summarize good.xlsx --out o --layout shut.toml", Exit.UNREAD, "cannot be read"),
    ("survey good.xlsx --out locked/layout.toml", Exit.USAGE, "Permission denied"),
    ("portable shut.xlsx --out new.xlsx", Exit.UNREAD, "cannot be read"),
    ("portable good.xlsx --out locked/new.xlsx", Exit.USAGE, "Permission denied"),
    ("translate good.xlsx --to vba --out locked/new.xlsx", Exit.USAGE, "Permission denied"),
    ("new locked/new.xlsx --cylinders 2 --units inch", Exit.USAGE, "Permission denied"),
    ("new new.xlsx --like shut.xlsx", Exit.UNREAD, "cannot be read"),
    ("libreoffice build --out locked/new.oxt", Exit.USAGE, "cannot be written"),
]


@pytest.mark.parametrize(
    "cases", [FORBIDDEN, pytest.param(MORE_FORBIDDEN, marks=pytest.mark.slow)], ids=["few", "more"]
)
def test_what_may_not_be_read_or_written_is_told(place, without_rights, cases):
    for name in ("shut.xlsx", "shut.toml"):
        Path(name).touch(mode=0)
    Path("locked").mkdir(mode=0)
    # One process for all, as one that may do everything cannot take its rights back.
    ran = subprocess.run(
        [*without_rights, sys.executable, "-c", ALL],
        input=json.dumps([command for command, _, _ in cases]),
        capture_output=True,
        text=True,
        check=True,
    )
    Path("locked").chmod(0o700)
    for (command, code, said), (ended, told, error) in zip(
        cases, json.loads(ran.stdout), strict=True
    ):
        assert error == "None" or error.startswith("SystemExit"), (command, error)
        assert (ended, said in told) == (code, True), (command, told)


NAME = "a\x1b]0;taken\x07\u202e\x9b31m\nNOT READ b"


@pytest.mark.skipif(os.name == "nt", reason="Windows has no such names")
@pytest.mark.parametrize(
    "command", ["summarize", "portable", *at_length("month 2025-06", "survey")]
)
def test_no_name_gives_the_terminal_orders(place, command):
    books = place / "books"
    books.mkdir()
    (books / f"{NAME}.xlsx").write_bytes(b"x")
    (books / f"~${NAME}.xlsx").write_bytes(b"x")
    named = books / f"{NAME}.xlsx" if command == "portable" else books
    words = [] if command == "survey" else ["--out", "new.xlsx"]
    done = CliRunner().invoke(app, [*command.split(), str(named), *words])
    assert done.exit_code == Exit.UNREAD, done.output
    assert "a\\x1b]0;taken\\x07\\u202e\\x9b31m" in done.output
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202e]", done.output)
    assert not re.search("^NOT READ b", done.output, re.MULTILINE) or command == "survey"


def test_the_manual_has_the_same_table():
    text = (ROOT / "workbook_tools" / "manual" / "batches.md").read_text("utf-8")
    told = re.findall(r"^\| (\d[\d, ]*) \|", text, re.MULTILINE)
    assert [int(n) for row in told for n in row.split(",")] == [int(code) for code in Exit]


def test_the_changes_begin_with_the_codes():
    text = (ROOT / "workbook_tools" / "manual" / "changes.md").read_text("utf-8")
    newest = text.split("\n## ")[1]
    assert newest.startswith("0.2.0, unreleased")
    for words in ("0 done", "1 something was found", "2 wrong usage", "3 something could not be"):
        assert words in " ".join(newest.split())
