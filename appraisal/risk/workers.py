"""Work by number, handed out to forked processes and gathered in order."""

from __future__ import annotations

import os
import warnings
from collections.abc import Callable, Iterator
from typing import TypeVar

Result = TypeVar("Result")
_TASK: list[Callable[[int], object]] = []


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
            pool = multiprocessing.get_context("fork").Pool(crowd)
    finally:
        task_held = _TASK.pop()
    assert task_held is task
    with pool:
        yield from pool.imap(_run, range(count))


def _run(number: int) -> object:
    return _TASK[-1](number)
