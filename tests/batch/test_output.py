"""Files of a batch: safe and unique names, whole files, the same bytes every time."""

import os
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import pytest
from each_case import each
from hypothesis import given
from hypothesis import strategies as st
from sample import inch_v8, metric_four

from workbook_tools.batch.batch import summarize_books
from workbook_tools.batch.build import build_of
from workbook_tools.batch.output import page_names, write_outputs
from workbook_tools.batch.output_folder import LIST
from workbook_tools.batch.whole_file import here
from workbook_tools.findings import check
from workbook_tools.jobs.paper_records import Job, JobField
from workbook_tools.jobs.records import Book
from workbook_tools.render.handover import KINDS
from workbook_tools.render.html import Unreadable
from workbook_tools.render.templates import template_folder
from workbook_tools.settings.shop import Shop

EXAMPLES = Path(__file__).parents[2] / "example_books"


def named(*names):
    return [Book(name, f"{i:x}" * 64, Job()) for i, name in enumerate(names, 1)]


@each(
    ("file_name", "name"),
    [
        ("24-031 small V8.xlsx", "24-031-small-V8"),
        ("four.ods", "four"),
        ("Größe 3.xlsx", "Größe-3"),
        ("../../etc/passwd", "passwd"),
        ("..\\..\\windows\\system.xlsx", "system"),
        (".hidden", "hidden"),
        ("...", "book"),
        ("", "book"),
        ("CON.xlsx", "book-CON"),
        ("index.xlsx", "book-index"),
        ('a<b>:"|?*.xlsx', "a-b"),
        ("x" * 300 + ".xlsx", "x" * 60),
        ("v1.2.xlsx", "v1-2"),
        ("job Customer.xlsx", "job_Customer"),
        ("job-shop.xlsx", "job_shop"),
    ],
)
def test_a_page_is_named_after_its_book(file_name, name):
    assert page_names(named(file_name)) == (name,)


def test_books_of_one_name_are_told_apart_by_content_whatever_their_order():
    first, second = named("build.xlsx", "Build.xlsx")
    names = page_names([first, second])
    assert names == ("build-1111111111", "Build-2222222222")
    assert page_names([second, first]) == names[::-1]
    assert page_names([first]) == ("build",)


def test_copies_of_one_book_do_not_overwrite_each_other():
    (book,) = named("build.xlsx")
    assert page_names([book, book]) == ("build-1111111111", "build-1111111111-2")


def test_a_book_named_like_a_customers_copy_has_files_of_its_own(tmp_path):
    for name in ("job", "job-customer"):
        (tmp_path / f"{name}.xlsx").write_bytes((EXAMPLES / "flat_twin.xlsx").read_bytes())
    kinds = ("html", "customer")
    summarize_books([tmp_path], tmp_path / "out", kinds=kinds)
    assert sorted(p.name for p in (tmp_path / "out").glob("*.html")) == [
        "index.html",
        "job-customer.html",
        "job.html",
        "job_customer-customer.html",
        "job_customer.html",
    ]


@given(st.lists(st.text(max_size=80), max_size=6))
def test_names_are_unique_and_stay_in_the_folder(file_names):
    names = page_names(named(*file_names))
    assert len({n.casefold() for n in names}) == len(file_names)
    for name in names:
        assert name.replace("-", "").replace("_", "").isalnum()
        assert Path(f"{name}.html").name == f"{name}.html"
        assert name.casefold() != "index"


@pytest.fixture
def builds():
    return [build_of(book, check(book), Shop()) for book in (inch_v8(), metric_four())]


def test_a_batch_writes_its_files_and_leaves_nothing_else(tmp_path, builds):
    out = tmp_path / "new" / "out"
    written = write_outputs(out, builds, [Unreadable("old.xls", "this is an old .xls book")])
    names = ["24-031-small-V8.html", "24-031-small-V8.json", "four.html", "four.json",
             "readings.csv", "findings.csv", "index.html"]  # fmt: skip
    assert [p.name for p in written] == names
    assert sorted(p.name for p in out.iterdir()) == sorted([*names, LIST])
    index = (out / "index.html").read_text("utf-8")
    assert 'href="./four.html"' in index
    assert "old.xls" in index


def test_a_job_number_with_path_tricks_names_no_file(tmp_path):
    tricky = replace(
        inch_v8(), job=Job(number=JobField("../../outside")), file_name="../x/../b.xlsx"
    )
    out = tmp_path / "out"
    written = write_outputs(out, [build_of(tricky, check(tricky), Shop())])
    assert all(p.parent == out for p in written)
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def test_two_runs_give_the_same_bytes_whatever_the_hash_seed(tmp_path):
    program = (
        "import sys; sys.path.insert(0, sys.argv[1])\n"
        "from pathlib import Path\n"
        "from sample import inch_v8, metric_four\n"
        "from workbook_tools.findings import check\n"
        "from workbook_tools.batch.build import build_of\n"
        "from workbook_tools.batch.output import write_outputs\n"
        "from workbook_tools.settings.shop import Shop\n"
        "made = [build_of(b, check(b), Shop()) for b in (inch_v8(), metric_four())]\n"
        "write_outputs(Path(sys.argv[2]), made)\n"
    )
    runs = []
    for seed in ("1", "2"):
        out = tmp_path / seed
        subprocess.run(
            [sys.executable, "-c", program, str(Path(__file__).parents[1]), str(out)],
            env={**os.environ, "PYTHONHASHSEED": seed},
            check=True,
        )
        runs.append({p.name: p.read_bytes() for p in out.iterdir()})
    assert runs[0] == runs[1]
    assert len(runs[0]) == 8


@pytest.mark.skipif("sys.platform == 'win32'")
def test_a_write_that_fails_leaves_the_old_file_whole(tmp_path, builds):
    import resource

    write_outputs(tmp_path, builds)
    before = {p.name: p.read_bytes() for p in tmp_path.iterdir()}
    least = min(map(len, before.values()))
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (least // 2, usual[1]))
    try:
        with pytest.raises(OSError, match="too large"):
            write_outputs(tmp_path, builds)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)
    assert {p.name: p.read_bytes() for p in tmp_path.iterdir()} == before


def test_pieces_of_a_killed_run_are_taken_away_and_those_of_a_running_one_left(tmp_path, builds):
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    (tmp_path / f".four.html.{here()}.{ended.pid}.part").write_text("half")
    (tmp_path / f".four.html.{here()}.{os.getppid()}.part").write_text("half")
    write_outputs(tmp_path, builds)
    # On Windows nobody can ask; there a file that a running program writes cannot be taken away.
    left = [] if os.name == "nt" else [f".four.html.{here()}.{os.getppid()}.part"]
    assert [p.name for p in tmp_path.glob(".*")] == left


def test_pieces_of_another_machine_are_left_until_nobody_can_be_at_them(tmp_path, builds):
    ended = subprocess.Popen([sys.executable, "-c", ""])
    ended.wait()
    for age, number in ((0, "0123456789"), (3, "9876543210")):
        for name in (f".{age}.html.{number}.{ended.pid}.part", f".{age}.html.{ended.pid}.part"):
            (tmp_path / name).write_text("half")
            then = time.time() - age * 86_400
            os.utime(tmp_path / name, (then, then))
    write_outputs(tmp_path, builds)
    assert sorted(p.name for p in tmp_path.glob(".*")) == [
        f".0.html.0123456789.{ended.pid}.part",
        f".0.html.{ended.pid}.part",
    ]


@pytest.mark.skipif("not Path('/proc/self/ns/pid').exists()")
def test_another_container_of_this_machine_is_another_machine():
    code = "from workbook_tools.batch.whole_file import here; print(here())"
    plain = [sys.executable, "-c", code]
    apart = ["unshare", "--user", "--map-root-user", "--pid", "--fork", "--mount-proc", *plain]
    try:
        inside = subprocess.run(apart, capture_output=True, text=True, check=True)
    except (OSError, subprocess.CalledProcessError):
        pytest.skip("no other process numbers can be had here")
    same = subprocess.run(plain, capture_output=True, text=True, check=True)
    assert same.stdout.strip() == here()
    assert inside.stdout.strip() != here()


def test_names_of_many_bytes_leave_room_for_endings_and_pieces(tmp_path):
    for letters in ("\U00020000" * 60, "\u6f22" * 60):
        path = tmp_path / f"{letters}.xlsx"
        try:
            path.write_bytes((EXAMPLES / "flat_twin.xlsx").read_bytes())
        except OSError:  # Such a name is too long for this disk; copy it under half of it.
            path = tmp_path / f"{letters[:50]}.xlsx"
            path.write_bytes((EXAMPLES / "flat_twin.xlsx").read_bytes())
    done = summarize_books([tmp_path], tmp_path / "out", kinds=KINDS)
    assert done.read == 2
    pages = [p.name for p in (tmp_path / "out").glob("*-customer.html")]
    assert len(pages) == 2
    assert max(len(name.encode()) for name in pages) <= 150


def test_templates_of_an_installed_package_come_before_a_folder_beside_it(tmp_path):
    source = Path(sys.modules["workbook_tools.render.templates"].__file__)
    module = tmp_path / "site" / "workbook_tools" / "render" / "templates.py"
    module.parent.mkdir(parents=True)
    module.write_bytes(source.read_bytes())
    found = {"__file__": str(module)}
    exec(compile(module.read_text(), module, "exec"), found)
    with pytest.raises(FileNotFoundError, match="install workbook-tools again"):
        found["template_folder"]()
    beside = tmp_path / "site" / "templates"
    inside = tmp_path / "site" / "workbook_tools" / "templates"
    for folder in (beside, inside):
        folder.mkdir()
        (folder / "summary.html.jinja").write_text("")
        assert found["template_folder"]() == folder
    assert template_folder().name == "templates"
