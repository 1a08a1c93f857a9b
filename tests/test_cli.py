"""The command line: what it prints, and its exit codes."""

import json
import os
import platform
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest
from typer.testing import CliRunner

import workbook_tools
from workbook_tools import __version__
from workbook_tools.catalog import entries, tables
from workbook_tools.cli import app
from workbook_tools.settings import folders

BANDS = Path(tables.__file__).with_name("bands.toml")


@pytest.fixture(autouse=True)
def _kept_apart(monkeypatch, tmp_path):
    """What a run keeps for the next is kept for this test alone."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setenv("LOCALAPPDATA", str(tmp_path / "cache"))


@pytest.fixture
def run():
    runner = CliRunner()
    return lambda *words: runner.invoke(app, list(words))


def test_help_and_version_wait_for_no_catalog_and_no_library_of_books():
    slow = {"numpy", "openpyxl", "pandas", "jinja2", "rich", "workbook_tools.catalog"}
    listing = f"import sys, workbook_tools.cli; print(*({slow} & sys.modules.keys()))"
    done = subprocess.run([sys.executable, "-c", listing], capture_output=True, text=True)
    assert (done.returncode, done.stdout, done.stderr) == (0, "\n", "")


@pytest.mark.parametrize(
    ("formula", "printed"),
    [
        ('ENG.QUENCH(0.002, "38 thou")', "0.0400 in"),
        ('=ENG.QUENCH(0.002; "38 thou")', "0.0400 in"),
        ('eng_quench(0.1,0.9,"metric")', "1.000 mm"),
        ("ROUND(ENG.QUENCH(0.0021,0.04),3)*2", "0.084"),
        ("ENG.QUENCH({0.001,-0.002},0.04)", "0.0410 in\t0.0380 in"),
        ("ENG.VERDICT(3,1,2)", "high"),
        ('ENG.MEAN_READING({"38 thou","40 thou"},2)', "0.039 in"),
    ],
)
def test_evaluate_prints_the_result_with_its_unit(run, formula, printed):
    result = run("evaluate", formula)
    assert (result.exit_code, result.stdout) == (0, printed + "\n")


@pytest.mark.parametrize(
    ("formula", "reason"),
    [
        ("ENG.QUENCH(0.002,0)", "gasket_thickness: expected a length above 0, got 0"),
        ("ENG.QUENSH(1)", "the nearest is ENG.QUENCH"),
        ("ENG.QUENCH(1)", "expected 2 to 3 arguments"),
        ("ENG.QUENCH(B7,0.04)", "B7 is a cell or a name"),
        ('ENG.QUENCH(4.03",0.04)', "an inch mark is written twice"),
        ("", "there is no formula"),
        ("ENG.QUENCH(1,2", "not closed"),
    ],
)
def test_evaluate_says_why_there_is_no_result(run, formula, reason):
    result = run("evaluate", formula)
    assert result.exit_code == 1
    assert reason in result.stderr
    assert result.stdout == ""


def test_functions_lists_all_and_describes_one(run):
    listed = run("functions").stdout
    assert "ENG.QUENCH" in listed
    assert "Deck and quench" in listed
    one = run("functions", "eng.quench").stdout
    assert "deck_clearance" in one
    assert "negative: above" in " ".join(one.split())
    assert "Caution" in one
    wrong = run("functions", "QUENSH")
    assert wrong.exit_code == 2
    assert "ENG.QUENCH" in wrong.stderr


def test_functions_are_found_by_what_a_builder_asks(run):
    done = run("functions", "ring gap")
    listed = [line.split()[0] for line in done.stdout.splitlines() if line.startswith("  ENG.")]
    assert {"ENG.RING_GAP", "ENG.HOT_RING_GAP"} < set(listed)
    assert "ENG.QUENCH" not in listed
    assert done.stdout.endswith("workbook-tools functions RING_GAP\n")


def test_the_page_of_a_function_ends_with_those_beside_it(run):
    told = run("functions", "QUENCH").stdout
    assert "ENG.GASKET_FOR_QUENCH" in told.partition("See also")[2]


def test_the_list_of_commands_has_whole_sentences(run):
    lines = run("-h").stdout.partition("Commands:")[2].splitlines()
    assert not [line for line in lines if line.endswith("...")]


@pytest.mark.libreoffice
def test_doctor_reports_what_is_installed_and_in_force(run):
    done = run("doctor")
    assert done.exception is None
    told = done.stdout
    assert f"workbook-tools  {__version__}, in {Path(workbook_tools.__file__).parent}" in told
    assert f"{platform.python_version()}, {sys.executable}" in told
    assert f"{len(list(entries()))} functions in the catalog" in told
    assert "bands           those of the catalog" in told


def test_functions_as_data_names_what_a_program_needs(run):
    data = json.loads(run("functions", "--json").stdout)
    (quench,) = [d for d in data if d["name"] == "ENG.QUENCH"]
    assert {"name", "section", "parameters", "source", "caution", "portable"} <= set(quench)
    assert quench["portable"] is True
    assert [p["name"] for p in quench["parameters"]] == ["deck_clearance", "gasket_thickness"]
    assert quench["parameters"][0]["units"] == {"inch": "in", "metric": "mm"}


def test_bands_are_shown_with_those_of_the_shop(run, monkeypatch, tmp_path):
    for variable in ("XDG_CONFIG_HOME", "APPDATA"):
        monkeypatch.setenv(variable, str(tmp_path))
    folders.look_again()
    none = run("bands").stdout
    assert f"it would be {tmp_path / 'workbook-tools' / 'bands.toml'}" in none
    line = next(text for text in none.splitlines() if text.startswith("  street, top "))
    assert line.split()[2:6] == ["0.004", "to", "0.005", "(0.0045)"]
    assert run("bands", "--init").exit_code == 0
    again = run("bands", "--init")
    assert (again.exit_code, "nothing was written" in again.stderr) == (2, True)
    own = tmp_path / "workbook-tools" / "bands.toml"
    assert own.read_text("utf-8").startswith("# The shop's own")
    # A row of the commented file, as it stands once its # are taken away.
    row = [text.removeprefix("# ") for text in own.read_text("utf-8").splitlines()[4:12]]
    own.write_text("\n".join(row), encoding="utf-8")
    folders.look_again()
    tables._cached_tables.cache_clear()
    try:
        assert f"The shop's own rows: {own}." in run("bands").stdout
        assert run("evaluate", 'ENG.RING_GAP_FACTOR("street","top")').stdout == "0.0048\n"
        own.write_text("\n".join(row).replace("0.0044", "4.4"), encoding="utf-8")
        tables._cached_tables.cache_clear()
        assert run("bands").stderr == (
            f"{own}, line 5: low: expected low to be no higher than high\n"
        )
    finally:
        folders.look_again()
        tables._cached_tables.cache_clear()


def test_every_row_of_bands_is_shown_in_the_unit_that_it_was_written_in(run):
    shown = run("bands").stdout.split("\n\n")
    [proof] = [block for block in shown if block.startswith("Proof stress")]
    written = tomllib.loads(BANDS.read_text("utf-8"))["band"]
    rows = [row for row in written if row["table"] == "proof stress"]
    assert {row["unit"] for row in rows} == {"MPa", "ksi"}
    assert proof.splitlines()[0] == "Proof stress"
    for row, line in zip(rows, proof.splitlines()[1:], strict=True):
        assert f" at least {row['low']} {row['unit']} " in line
    units = {row.get("unit") for row in written} - {None}
    assert all(f" {unit} " in "\n".join(shown) for unit in units)


def test_summarize_exit_codes(run, make_book, tmp_path):
    out = tmp_path / "out"
    book = make_book({"S": [["Quench", "=ENG.QUENCH(0.01,0.03)"]]}, {"S": {"B1": 0.04}})
    good = run("summarize", str(book), "--out", str(out))
    assert good.exit_code == 0, good.output
    assert str(out) in good.stdout.replace("\n", "")
    (tmp_path / "bad.xlsx").write_bytes(b"x")
    mixed = run("summarize", str(book), str(tmp_path / "bad.xlsx"), "--out", str(out))
    assert mixed.exit_code == 3
    assert "bad.xlsx" in mixed.stderr
    assert "not a workbook" in mixed.stderr
    empty = tmp_path / "empty"
    empty.mkdir()
    assert run("summarize", str(empty), "--out", str(out)).exit_code == 2
    assert run("summarize", str(tmp_path / "none"), "--out", str(out)).exit_code == 2
    assert run("summarize").exit_code == 2


def test_portable_and_translate_write_copies(run, make_book, tmp_path):
    book = make_book({"S": [["=ENG.QUENCH(0.01,0.03)", "=ENG_QUENSH(1)"]]})
    before = book.read_bytes()
    done = run("portable", str(book), "--out", str(tmp_path / "new.xlsx"), "--only")
    assert done.exit_code == 0
    assert "1 function added." in done.stdout
    assert "ENG_QUENSH is no function of the catalog" in done.stderr
    done = run("translate", str(book), "--to", "vba", "--out", str(tmp_path / "vba.xlsx"))
    assert (done.exit_code, "1 formula changed" in done.stdout) == (0, True)
    assert book.read_bytes() == before
    bare = run("portable", str(book), "--out", str(tmp_path / "bare.xlsx"), "--remove")
    assert (bare.exit_code, bare.stderr) == (0, "")
    assert "None of the functions was in the book." in bare.stdout
    same = run("portable", str(book), "--out", str(book))
    assert same.exit_code == 2
    assert "is the book itself" in same.stderr
    assert (
        run("translate", str(book), "--to", "x", "--out", str(tmp_path / "y.xlsx")).exit_code == 2
    )


def test_the_extension_is_never_written_over_a_book(run, make_book):
    book = make_book({"S": [[1]]})
    before = book.read_bytes()
    done = run("libreoffice", "build", "--out", str(book))
    assert (done.exit_code, "ends in .oxt" in done.stderr) == (2, True)
    assert book.read_bytes() == before


@pytest.mark.skipif("sys.platform == 'win32'")
def test_excel_connect_points_to_the_add_in_free_way_elsewhere(run):
    done = run("excel", "connect")
    assert done.exit_code == 3
    assert "workbook-tools portable" in done.stderr


def test_what_a_batch_cannot_start_with_is_said_in_a_line(run, make_book, tmp_path):
    book = make_book({"S": [["Bore (in)", 4.03]]})
    taken, out = tmp_path / "taken", tmp_path / "out"
    taken.write_text("")
    refused = run("summarize", str(book), "--out", str(taken))
    assert (refused.exit_code, refused.stderr) == (2, f"{taken} is a file; give --out a folder.\n")
    layout = book.with_name("layout.toml")
    layout.write_text('unit = "inch"\n')
    refused = run("summarize", str(book), "--out", str(out))
    assert refused.exit_code == 3
    assert f"\n{layout}, line 1, unit: no such key; the nearest is units" in refused.stderr
    layout.unlink()
    refused = run("summarize", str(book), "--out", str(out), "--cluster", "nowhere")
    assert refused.exit_code == 3
    assert "nowhere" in refused.stderr
    assert not out.exists()


def test_pages_for_customers_and_months_come_from_the_command_line(run, tmp_path):
    book = Path(__file__).parents[1] / "example_books" / "flat_twin.xlsx"
    done = run("summarize", str(book), "--out", str(tmp_path), "--customer")
    assert done.exit_code == 0, done.output
    assert "Running in" in (tmp_path / "flat_twin-customer.html").read_text("utf-8")
    folder = tmp_path / "m"
    done = run("month", "2025-06", str(book), "--out", str(folder), "--processes", "1")
    assert done.exit_code == 0, done.output
    assert done.stdout.startswith("June 2025: 1 build finished")
    assert [p.name for p in (folder / "builds").iterdir()] == ["flat_twin.html"]
    assert any(p.is_file() for p in (tmp_path / "cache").rglob("*"))


def test_a_console_of_another_alphabet_shows_what_it_can(make_book):
    book = make_book({"S": [["Deck clearance (in)", 0.004]]}, file_name="Книга.xlsx")
    done = subprocess.run(
        [sys.executable, "-m", "workbook_tools", "survey", book],
        env={**os.environ, "PYTHONIOENCODING": "cp437"},
        capture_output=True,
    )
    assert done.returncode == 0, done.stderr
    assert b"\\u041a\\u043d\\u0438\\u0433\\u0430.xlsx" in done.stdout


@pytest.mark.skipif(os.name != "nt", reason="only Windows locks a file that is looked at")
def test_a_file_that_another_program_holds_is_named(run, tmp_path):
    books = Path(__file__).parents[1] / "example_books"
    assert run("summarize", str(books / "flat_twin.xlsx"), "--out", str(tmp_path)).exit_code == 0
    with (tmp_path / "readings.csv").open():
        again = run("summarize", str(books / "flat_twin.xlsx"), "--out", str(tmp_path))
    assert again.exit_code == 2
    assert "readings.csv cannot be written" in again.stderr
    assert "Close it in other programs" in again.stderr


def test_new_writes_a_book_for_the_engine_that_is_told(run, tmp_path):
    book = tmp_path / "job.xlsx"
    done = run("new", str(book), "--cylinders", "6", "--units", "metric", "--layout", "v",
               "--valves", "4", "--mains", "4", "--rods-per-journal", "1",
               "--without", "Power", "--without", "Stretch")  # fmt: skip
    assert done.exit_code == 0
    assert done.stdout.startswith(f"Wrote {book} with 24 sheets: ")
    again = run("new", str(book), "--cylinders", "6", "--units", "metric")
    assert again.exit_code == 2
    assert "exists already" in again.stderr
    done = run("new", "--like", str(book), str(tmp_path / "next.xlsx"))
    assert done.exit_code == 0
    assert done.stdout.startswith(f"Wrote {tmp_path / 'next.xlsx'} with 24 sheets: ")
    assert done.stderr == ""
    heads = tmp_path / "heads.xlsx"
    done = run("new", str(heads), "--cylinders", "8", "--units", "inch", "--scope", "heads")
    assert done.stdout.startswith(f"Wrote {heads} with 7 sheets: ")


@pytest.mark.parametrize(
    ("words", "reason"),
    [
        (["--cylinders", "4"], "Missing options: give --cylinders and --units"),
        (
            ["--cylinders", "5", "--units", "inch", "--layout", "v"],
            "an even number with the layout",
        ),
        (["--cylinders", "4", "--units", "inch", "--mains", "0"], "mains: expected 2 to 17, got 0"),
        (["--cylinders", "4", "--units", "inch", "--valves", "3"], "valves: expected 2 or 4"),
        (["--cylinders", "4", "--units", "inch", "--without", "Job"], "without: expected any of"),
        (["--like", "old.xlsx", "--valves", "4"], "--like takes cylinders"),
        (["--like", "old.xlsx"], "There is no file old.xlsx."),
    ],
)
def test_new_says_why_there_is_no_book(run, tmp_path, words, reason):
    done = run("new", str(tmp_path / "job.xlsx"), *words)
    assert done.exit_code == 2
    assert reason in done.stderr
    assert list(tmp_path.glob("*.xlsx")) == []


@pytest.mark.slow
def test_a_survey_prints_builds_as_json_without_results(run, tmp_path):
    examples = Path(__file__).parents[1] / "example_books"
    names = ("flat_twin.xlsx", "troubled_six.xlsx")
    (tmp_path / "broken.xlsx").write_bytes(b"PK\3\4 cut off")
    done = run("survey", "--json", *(str(examples / name) for name in names))
    assert done.exit_code == 0
    builds = json.loads(done.stdout)
    assert [build["book"]["file"] for build in builds] == list(names)
    summarized = run("summarize", str(examples / names[0]), "--out", str(tmp_path / "out"))
    assert summarized.exit_code == 0
    page = json.loads((tmp_path / "out" / "flat_twin.json").read_text("utf-8"))
    assert page["results"]
    assert builds[0] == {**page, "results": []}
    lost = run("survey", "--json", str(examples / names[0]), str(tmp_path / "broken.xlsx"))
    assert lost.exit_code == 3
    assert [build["book"]["file"] for build in json.loads(lost.stdout)] == [names[0]]
    assert "NOT READ" in lost.stderr
    both = run("survey", "--json", "--out", str(tmp_path / "l.toml"), str(examples / names[0]))
    assert (both.exit_code, both.stdout) == (2, "")
