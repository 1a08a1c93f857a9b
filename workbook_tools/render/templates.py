"""Find the templates: a shop's own, in a checkout's top level, or inside the package."""

from __future__ import annotations

from pathlib import Path


class TemplateError(Exception):
    """A template that does not work: which, at what line where that is known, and why."""

    def __init__(self, template: Path | str, line: int | None, reason: str) -> None:
        at = f", line {line}" if line else ""
        super().__init__(f"template {template}{at}: {reason}")
        self.template = template
        self.line = line
        self.reason = reason

    def __reduce__(self) -> tuple[type[TemplateError], tuple[Path | str, int | None, str]]:
        # So that it arrives whole from the process that it was raised in.
        return type(self), (self.template, self.line, self.reason)


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


def template_path(name: str, override: Path | None = None) -> Path:
    """The template of this name: the one in the override folder, else the program's own."""
    if override is not None and (override / name).is_file():
        return override / name
    return template_folder() / name
