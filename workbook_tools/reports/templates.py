"""Find the templates: in a checkout's top level, or inside the installed package."""

from __future__ import annotations

from pathlib import Path


def template_folder() -> Path:
    """The folder of the page templates.

    A wheel carries the templates inside the package; in a checkout they lie beside it.
    Raises FileNotFoundError where neither is there.
    """
    package = Path(__file__).resolve().parents[1]
    for folder in (package / "templates", package.parent / "templates"):
        if (folder / "summary.html.jinja").is_file():
            return folder
    raise FileNotFoundError(
        f"the page templates are missing from {package}; install workbook-tools again"
    )
