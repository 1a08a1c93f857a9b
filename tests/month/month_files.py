"""What the tests of a month's files share: the files of a month, and what is in them."""

from sample import inch_v8, metric_four

from workbook_tools.batch.build import build_of
from workbook_tools.findings import check
from workbook_tools.month.month import write_month
from workbook_tools.month.period import period
from workbook_tools.settings.shop import Shop

SHOP = Shop("Example Engines", ("12 Example Lane",))


def written(folder, books=None, name="2024-04", shop=SHOP, unread=()):
    """The month's files from books in memory."""
    books = books or [inch_v8(), metric_four()]
    builds = [build_of(book, check(book), shop, ("html",), month=True) for book in books]
    write_month(period(name), builds, folder, shop, unread)
    return content(folder)


def content(folder):
    files = (p for p in sorted(folder.rglob("*")) if p.is_file())
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in files}
