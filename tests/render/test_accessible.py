"""Pages in a real browser: no violation that axe-core knows of, and none wider than a phone.

The rules are those of axe-core, an open-source checker of the W3C's Web Content Accessibility
Guidelines (WCAG 2.2) and of good practice. AXE_CORE names its script, axe.min.js.
"""

import html
import json
import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from workbook_tools.batch.batch import summarize_books
from workbook_tools.month.month import summarize_month
from workbook_tools.settings.shop import Shop

EXAMPLES = Path(__file__).parents[2] / "example_books"
BOOKS = [EXAMPLES / f"{name}.xlsx" for name in ("build_book_metric_four", "troubled_six")]
PAGES = (
    "batch/index.html",
    "batch/build_book_metric_four.html",
    "batch/troubled_six.html",
    "batch/troubled_six-customer.html",
    "month/index.html",
)
# CSS pixels: a desk's screen, and a phone's.
SCREEN, PHONE = 1280, 390

_RUN = """
axe.run(document).then((told) => {
  const page = document.documentElement;
  const said = {
    violations: told.violations.map((v) => [v.id, v.help, v.nodes.map((n) => n.html)]),
    passes: told.passes.map((one) => one.id),
    width: page.scrollWidth, window: window.innerWidth,
  };
  parent.document.title = JSON.stringify(said);
});
"""

pytestmark = [pytest.mark.slow, pytest.mark.needs("chromium", "google-chrome")]


@pytest.fixture(scope="module")
def axe():
    """The script of axe-core, as it goes into a page."""
    named = os.environ.get("AXE_CORE", "")
    if not named:
        pytest.skip("AXE_CORE does not name axe-core's script")
    return Path(named).read_text(encoding="utf-8").replace("</script", "<\\/script")


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    folder = tmp_path_factory.mktemp("pages")
    summarize_books(BOOKS, folder / "batch", kinds=("html", "json", "customer"))
    summarize_month("2025-03", BOOKS, folder / "month", Shop(), to="2025-06")
    return folder


def looked_at(page, axe, width, folder):
    """What axe-core says of a page in a window of this width."""
    text = page.read_text(encoding="utf-8")
    text = text.replace("</body>", f"<script>{axe}</script><script>{_RUN}</script></body>")
    # A browser's own window is never as narrow as a phone's; a frame in it is.
    frame = f'<iframe width="{width}" height="900" style="border:0" srcdoc="{html.escape(text)}">'
    tried = folder / "tried.html"
    tried.write_text(f"<title></title>{frame}</iframe>", encoding="utf-8")
    flags = [
        "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", f"--user-data-dir={folder / 'profile'}",
        "--window-size=1400,1000", "--virtual-time-budget=60000", "--dump-dom",
    ]  # fmt: skip
    program = shutil.which("chromium") or "google-chrome"
    done = subprocess.run(
        [program, *flags, tried.as_uri()], capture_output=True, text=True, check=True, timeout=120
    )
    return json.loads(html.unescape(re.search(r"<title>(.*?)</title>", done.stdout, re.S)[1]))


@pytest.mark.parametrize("width", [SCREEN, PHONE])
@pytest.mark.parametrize("page", PAGES)
def test_a_page_breaks_no_rule_of_access_and_fits_its_window(page, width, written, axe, tmp_path):
    said = looked_at(written / page, axe, width, tmp_path)
    assert said["violations"] == []
    assert {"color-contrast", "page-has-heading-one", "document-title"} <= {*said["passes"]}
    assert said["window"] == width
    assert said["width"] <= said["window"]


def test_a_page_that_breaks_rules_is_told_of(axe, tmp_path):
    page = tmp_path / "bad.html"
    page.write_text(
        '<html><title>x</title><body><p style="color:#ccc;background:#fff">pale</p>'
        '<img src="x.png"></body></html>',
        encoding="utf-8",
    )
    found = {rule for rule, _, _ in looked_at(page, axe, SCREEN, tmp_path)["violations"]}
    assert {"color-contrast", "image-alt", "html-has-lang"} <= found
