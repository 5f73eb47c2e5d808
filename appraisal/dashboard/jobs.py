"""Long work on the side: it says how far it is, can be cancelled, and is not lost when another screen is opened."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import CancelledError, Future, ThreadPoolExecutor
from dataclasses import dataclass, field
from threading import Event
from typing import Any, TypeVar

import streamlit as st

from appraisal.dashboard.blocks import plain
from appraisal.errors import AppraisalError

T = TypeVar("T")
AT_ONCE, KEPT = 2, 12
LOOK_SECONDS = 0.5
Tell = Callable[[int, int], None]


class StoppedError(AppraisalError):
    """The reader cancelled this work."""


@dataclass(frozen=True, eq=False)
class Job:
    """One piece of work: its future, the sign to stop, and what it said last as (done, whole)."""

    future: Future[Any]
    stop: Event
    said: list[tuple[int, int]] = field(default_factory=lambda: [(0, 1)])


@st.cache_resource
def _workers() -> ThreadPoolExecutor:
    return ThreadPoolExecutor(AT_ONCE, thread_name_prefix="long_work")


@st.cache_resource
def _jobs() -> dict[str, Job]:
    return {}


def long_work(key: str, label: str, work: Callable[[Tell], T], *, gives: str = "") -> T | None:
    """The result of some long work, drawing what is needed until it is there: a start, the progress, a way to cancel.

    key: says what the work is done on, so with the fingerprint of the scenario; the same key shares one result. label: of
    the button that starts it. work: plain work without Streamlit; it calls tell(done, whole) now and then, which ends it
    when the reader cancels. gives: what the work is good for, told until it is begun. None while there is no result.
    """
    job = _jobs().get(key)
    if job is None:
        _offer(key, label, work, gives)
        return None
    if not job.future.done():
        _watch(key, label)
        return None
    try:
        found: T = job.future.result()
        return found
    except (StoppedError, CancelledError):
        st.markdown("Cancelled. Nothing is lost.")
    except AppraisalError as error:
        st.error(plain(f"This could not be worked out: {error}"))
    if st.button(label, key=f"again_{key}"):
        _start(key, work)
        st.rerun()
    return None


def _offer(key: str, label: str, work: Callable[[Tell], Any], gives: str) -> None:
    if gives:
        st.markdown(plain(gives))
    if st.button(label, key=f"start_{key}"):
        _start(key, work)
        st.rerun()


def _start(key: str, work: Callable[[Tell], Any]) -> None:
    stop = Event()
    said = [(0, 1)]

    def tell(done: int, whole: int) -> None:
        if stop.is_set():
            raise StoppedError("cancelled")
        said[0] = (done, max(whole, 1))

    jobs = _jobs()
    for old in [name for name, job in jobs.items() if job.future.done()][: max(len(jobs) - KEPT, 0)]:
        jobs.pop(old, None)
    jobs[key] = Job(_workers().submit(work, tell), stop, said)


@st.fragment(run_every=LOOK_SECONDS)
def _watch(key: str, label: str) -> None:
    job = _jobs().get(key)
    if job is None or job.future.done():
        st.rerun()
        return
    done, whole = job.said[0]
    st.progress(min(done / whole, 1.0), text=plain(f"{label}: {f'{done} of {whole} done' if done else 'begun'}"))
    if st.button("Cancel run", key=f"cancel_{key}"):
        job.stop.set()
        job.future.cancel()
