"""A record that is given out again: its revision, its day, and what changed since the last copy."""

import datetime
import json
import zipfile

import openpyxl
import pytest

from workbook_tools.batch.batch import summarize_books

PAGES = ("html", "json", "customer")
ALL = (*PAGES, "pdf", "xlsx")
MAINS = [0.0024, 0.0026, 0.0025, 0.0027, 0.0025]
DAY = datetime.datetime(2026, 3, 2, 10, 0)


def write(
    path, *, mains=MAINS, released="RL", finished="2026-03-01", above=(), day=DAY, job="26-7"
):
    """A finished job: main clearances with their band, a gasket, and who released it."""
    book = openpyxl.Workbook()
    sheet = book.active
    for row in (
        ["Job no.", job],
        ["Finished", finished],
        *above,
        ["Main", *range(1, len(mains) + 1)],
        ["Main bearing clearance (in)", *mains],
        ["Gasket, compressed (in)", 0.039],
        ["Deck clearance (in)", 0.005],
    ):
        sheet.append(row)
    last = sheet.max_row
    sheet[f"A{last + 1}"], sheet[f"B{last + 1}"] = "Quench", f"=ENG.QUENCH(B{last},B{last - 1})"
    sheet[f"A{last + 2}"] = "Mains in band"
    sheet[f"B{last + 2}"] = f"=ENG.JUDGE(B{last - 2}:F{last - 2},5,0.002,0.003)"
    sheet[f"A{last + 4}"], sheet[f"B{last + 4}"] = "Released by", released
    path.parent.mkdir(parents=True, exist_ok=True)
    book.properties.modified = day
    book.save(path)
    # openpyxl writes the time of saving itself; the builder saved on the day given.
    with zipfile.ZipFile(path) as made:
        parts = {name: made.read(name) for name in made.namelist()}
    core = "docProps/core.xml"
    before, _, after = parts[core].partition(b"</dcterms:modified>")
    parts[core] = before[: before.rindex(b">") + 1] + day.strftime("%FT%TZ").encode() + _ + after
    with zipfile.ZipFile(path, "w") as made:
        for name, content in parts.items():
            made.writestr(name, content)


class Shop:
    """One book, and the folder that its summaries go into."""

    def __init__(self, folder):
        self.book, self.out = folder / "books" / "job.xlsx", folder / "out"

    def give_out(self, kinds=PAGES, **changed):
        write(self.book, **changed)
        return self.again(kinds)

    def again(self, kinds=PAGES):
        summarize_books([self.book], self.out, kinds=kinds)
        return json.loads((self.out / "job.json").read_text(encoding="utf-8"))["revision"]

    @property
    def files(self):
        return {path.name: path.read_bytes() for path in sorted(self.out.iterdir())}

    def page(self, name):
        return (self.out / name).read_text(encoding="utf-8")


@pytest.fixture
def shop(tmp_path):
    return Shop(tmp_path)


NEXT = datetime.datetime(2026, 4, 9, 8, 0)
REWORKED = [*MAINS[:2], 0.0028, *MAINS[3:]]


def test_a_first_copy_has_no_revision(shop):
    assert shop.give_out() is None
    assert "revision" not in shop.page("job.html")
    first = shop.files
    assert shop.again() is None
    assert shop.files == first


def test_a_released_record_that_changed_says_which_number_and_what_it_was(shop):
    shop.give_out()
    told = shop.give_out(mains=REWORKED, day=NEXT)
    assert (told["number"], told["on"]) == (2, "2026-04-09")
    (value,) = [one for one in told["values"] if one["measurand"] == "main_bearing_clearance"]
    assert (value["cell"], value["was"], value["is"]) == (
        "D4",
        {"value": 0.0025, "unit": "in"},
        {"value": 0.0028, "unit": "in"},
    )
    page = shop.page("job.html")
    assert "Build record, revision 2 of 2026-04-09" in page
    for said in ("0.0025 in", "0.0028 in", "Sheet!D4", "Main bearing clearance, Main 3"):
        assert said in page.partition("Changed since the last copy</h2>")[2].partition("<h2")[0]


def test_a_second_run_without_a_change_keeps_the_revision_and_every_byte(shop):
    shop.give_out()
    shop.give_out(ALL, mains=REWORKED, day=NEXT)
    before = shop.files
    assert shop.again(ALL)["number"] == 2
    assert shop.files == before


def test_the_customer_is_told_the_key_facts_that_changed_and_no_cell(shop):
    shop.give_out()
    shop.give_out(mains=REWORKED, day=NEXT)
    page = shop.page("job-customer.html")
    assert "Main bearing clearance 0.0024 to 0.0027 in → 0.0024 to 0.0028 in." in page
    assert "D4" not in page


def test_a_number_out_of_its_band_is_a_new_finding_and_then_gone(shop):
    shop.give_out()
    told = shop.give_out(mains=[*MAINS[:4], 0.0034])
    assert [one["code"] for one in told["found"]] == ["out-of-band"]
    assert told["gone"] == []
    told = shop.give_out()
    assert [one["code"] for one in told["gone"]] == ["out-of-band"]
    assert (told["number"], told["found"]) == (3, [])


def test_signatures_that_were_added_are_told(shop):
    shop.give_out(released=None)
    told = shop.give_out()
    assert [(one["label"], one["was"], one["is"]["value"]) for one in told["signed"]] == [
        ("Released by", None, "RL")
    ]
    assert "1 signature added" in shop.page("job.html")


def test_rows_that_only_moved_are_no_change(shop):
    shop.give_out()
    assert shop.give_out(above=[["Remark", "engine came back for a leaking plug"]]) is None


def test_a_book_that_was_never_released_has_no_revision(shop):
    shop.give_out(finished=None)
    assert shop.give_out(finished=None, mains=REWORKED) is None
    assert shop.give_out(mains=REWORKED) is None


def test_what_is_changed_until_a_record_is_released_anew_is_one_revision(shop):
    shop.give_out()
    told = shop.give_out(finished=None, mains=[0.0021, *MAINS[1:]])
    assert "draft of revision 2" in shop.page("job.html")
    told = shop.give_out(finished=None, mains=[0.0022, *REWORKED[1:]])
    told = shop.give_out(finished="2026-04-08", mains=[MAINS[0], *REWORKED[1:]], day=NEXT)
    assert told["number"] == 2
    changed = {one["label"]: (one["was"]["value"], one["is"]["value"]) for one in told["values"]}
    # Main 1 was opened and came back to what it was.
    assert changed == {
        "Finished": ("2026-03-01", "2026-04-08"),
        "Main bearing clearance, Main 3": (0.0025, 0.0028),
    }


def test_a_book_of_another_job_is_no_later_copy(shop):
    shop.give_out()
    assert shop.give_out(job="26-8", mains=REWORKED) is None


def test_two_books_of_one_name_are_not_each_others_copies(tmp_path):
    shop = Shop(tmp_path)
    shop.give_out()
    write(tmp_path / "books" / "other" / "job.xlsx", mains=REWORKED)
    write(shop.book, mains=REWORKED, day=NEXT)
    summarize_books([tmp_path / "books"], shop.out)
    told = [json.loads(p.read_text("utf-8")) for p in shop.out.glob("job-*.json")]
    assert [one["revision"] for one in told] == [None, None]


def test_more_changes_than_a_page_holds_are_counted(shop):
    wide = [0.0021 + 0.0001 * (n % 7) for n in range(48)]
    shop.give_out(mains=wide)
    told = shop.give_out(mains=[round(value + 0.0001, 4) for value in wide])
    assert len(told["values"]) == 48
    assert "and 8 more, in the JSON" in shop.page("job.html")
