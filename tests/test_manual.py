"""The manual: its links lead somewhere, its commands and formulas are tried, its page is whole."""

import re
import shlex
from functools import cache
from pathlib import Path

import openpyxl
import pytest
import typer
from each_case import each

from workbook_tools.books.bench import try_formula, try_in_book
from workbook_tools.books.opening import read_cells
from workbook_tools.cli import app
from workbook_tools.cli.manual import commands_text
from workbook_tools.findings import check
from workbook_tools.jobs.read import read_jobs
from workbook_tools.labels.layout import read_layout
from workbook_tools.render.manual import CHAPTERS, FOLDER, MADE, anchor, chapter_text, manual_html
from workbook_tools.settings.accepted import accepted_of
from workbook_tools.settings.shop import read_shop

ROOT = Path(__file__).parents[1]
COMMANDS = commands_text()
TEXTS = {name: chapter_text(name, COMMANDS) for name in CHAPTERS}
README = "README.md"
PAGES = {**TEXTS, README: (ROOT / README).read_text("utf-8")}
LINK = re.compile(r"!?\[[^\]]*\]\(([^)\s]+)\)")
ROW = re.compile(r"^\| ([A-Z]\d+) \| (.*?) \| ?(.*?) ?\|$", re.MULTILINE)


def without_code(text):
    return re.sub(r"^```.*?^```", "", text, flags=re.MULTILINE | re.DOTALL)


@cache
def anchors(text):
    return {anchor(h) for h in re.findall(r"^#+ (.+)$", without_code(text), re.MULTILINE)}


def test_every_file_of_the_manual_is_a_chapter():
    assert {path.name for path in FOLDER.glob("*.md")} | set(MADE) == set(CHAPTERS)


@each("name", PAGES)
def test_every_link_leads_somewhere(name):
    # Of the project, which has example books beside the package.
    folder = ROOT if name == README else ROOT / "workbook_tools" / "manual"
    for target in LINK.findall(without_code(PAGES[name])):
        if target.startswith("https://"):
            continue
        file, _, place = target.partition("#")
        if file and Path(file).name not in MADE:
            assert (folder / file).exists(), target
        if place:
            there = (folder / file).name if file else name
            text = PAGES["functions.md" if there == "REFERENCE.md" else there]
            assert place in anchors(text), target


def commands_in(text):
    blocks = re.findall(r"^```sh\n(.*?)^```", text, re.MULTILINE | re.DOTALL)
    lines = [line for block in blocks for line in block.splitlines()]
    lines += re.findall(r"(?<!\\)`(workbook-tools [^`]+)`", without_code(text))
    return [line for line in lines if re.match(r"(\S*/)?workbook-tools ", line)]


def test_every_command_that_is_shown_is_there_with_its_options():
    shown = "\n".join(text for name, text in PAGES.items() if name != "commands.md")
    program = typer.main.get_command(app)
    for line in commands_in(shown):
        words = shlex.split(line.partition("  #")[0].replace("…", "").replace("\\", "\\\\"))[1:]
        command = program
        while words and hasattr(command, "commands") and not words[0].startswith("-"):
            command = command.commands.get(words.pop(0))
            assert command is not None, line
        known = {option for one in command.params for option in one.opts} | {"-h", "--help"}
        known |= {"--install-completion"}
        assert {word for word in words if word.startswith("--")} <= known, line


# By the first word of a block of settings: what reads it.
SETTINGS = {
    "units": ("layout.toml", read_layout),
    "gauges": ("shop.toml", read_shop),
    "finished": ("shop.toml", read_shop),
    "accepted": ("accepted.toml", lambda path: accepted_of([path.parent])),
}


def test_the_settings_that_are_shown_are_taken(tmp_path):
    blocks = re.findall(r"^```toml\n(.*?)^```", "".join(TEXTS.values()), re.MULTILINE | re.DOTALL)
    assert len(blocks) >= 4
    for block in blocks:
        name, read = SETTINGS[re.search(r"\w+", block)[0]]
        (tmp_path / name).write_text(block, encoding="utf-8")
        assert read(tmp_path / name)


def shown(value):
    return value if isinstance(value, str) else float(value)


@pytest.fixture(scope="module")
def tutorial(tmp_path_factory):
    """The book that the tutorial has its reader type."""
    made = openpyxl.Workbook()
    for cell, typed, _ in ROW.findall(TEXTS["tutorial.md"]):
        number = re.fullmatch(r"-?\d+(\.\d+)?", typed)
        made.active[cell] = float(typed) if number else typed
    path = tmp_path_factory.mktemp("tutorial") / "T-1001.xlsx"
    made.save(path)
    return path


def test_the_tutorial_shows_what_its_formulas_come_to(tutorial):
    book = read_cells(tutorial)
    results = [(c, s) for c, typed, s in ROW.findall(TEXTS["tutorial.md"]) if typed[0] == "="]
    assert len(results) > 10
    for cell, said in results:
        value = try_in_book(book, cell).result.value
        digits = len(said.partition(".")[2])
        assert said == (value if isinstance(value, str) else f"{value:.{digits}f}"), cell


def test_the_tutorials_book_is_a_clean_job_and_spoiling_it_is_noticed(tutorial, tmp_path):
    (job,) = read_jobs(tutorial)
    assert (job.job.number.text, job.job.finished.text) == ("T-1001", "2026-03-14")
    assert [f.code for f in check(job) if f.code != "never-calculated"] == []
    spoiled = openpyxl.load_workbook(tutorial)
    spoiled.active["C14"], spoiled.active["B20"] = None, 0.38
    spoiled.save(tmp_path / "spoiled.xlsx")
    (job,) = read_jobs(tmp_path / "spoiled.xlsx")
    told = [(f.code, f.place.address) for f in check(job) if f.code != "never-calculated"]
    # One empty cell is one finding.
    assert [one for one in told if "missing" in one[0]] == [("missing-reading", "B14:C14")]
    assert "B20" in {cell for _, cell in told}


def test_the_formulas_in_the_text_give_what_they_say():
    rows = re.findall(r"^\| (=ENG\..+?) \| (\S+) \|$", TEXTS["formulas.md"], re.MULTILINE)
    assert len(rows) >= 5
    for formula, said in rows:
        digits = len(said.partition(".")[2])
        assert f"{try_formula(formula).value:.{digits}f}" == said, formula


def test_the_page_needs_no_network_and_names_each_place_once():
    page = manual_html(COMMANDS)
    assert not re.search(r'(?:src|href)="(?!#|data:|https://)', page)
    assert not re.search(r'src="https?:', page)
    ids = re.findall(r'\bid="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    for target in re.findall(r'href="#([^"]+)"', page):
        assert target in ids, target
    assert page.count('src="data:image/svg+xml') == len(list(FOLDER.glob("sketches/*.svg")))
