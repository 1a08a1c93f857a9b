"""How fast books are read and summarized, against loading them with openpyxl and no more.

Run by hand: python tests/benchmarks/reading_speed.py [--books 200]. Both arms run on the
same generated books, one after the other, each in a process of its own on one core, the tool
as its command is; what counts is the ratio. Needs the test extra (XlsxWriter writes books that
carry results).
"""

from __future__ import annotations

import argparse
import compileall
import json
import os
import random
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

CYLINDERS = 8


def write_book(path: Path, seed: int) -> None:
    """A book of about 300 cells and 40 calls, with labels, readings and saved results."""
    import xlsxwriter

    pick = random.Random(seed)
    with xlsxwriter.Workbook(path) as book:
        sheet = book.add_worksheet("Build")
        for row, (label, value) in enumerate(
            [("Job no.", f"26-{seed:03}"), ("Customer", f"Customer {seed}"), ("Engine", "inch V8")]
        ):
            sheet.write_row(row, 0, [label, value])
        sheet.write_row(4, 0, ["Cylinder", *range(1, CYLINDERS + 1)])
        readings: dict[str, float] = {}
        items = ["Deck clearance", "Gasket", "Bore", "Piston", "Housing", "Shell", "Journal"]
        sizes = [0.006, 0.038, 4.03, 4.0258, 2.641, 0.095, 2.4486]
        for row, (item, size) in enumerate(zip(items, sizes, strict=True), 5):
            sheet.write_string(row, 0, f"{item} (in)")
            for column in range(1, CYLINDERS + 1):
                value = round(size + pick.uniform(0, 2e-4), 4)
                readings[f"{chr(ord('A') + column)}{row + 1}"] = value
                sheet.write_number(row, column, value)
        results = [
            ("Quench", "=ENG.QUENCH({c}6,{c}7)"),
            ("Piston clearance", "=ENG.PISTON_CLEARANCE({c}8,{c}9)"),
            ("Bearing clearance", "=ENG.BEARING_CLEARANCE({c}10,{c}11,{c}12)"),
            ("Ring gap", "=ENG.RING_GAP({c}8,0.0045)"),
            ("Verdict", "=ENG.VERDICT({c}14,0.03,0.06)"),
        ]
        for row, (item, formula) in enumerate(results, 13):
            sheet.write_string(row, 0, item)
            for column in range(1, CYLINDERS + 1):
                letter = chr(ord("A") + column)
                text = formula.format(c=letter)
                result = result_of(text, readings)
                readings[f"{letter}{row + 1}"] = result
                sheet.write_formula(row, column, text, None, result)
        for row in range(20, 45):
            sheet.write_row(row, 0, ["Note", *(round(pick.random(), 3) for _ in range(7))])


def result_of(formula: str, cells: dict[str, float]) -> float | str:
    """What a program with the functions would have saved for a call."""
    from workbook_tools.catalog import calculate, find

    name, arguments = re.fullmatch(r"=(ENG\.\w+)\((.*)\)", formula).groups()
    values = [cells[a] if a in cells else float(a) for a in arguments.split(",")]
    return calculate(find(name), values).value


def arm_openpyxl(folder: Path) -> None:
    """Load every book twice, for formulas and for values, and nothing else."""
    import openpyxl

    for path in sorted(folder.glob("*.xlsx")):
        openpyxl.load_workbook(path)
        openpyxl.load_workbook(path, data_only=True)


def as_the_command_does() -> None:
    """Say that this process runs the tool alone, as `workbook-tools summarize` does at once.

    What reads the options is left out: the others have none.
    """
    from workbook_tools.batch.own_process import load_openpyxl, own_process
    from workbook_tools.batch.sweeps import sweep_seldom

    own_process()
    sweep_seldom()
    load_openpyxl()


def compile_modules() -> None:
    """Compile the tool's modules where they are not yet, as openpyxl's were when it was installed.

    Else each process may compile them anew, where its user wants nothing written beside them.
    """
    import workbook_tools

    compileall.compile_dir(Path(workbook_tools.__file__).parent, quiet=2)


def arm_summarize(folder: Path) -> None:
    """Read, recompute, check, and write HTML, JSON and tables for every book."""
    as_the_command_does()
    from workbook_tools.batch.batch import summarize_books

    summarize_books([folder], folder / "out")


def run_arm(name: str, folder: Path) -> dict[str, float]:
    """Seconds and peak memory (MB) of one arm in a process of its own."""
    started = time.perf_counter()
    done = subprocess.run(
        [sys.executable, __file__, "--arm", name, "--folder", str(folder)],
        check=True,
        capture_output=True,
        text=True,
        env=os.environ,
    )
    seconds = time.perf_counter() - started
    return {"seconds": seconds, "peak": json.loads(done.stdout.splitlines()[-1])}


def main() -> None:
    """Write the books, run both arms, print the ratio."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--books", type=int, default=200)
    parser.add_argument("--arm", choices=["openpyxl", "summarize"])
    parser.add_argument("--folder", type=Path)
    options = parser.parse_args()
    if options.arm:
        {"openpyxl": arm_openpyxl, "summarize": arm_summarize}[options.arm](options.folder)
        import resource

        print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
        return
    compile_modules()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for seed in range(options.books):
            write_book(folder / f"job{seed:04}.xlsx", seed)
        plain, ours = run_arm("openpyxl", folder), run_arm("summarize", folder)
    for title, arm in (("openpyxl, two loads", plain), ("summarize", ours)):
        each = arm["seconds"] / options.books
        print(f"{title:20} {each * 1000:7.1f} ms a book   peak {arm['peak']:.0f} MB")
    print(f"ratio {ours['seconds'] / plain['seconds']:.2f}")


if __name__ == "__main__":
    main()
