"""One test of many cases, each of which takes less time than a test of its own would."""

from __future__ import annotations

import functools
import inspect
from collections.abc import Callable, Iterable

_SHOWN = 20


def each(names: str | tuple[str, ...], cases: Iterable[object]) -> Callable[..., object]:
    """As pytest's parametrize, in one test, which tells of all cases that fail.

    Its fixtures are the same for all cases. names: of the arguments, as for parametrize.
    """
    named = names.replace(" ", "").split(",") if isinstance(names, str) else [*names]
    listed = [dict(zip(named, c if len(named) > 1 else (c,), strict=True)) for c in cases]
    assert listed, f"no cases of {named}"

    def of_all(test):
        @functools.wraps(test)
        def run(**fixtures):
            failed = []
            for case in listed:
                try:
                    test(**fixtures, **case)
                except Exception as error:
                    error.add_note(
                        ", ".join(f"{name}={value!s:.200}" for name, value in case.items())
                    )
                    failed.append(error)
            if failed:
                raise ExceptionGroup(f"{len(failed)} of {len(listed)} cases", failed[:_SHOWN])

        taken = inspect.signature(test).parameters
        run.__signature__ = inspect.Signature([p for n, p in taken.items() if n not in named])
        return run

    return of_all
