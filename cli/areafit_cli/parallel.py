"""Several lists judged at a time, each in a process of its own."""

import gc
import multiprocessing
import signal
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool

from areafit_cli import judging
from areafit_cli.faults import CallError


def outcomes(work: Sequence[judging.Job], jobs: int) -> Iterator[judging.Outcome]:
    """The outcomes in the order of the work; an interrupt ends all processes at once.

    Raises:
        CallError: the system ended one of the processes.
    """
    pool = ProcessPoolExecutor(min(jobs, len(work)), initializer=_start)
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)  # what starts now inherits it
    try:
        coming = pool.map(judging.carry_out, work)
    finally:
        signal.signal(signal.SIGINT, before)
    try:
        yield from coming
    except BrokenProcessPool:
        raise CallError(
            "the system ended a process that judged a list, perhaps for lack of memory; "
            "run again with fewer --jobs"
        ) from None
    except BaseException:
        for process in multiprocessing.active_children():
            process.terminate()
        raise
    finally:
        pool.shutdown(cancel_futures=True)


def _start() -> None:
    """Set up a process that only judges: it leaves an interrupt to the one that started it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    gc.disable()
