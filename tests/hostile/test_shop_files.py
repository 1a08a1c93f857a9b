"""A shop.toml and templates that came with somebody's books: they run nothing and lead nowhere."""

import socket
import threading
from pathlib import Path

import pandas as pd
import pytest
from typer.testing import CliRunner

from workbook_tools.cli import app
from workbook_tools.render.html import fill
from workbook_tools.render.pdf import pdf
from workbook_tools.render.templates import TemplateError
from workbook_tools.settings.shop import Shop, ShopError, read_shop, shop_for

EXAMPLES = Path(__file__).parents[2] / "example_books"
PNG = b"\x89PNG\r\n\x1a\n and more"


@pytest.fixture
def foreign(tmp_path, monkeypatch):
    """A folder of books from somebody else, with a template that writes a file."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    books = tmp_path / "books"
    (books / "t").mkdir(parents=True)
    (books / "flat_twin.xlsx").write_bytes((EXAMPLES / "flat_twin.xlsx").read_bytes())
    (books / "shop.toml").write_text('name = "Theirs"\ntemplates = "t"\n')
    for page in ("summary", "index", "month"):
        text = "{{ cycler.__init__.__globals__.os.system('touch \"%s\"') }}" % (tmp_path / "ran")
        (books / "t" / f"{page}.html.jinja").write_text(text)
    return books


@pytest.mark.parametrize(
    "command", [["summarize"], ["month", "2025-06"]], ids=["summarize", "month"]
)
def test_templates_of_a_shop_that_is_only_found_are_not_used(foreign, tmp_path, command):
    words = [*command, str(foreign), "--out", str(tmp_path / "out")]
    done = CliRunner().invoke(app, words)
    assert done.exit_code == 0, done.output
    assert f"Templates not used: {foreign / 'shop.toml'} " in done.stderr
    assert f"--shop {foreign / 'shop.toml'}" in done.stderr
    assert not (tmp_path / "ran").exists()
    assert any("Theirs" in p.read_text("utf-8") for p in (tmp_path / "out").rglob("*.html"))
    named = CliRunner().invoke(app, [*words, "--shop", str(foreign / "shop.toml")])
    assert named.exit_code == 3, named.output
    assert "unsafe" in named.stderr
    assert not (tmp_path / "ran").exists()


@pytest.mark.parametrize(
    "text",
    [
        "{{ ''.__class__.__mro__[1].__subclasses__() }}",
        "{{ counted.__globals__ }}",
        "{{ shop.templates.joinpath('ran').write_text('x') }}",
        "{{ frame.to_csv(target) }}",
        "{{ frame.to_pickle(target) }}",
        "{{ frame['a'].to_csv(target) }}",
        "{{ (frame|attr('to_csv'))(target) }}",
        "{{ path.write_text('x') }}",
        "{{ '{0.__class__.__init__}'.format(path) }}{{ path.touch() }}",
        "{{ names.append('x') }}",
    ],
)
def test_a_template_only_shows_what_it_is_given(tmp_path, text):
    own = tmp_path / "own"
    own.mkdir()
    (own / "page.html.jinja").write_text(text)
    target, names = tmp_path / "ran", []
    with pytest.raises(TemplateError) as told:
        fill("page.html.jinja", own, shop=Shop(templates=tmp_path), path=target,
             target=str(target), frame=pd.DataFrame({"a": [1]}), names=names)  # fmt: skip
    assert told.value.line == 1
    assert not target.exists()
    assert names == []


def test_a_template_still_does_what_templates_do(tmp_path):
    (tmp_path / "page.html.jinja").write_text(
        "{% macro m(x) %}<{{ x }}>{% endmacro %}{% set turn = cycler('a', 'b') %}"
        "{% for k, v in d.items() %}{{ m(v) }}{{ turn.next() }}{{ loop.cycle('x', 'y') }}"
        "{{ k.upper() }}{{ counted(2, 'cell') }}{% endfor %}{{ range(3)|list }}"
    )
    assert fill("page.html.jinja", tmp_path, d={"k": 1}) == "<1>axK2 cells[0, 1, 2]"


@pytest.fixture
def proxy(monkeypatch):
    """What a proxy on this machine, which the user's settings name, is asked for."""
    asked = []
    with socket.create_server(("127.0.0.1", 0)) as server:

        def serve():
            while True:
                try:
                    caller, _ = server.accept()
                except OSError:
                    return
                asked.append(caller.recv(200))
                caller.close()

        threading.Thread(target=serve, daemon=True).start()
        for name in ("HTTPS_PROXY", "https_proxy", "ALL_PROXY"):
            monkeypatch.setenv(name, f"http://127.0.0.1:{server.getsockname()[1]}")
        yield asked


@pytest.mark.parametrize(
    "text",
    ['#import "@preview/none:0.1.0": *', '#import ("@pre" + "view/none:0.1.0"): *'],
)
def test_a_template_for_print_fetches_no_packages(tmp_path, proxy, text):
    (tmp_path / "page.typ").write_text(text)
    with pytest.raises(TemplateError, match="packages are not fetched"):
        pdf("page.typ", {}, tmp_path)
    assert proxy == []


@pytest.mark.parametrize("text", ['#read("/etc/passwd")', '#read("../secret.txt")'])
def test_a_template_for_print_reads_nothing_outside_its_folder(tmp_path, text):
    own = tmp_path / "own"
    own.mkdir()
    (tmp_path / "secret.txt").write_text("secret")
    (own / "page.typ").write_text(text)
    with pytest.raises(TemplateError):
        pdf("page.typ", {}, own)


@pytest.mark.parametrize("where", ["../logo.png", "{absolute}", "link.png", "linked/logo.png"])
def test_the_logo_of_a_shop_that_is_only_found_lies_in_its_folder(tmp_path, where):
    books = tmp_path / "books"
    books.mkdir()
    outside = tmp_path / "logo.png"
    outside.write_bytes(PNG)
    (books / "link.png").symlink_to(outside)
    (books / "linked").symlink_to(tmp_path)
    file = books / "shop.toml"
    file.write_text(f"logo = '{where.format(absolute=outside)}'")
    with pytest.raises(ShopError, match=r"expected a picture file in the folder of shop\.toml"):
        shop_for([books])
    assert shop_for([books], file).logo == PNG == read_shop(file).logo
    (books / "inside.png").write_bytes(PNG)
    file.write_text("logo = 'inside.png'")
    assert shop_for([books]).logo == PNG


def test_a_shop_file_that_cannot_be_read_says_so(tmp_path):
    file = tmp_path / "shop.toml"
    file.write_text("a = " + "[" * 5000)
    with pytest.raises(ShopError, match="not readable as TOML"):
        shop_for([tmp_path])
    file.write_text(f'logo = "{"x" * 5000}.png"')
    with pytest.raises(ShopError, match="expected a picture file"):
        shop_for([tmp_path])
    file.write_text('logo = "a\\u0000b.png"')
    with pytest.raises(ShopError, match="expected a picture file"):
        shop_for([tmp_path])
