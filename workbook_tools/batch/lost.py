"""Tasks without an answer: what is said in its place."""

from __future__ import annotations

TOO_LARGE = "reading it takes more memory than one book may have; split it up"


class Lost(Exception):
    """A task without an answer; the message says why, and what to do."""


def unforeseen(error: BaseException, what: str) -> str:
    """The reason why a book is left out that brought out what nobody expected of one."""
    said = " ".join(str(error).split())[:200]
    return f"{what} ({type(error).__name__}: {said}); save it anew, or leave it out and report it"
