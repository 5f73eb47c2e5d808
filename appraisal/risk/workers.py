"""Work by number, handed out to forked processes and gathered in order."""

from __future__ import annotations

import ctypes
import os
import signal
import warnings
from collections.abc import Callable, Iterator
from functools import cache
from typing import TypeVar

Result = TypeVar("Result")
_TASK: list[Callable[[int], object]] = []
# What GNU libc's mallopt(3) calls its parameters, and bytes: arrays up to KEPT come from the heap, which is not given back.
TRIM_THRESHOLD, TOP_PAD, MMAP_THRESHOLD = -1, -2, -3
LARGEST_ON_HEAP, KEPT, AHEAD = 32 << 20, 1 << 30, 64 << 20


def usable_workers() -> int:
    """Processors this process may use; 1 where processes cannot be forked."""
    if not hasattr(os, "fork"):
        return 1
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def in_order(task: Callable[[int], Result], count: int, *, workers: int) -> Iterator[Result]:
    """Results of task(0), task(1), ... in that order, whoever worked them out.

    task: works on a number; it and what it holds is inherited by forked processes, its result is sent back.
    workers: 1 works in this process; more are forked, at most as many as there are numbers.
    """
    keep_freed_memory()
    crowd = min(workers, count, usable_workers())
    if crowd < 2:
        yield from map(task, range(count))
        return
    import multiprocessing

    _TASK.append(task)
    try:
        with warnings.catch_warnings():
            # Python warns of forks beside threads; the workers only calculate and take no lock of the parent.
            warnings.simplefilter("ignore", DeprecationWarning)
            pool = multiprocessing.get_context("fork").Pool(crowd, initializer=_leave_interrupts)
    finally:
        task_held = _TASK.pop()
    assert task_held is task
    with pool:
        yield from pool.imap(_run, range(count))


@cache
def keep_freed_memory() -> bool:
    """Let the C library keep freed arrays for the next ones; workers forked later do the same. True where it could.

    Without it every array of a block is handed back to the system and its pages are cleared and mapped anew, half of the
    time of a run of many futures. Nothing happens where the C library has no such choice.
    """
    try:
        choose = ctypes.CDLL(None).mallopt
    except (AttributeError, OSError, TypeError):
        return False
    chosen = ((MMAP_THRESHOLD, LARGEST_ON_HEAP), (TRIM_THRESHOLD, KEPT), (TOP_PAD, AHEAD))
    return all(choose(parameter, size) for parameter, size in chosen)


def _leave_interrupts() -> None:
    """Ctrl-C reaches the parent, which ends its workers."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _run(number: int) -> object:
    return _TASK[-1](number)
