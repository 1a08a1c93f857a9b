"""A month of books: this tool, LibreOffice with pandas, and openpyxl loading alone, in one run.

Run by hand: python tests/benchmarks/batch_speed.py [--books 500] [--many 5000] [--jobs N].
All arms work on the same generated books, one after the other, each in a process of its own:

- this tool: read, recalculate, check, HTML, JSON and tables, nothing kept from before, with one
  worker process and with N (as many as there are cores);
- LibreOffice: headless conversion, then pandas reads every sheet of each result; a hundred
  books a call, and with one call a book, as a script that works through books has it, for the
  first twenty (left out where LibreOffice is not installed);
- openpyxl: each book loaded twice, for formulas and for values, and nothing else.

Then the peak memory of this tool at both numbers of books: of its own process, and of the
largest process that it started.
"""

from __future__ import annotations

import argparse
import json
import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from reading_speed import arm_openpyxl, write_book


def arm_tool(folder: Path, jobs: int) -> None:
    """Summarize every book with this many worker processes."""
    from workbook_tools.batch.batch import summarize_books

    with tempfile.TemporaryDirectory() as out:
        summarize_books([folder], Path(out), jobs=jobs)


def arm_libreoffice(folder: Path, at_once: int) -> None:
    """Have LibreOffice convert every book, so many at once, and pandas read what it wrote."""
    import pandas as pd

    books = sorted(folder.glob("*.xlsx"))
    with tempfile.TemporaryDirectory() as name:
        for first in range(0, len(books), at_once):
            subprocess.run(
                ["soffice", f"-env:UserInstallation=file://{name}/profile", "--headless",
                 "--convert-to", "xlsx", "--outdir", f"{name}/out",
                 *books[first : first + at_once]],
                check=True,
                stdout=subprocess.DEVNULL,
            )  # fmt: skip
        made = sorted(Path(name, "out").glob("*.xlsx"))
        assert len(made) == len(books), f"{len(books)} books gave {len(made)}"
        for path in made:
            pd.read_excel(path, sheet_name=None)


def run_arm(name: str, folder: Path, jobs: int = 0) -> tuple[float, dict[str, float]]:
    """Seconds and peak memory (MB) of one arm in a process of its own."""
    started = time.perf_counter()
    done = subprocess.run(
        [sys.executable, __file__, "--arm", name, "--folder", folder, "--jobs", str(jobs)],
        check=True,
        stdout=subprocess.PIPE,
        text=True,
    )
    return time.perf_counter() - started, json.loads(done.stdout.splitlines()[-1])


def write_books(folder: Path, count: int) -> Path:
    """A folder of this many books."""
    folder.mkdir()
    for seed in range(count):
        write_book(folder / f"job{seed:05}.xlsx", seed)
    return folder


def main() -> None:
    """Write the books, run the arms, print what they took."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--books", type=int, default=500)
    parser.add_argument("--many", type=int, default=5000, help="0 leaves the memory of many out")
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--arm", choices=["tool", "libreoffice", "openpyxl"])
    parser.add_argument("--folder", type=Path)
    options = parser.parse_args()
    if options.arm:
        if options.arm == "openpyxl":
            arm_openpyxl(options.folder)
        else:
            arm = {"tool": arm_tool, "libreoffice": arm_libreoffice}[options.arm]
            arm(options.folder, options.jobs)
        who = {"own": resource.RUSAGE_SELF, "started": resource.RUSAGE_CHILDREN}
        print(json.dumps({k: resource.getrusage(w).ru_maxrss / 1024 for k, w in who.items()}))
        return
    with tempfile.TemporaryDirectory() as name:
        compare(Path(name), options.books, options.many, options.jobs)


def compare(folder: Path, count: int, many: int, jobs: int) -> None:
    """Run every arm and print what it took."""
    books = write_books(folder / "books", count)
    seconds: dict[str, float] = {}
    memory: dict[int, dict[str, float]] = {}
    seconds["openpyxl, two loads"], _ = run_arm("openpyxl", books)
    seconds["this tool, 1 process"], memory[count] = run_arm("tool", books, 1)
    if jobs > 1:
        seconds[f"this tool, {jobs} processes"], memory[count] = run_arm("tool", books, jobs)
    each = {title: taken / count for title, taken in seconds.items()}
    fastest = min(each[title] for title in each if "tool" in title)
    office = []
    if shutil.which("soffice"):
        few = write_books(folder / "few", min(20, count))
        office = ["LibreOffice, pandas", "the same, a call a book"]
        each[office[0]] = run_arm("libreoffice", books, 100)[0] / count
        each[office[1]] = run_arm("libreoffice", few, 1)[0] / min(20, count)
    print(f"{count} books")
    for title, taken in each.items():
        print(f"  {title:24} {1 / taken:7.1f} books a second")
    plain = each["openpyxl, two loads"]
    print(f"  this tool, times openpyxl's two loads, 1 process: "
          f"{each['this tool, 1 process'] / plain:.2f}; "
          f"{jobs} processes, for each: {fastest * jobs / plain:.2f}")  # fmt: skip
    for title in office:
        print(f"  this tool, times as fast as {title}: {each[title] / fastest:.1f}")
    if many:
        memory[many] = run_arm("tool", write_books(folder / "many", many), jobs)[1]
    for number, peak in memory.items():
        own, started = peak["own"], peak["started"]
        print(f"peak memory at {number} books: {own:.0f} MB, largest worker {started:.0f} MB")


if __name__ == "__main__":
    main()
