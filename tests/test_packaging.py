"""The wheel is whole: it does the main job from another folder, without the checkout."""

import json
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow  # it builds in an environment that is fetched for it
ROOT = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory):
    folder = tmp_path_factory.mktemp("wheel")
    subprocess.run(
        [sys.executable, "-m", "build", "--wheel", "--outdir", str(folder), str(ROOT)],
        check=True,
        capture_output=True,
    )
    (built,) = folder.glob("*.whl")
    return built


def test_the_wheel_carries_templates_and_tables(wheel):
    names = set(zipfile.ZipFile(wheel).namelist())
    assert "workbook_tools/templates/summary.html.jinja" in names
    assert "workbook_tools/catalog/materials.toml" in names
    assert "workbook_tools/manual/changes.md" in names
    assert "workbook_tools/manual/build_data.md" in names
    assert "workbook_tools/render/build.schema.json" in names
    assert not [n for n in names if n.startswith(("tests/", "example_books/"))]


def test_an_installed_wheel_summarizes_the_example_books(wheel, tmp_path):
    home = tmp_path / "venv"
    # The dependencies of the running environment serve, so that nothing is fetched twice.
    venv.create(home, with_pip=False)
    (bin_folder,) = (p for p in (home / "bin", home / "Scripts") if p.is_dir())
    python = bin_folder / ("python.exe" if sys.platform == "win32" else "python")
    site = subprocess.run(
        [python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"],
        check=True, capture_output=True, text=True,
    ).stdout.strip()  # fmt: skip
    subprocess.run(
        [sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--target", site, str(wheel)],
        check=True,
        capture_output=True,
    )
    # Wherever this environment takes its packages from: its own folder, or one that it borrows.
    # An editable install's own .pth would lead back to the checkout: link packages only.
    folders = [Path(p) for p in sys.path if Path(p).name in ("site-packages", "dist-packages")]
    for item in (item for folder in folders for item in folder.iterdir()):
        target = Path(site) / item.name
        ours = item.suffix == ".pth" or item.name.startswith(("_workbook", "workbook_tools"))
        if not ours and not target.exists():
            target.symlink_to(item)
    out = tmp_path / "summaries"
    done = subprocess.run(
        [python, "-m", "workbook_tools", "summarize", str(ROOT / "example_books"), "--out", out],
        cwd=tmp_path,
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    where = subprocess.run(
        [python, "-c", "import workbook_tools; print(workbook_tools.__file__)"],
        cwd=tmp_path, check=True, capture_output=True, text=True,
    ).stdout  # fmt: skip
    assert str(ROOT) not in where
    assert list(out.glob("*.html"))
    for page in out.glob("*.json"):
        json.loads(page.read_text("utf-8"))
