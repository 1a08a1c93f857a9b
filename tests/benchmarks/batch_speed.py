"""A month of books: this tool, LibreOffice with pandas, and openpyxl loading alone, in one run.

Run by hand: python tests/benchmarks/batch_speed.py [--books 500] [--many 5000] [--jobs N]
[--filled 6] [--compare | --keep]. All arms work on the same generated books, one after the
other, each in a process of its own, and what is counted are seconds of a core:

- this tool: read, recalculate, check, HTML, JSON and tables, with one worker process and with N
  (as many as there are cores), in a process of its own as the command is; no results are kept
  from before, but the program's own tables and templates, as its modules are, compiled;
- LibreOffice: headless conversion, then pandas reads every sheet of each result; a hundred
  books a call, and with one call a book, as a script that works through books has it, for the
  first five (left out where LibreOffice is not installed);
- openpyxl: each book loaded twice, for formulas and for values, and nothing else.

The first and the last also work on filled build books of some 2,500 cells, with one process;
these are copies of two, and so each is summarized as a batch of its own.
What counts are the ratios, for they hang little on the machine. --keep writes them into
ratios.json with the numbers of books, --compare works on as many books and says which of the
ratios are worse than there by more than a tenth, and ends
with 1 where any is.

Then the peak memory of this tool at both numbers of books: of its own process, and of the
largest process that it started.
"""

from __future__ import annotations

import argparse
import atexit
import json
import os
import resource
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from reading_speed import arm_openpyxl, as_the_command_does, compile_modules, write_book

EXAMPLES = Path(__file__).parents[2] / "example_books"
KEPT = Path(__file__).with_name("ratios.json")
# Runs of one and the same program differ by less.
TOLERATED = 1.1


def arm_tool(folder: Path, jobs: int) -> None:
    """Summarize every book with this many worker processes."""
    as_the_command_does()
    from workbook_tools.batch.batch import summarize_books

    with tempfile.TemporaryDirectory() as out:
        summarize_books([folder], Path(out), jobs=jobs)


def arm_each(folder: Path) -> None:
    """Summarize one book after the other: they are copies, which a batch would read anew."""
    as_the_command_does()
    from workbook_tools.batch.batch import summarize_books

    for book in sorted(folder.glob("*.xlsx")):
        with tempfile.TemporaryDirectory() as out:
            summarize_books([book], Path(out))


def arm_libreoffice(folder: Path, at_once: int) -> None:
    """Have LibreOffice convert every book, so many at once, and pandas read what it wrote."""
    import pandas as pd

    books = sorted(folder.glob("*.xlsx"))
    with tempfile.TemporaryDirectory() as name:
        for first in range(0, len(books), at_once):
            # Its warnings tell of the machine, not of the books.
            subprocess.run(
                ["soffice", f"-env:UserInstallation=file://{name}/profile", "--headless",
                 "--convert-to", "xlsx", "--outdir", f"{name}/out",
                 *books[first : first + at_once]],
                check=True,
                stdout=subprocess.DEVNULL,
                stderr=subprocess.DEVNULL,
            )  # fmt: skip
        made = sorted(Path(name, "out").glob("*.xlsx"))
        assert len(made) == len(books), f"{len(books)} books gave {len(made)}"
        for path in made:
            pd.read_excel(path, sheet_name=None)


def run_arm(name: str, folder: Path, jobs: int = 0) -> tuple[float, dict[str, float]]:
    """Seconds of a core and peak memory (MB) of one arm in a process of its own.

    Of all processes that it starts too: what else the machine does counts little so.
    """
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    arm = ["--arm", name, "--folder", folder, "--jobs", str(jobs)]
    done = subprocess.run(
        [sys.executable, "-W", "ignore", __file__, *arm],
        check=True,
        stdout=subprocess.PIPE,
        text=True,
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    seconds = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return seconds, json.loads(done.stdout.splitlines()[-1])


def tell_memory() -> None:
    """Print the peak memory (MB) of this process and of the largest that it started."""
    who = {"own": resource.RUSAGE_SELF, "started": resource.RUSAGE_CHILDREN}
    print(json.dumps({k: resource.getrusage(w).ru_maxrss / 1024 for k, w in who.items()}))


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
    parser.add_argument("--filled", type=int, default=6, help="how many filled build books")
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--arm", choices=["tool", "each", "libreoffice", "openpyxl"])
    parser.add_argument("--folder", type=Path)
    what = parser.add_mutually_exclusive_group()
    what.add_argument("--keep", action="store_true", help="write ratios.json anew")
    what.add_argument("--compare", action="store_true", help="say what is slower than it tells")
    options = parser.parse_args()
    if options.arm:
        # Said after all else, when the processes that were started are waited for.
        atexit.register(tell_memory)
        if options.arm == "openpyxl":
            arm_openpyxl(options.folder)
        elif options.arm == "each":
            arm_each(options.folder)
        else:
            arm = {"tool": arm_tool, "libreoffice": arm_libreoffice}[options.arm]
            arm(options.folder, options.jobs)
        return
    compile_modules()
    if options.compare and not KEPT.exists():
        parser.error(f"there is no {KEPT} yet; write it with --keep, on a machine at rest")
    if options.compare:
        # A start weighs more on a few books than on many: as many are taken as were then.
        kept = json.loads(KEPT.read_text("utf-8"))
        options.books, options.filled = kept["books"], kept["filled"]
    with tempfile.TemporaryDirectory() as name:
        ratios = measured(Path(name), options.books, options.filled, options.many, options.jobs)
    for title, ratio in ratios.items():
        print(f"{title}: {ratio:.2f}")
    if options.keep:
        kept = {"books": options.books, "filled": options.filled, "ratios": ratios}
        KEPT.write_text(json.dumps(kept, indent=2) + "\n", "utf-8")
    if options.compare:
        worse = slower(kept["ratios"], ratios)
        print("\n".join(worse) or "Nothing is slower than kept.")
        sys.exit(bool(worse))


def measured(folder: Path, count: int, filled: int, many: int, jobs: int) -> dict[str, float]:
    """Run every arm, print how fast each is, and return the ratios; smaller is better."""
    books = write_books(folder / "books", count)
    seconds = {"openpyxl": run_arm("openpyxl", books)[0]}
    seconds["1 process"], peak = run_arm("tool", books, 1)
    memory = {count: peak}
    if jobs > 1:
        seconds[f"{jobs} processes"], memory[count] = run_arm("tool", books, jobs)
    each = {title: taken / count for title, taken in seconds.items()}
    ratios = {"generated books, 1 process / openpyxl": each["1 process"] / each["openpyxl"]}
    if shutil.which("soffice"):
        few = write_books(folder / "few", min(5, count))
        each["LibreOffice, pandas"] = run_arm("libreoffice", books, 100)[0] / count
        each["the same, a call a book"] = run_arm("libreoffice", few, 1)[0] / min(5, count)
        for title in ("LibreOffice, pandas", "the same, a call a book"):
            ratios[f"generated books, 1 process / {title}"] = each["1 process"] / each[title]
    ratios["filled build books, 1 process / openpyxl"] = of_filled(folder / "filled", filled)
    for title, taken in each.items():
        print(f"{title:24} {1 / taken:7.1f} books a second of a core")
    if many:
        memory[many] = run_arm("tool", write_books(folder / "many", many), jobs)[1]
    for number, kept in memory.items():
        own, started = kept["own"], kept["started"]
        print(f"peak memory at {number} books: {own:.0f} MB, largest worker {started:.0f} MB")
    return ratios


def of_filled(folder: Path, count: int) -> float:
    """The time that this tool takes for filled build books, as a multiple of openpyxl's."""
    folder.mkdir()
    examples = sorted(EXAMPLES.glob("build_book_*.xlsx"))
    for number in range(count):
        shutil.copyfile(examples[number % len(examples)], folder / f"{number:03}.xlsx")
    return run_arm("each", folder)[0] / run_arm("openpyxl", folder)[0]


def slower(kept: dict[str, float], now: dict[str, float]) -> list[str]:
    """A line for each ratio that is worse than it was kept."""
    return [
        f"slower: {title}, {ratio:.2f} after {kept[title]:.2f}"
        for title, ratio in now.items()
        if title in kept and ratio > kept[title] * TOLERATED
    ]


if __name__ == "__main__":
    main()
