"""A month of books: this tool, LibreOffice with pandas, and openpyxl loading alone, in one run.

Run by hand: python tests/benchmarks/batch_speed.py [--books 500] [--many 5000] [--jobs N].
All arms work on the same generated books, one after the other, each in a process of its own:

- this tool: read, recalculate, check, HTML, JSON and tables, nothing kept from before, with one
  worker process and with N (as many as there are cores);
- LibreOffice: one headless conversion of all books, then pandas reads every sheet of each
  result (the arm is left out where LibreOffice is not installed);
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
    from workbook_tools.reports.batch import summarize_books

    with tempfile.TemporaryDirectory() as out:
        summarize_books([folder], Path(out), jobs=jobs)


def arm_libreoffice(folder: Path) -> None:
    """Have LibreOffice convert every book, and pandas read what it wrote."""
    import pandas as pd

    with tempfile.TemporaryDirectory() as name:
        out = Path(name, "out")
        subprocess.run(
            ["soffice", f"-env:UserInstallation=file://{name}/profile", "--headless",
             "--convert-to", "xlsx", "--outdir", out, *sorted(folder.glob("*.xlsx"))],
            check=True,
            stdout=subprocess.DEVNULL,
        )  # fmt: skip
        made = sorted(out.glob("*.xlsx"))
        assert len(made) == len(list(folder.glob("*.xlsx")))
        for path in made:
            pd.read_excel(path, sheet_name=None)


def run_arm(name: str, folder: Path, jobs: int = 0) -> tuple[float, dict[str, float]]:
    """Seconds and peak memory (MB) of one arm in a process of its own."""
    command = [
        sys.executable,
        __file__,
        "--arm",
        name,
        "--folder",
        str(folder),
        "--jobs",
        str(jobs),
    ]
    started = time.perf_counter()
    done = subprocess.run(command, check=True, capture_output=True, text=True)
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
        arm = {"libreoffice": arm_libreoffice, "openpyxl": arm_openpyxl}.get(options.arm)
        if arm:
            arm(options.folder)
        else:
            arm_tool(options.folder, options.jobs)
        who = {"own": resource.RUSAGE_SELF, "started": resource.RUSAGE_CHILDREN}
        print(json.dumps({k: resource.getrusage(w).ru_maxrss / 1024 for k, w in who.items()}))
        return
    with tempfile.TemporaryDirectory() as name:
        folder = write_books(Path(name, "books"), options.books)
        arms = {"openpyxl, two loads": run_arm("openpyxl", folder)}
        for jobs in sorted({1, options.jobs}):
            arms[f"this tool, {jobs} at work"] = run_arm("tool", folder, jobs)
        if shutil.which("soffice"):
            arms["LibreOffice and pandas"] = run_arm("libreoffice", folder)
        print(f"{options.books} books")
        for title, (seconds, _) in arms.items():
            print(f"  {title:24} {options.books / seconds:7.1f} books a second")
        plain = arms["openpyxl, two loads"][0]
        print(
            f"  one core, times openpyxl's two loads: {arms['this tool, 1 at work'][0] / plain:.2f}"
        )
        fastest = arms[f"this tool, {options.jobs} at work"][0]
        print(
            f"  {options.jobs} cores, the same for each core: {fastest * options.jobs / plain:.2f}"
        )
        if "LibreOffice and pandas" in arms:
            office = arms["LibreOffice and pandas"][0]
            print(f"  times as fast as LibreOffice and pandas: {office / fastest:.1f}")
        shown = {options.books: arms[f"this tool, {options.jobs} at work"][1]}
        if options.many:
            many = write_books(Path(name, "many"), options.many)
            shown[options.many] = run_arm("tool", many, options.jobs)[1]
        for count, peak in shown.items():
            print(
                f"peak memory at {count} books: {peak['own']:.0f} MB, "
                f"largest worker {peak['started']:.0f} MB"
            )


if __name__ == "__main__":
    main()
