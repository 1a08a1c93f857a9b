"""The process that is forked for each worker, since it has the program loaded already.

It reads no book itself, so no book can bring it down or change what the next worker starts
with. It ends when the program that asks it ends.
"""

from __future__ import annotations

import contextlib
import os
import pickle
import signal
import socket
import sys
import tempfile
from collections.abc import Sequence

from workbook_tools.batch.own_process import load_openpyxl
from workbook_tools.batch.sweeps import sweep_seldom
from workbook_tools.batch.worker import answer_tasks
from workbook_tools.settings.folders import look_again

START, STATUS = b"s", b"?"
"""What is asked: a worker, or whether one has ended, and how."""


def main() -> None:
    """Answer by the socket whose number is the only argument."""
    sweep_seldom()
    load_openpyxl()
    serve(socket.socket(fileno=int(sys.argv[1])))


def serve(asked: socket.socket) -> None:
    """Answer what comes by a socket until that is closed.

    START comes with the ends of the pipes for a worker's tasks and answers and with the folder
    to work in, then, pickled, with the environment, the mask of new files' rights and, pickled
    again, its function and what prepares for it; the answer is the number of the process.
    STATUS comes with such a number; the answer is the exit code, below zero for a signal, or
    None while it runs.
    """
    requests = asked.makefile("rb")
    prepared = set()
    while True:
        what, files, *_ = socket.recv_fds(asked, 1, 3, socket.MSG_CMSG_CLOEXEC)
        answer: int | None
        if what == START:
            environment, mask, loading = pickle.load(requests)
            # For this worker and the next ones; the worker tells of what is at fault.
            with contextlib.suppress(Exception):
                _, prepare = pickle.loads(loading)
                if prepare not in prepared:
                    prepared.add(prepare)
                    prepare()
            answer = os.fork()
            if not answer:
                _worker(asked, files, environment, mask)
            _own_group(answer)
            for file in files:
                os.close(file)
        elif what == STATUS:
            answer = _status(pickle.load(requests))
        else:
            return
        asked.sendall(pickle.dumps(answer))


def _status(process: int) -> int | None:
    ended, status = os.waitpid(process, os.WNOHANG)
    return os.waitstatus_to_exitcode(status) if ended else None


def _own_group(process: int) -> None:
    # Done on both sides of the fork, so that it holds for either from then on.
    with contextlib.suppress(OSError):
        os.setpgid(process, process)


def _worker(
    asked: socket.socket, files: Sequence[int], environment: dict[str, str], mask: int
) -> None:
    """Be a worker until its tasks end, with what holds where it was asked for."""
    code = 1
    try:
        _own_group(os.getpid())
        # The ready process alone answers there, and is gone when nobody does.
        os.close(asked.fileno())
        tasks, answers, folder = files
        os.fchdir(folder)
        os.close(folder)
        os.umask(mask)
        tempfile.tempdir = None
        os.environ.clear()
        os.environ.update(environment)
        look_again()
        answer_tasks(tasks, answers)
        code = 0
    finally:
        # What the process it comes from would do at its end is not this one's to do.
        os._exit(code)


def serve_in_fork(asked: socket.socket, not_its: socket.socket) -> None:
    """Answer by a socket in a process just forked from a program, and end.

    not_its: the program's own end.
    """
    try:
        os.setsid()
        not_its.close()
        nothing = os.open(os.devnull, os.O_RDWR)
        for file in range(3):
            os.dup2(nothing, file)
        os.close(nothing)
        for number in signal.valid_signals():
            if callable(signal.getsignal(number)):
                usual = signal.default_int_handler if number == signal.SIGINT else signal.SIG_DFL
                signal.signal(number, usual)
        # A worker that starts anew does not look for modules where the program was started.
        if not sys.flags.safe_path:
            del sys.path[:1]
        serve(asked)
    finally:
        os._exit(0)


if __name__ == "__main__":
    main()
