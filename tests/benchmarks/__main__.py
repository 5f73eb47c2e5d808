"""How fast and how small: `python -m tests.benchmarks`, with `--million` for a million futures. Figures, no verdicts.

Nothing here is a test and nothing is collected: a time depends on the machine and on what else it does.
"""

from __future__ import annotations

import sys

from tabulate import tabulate

from tests.benchmarks.measure import against_pyxirr, cold_starts, many_futures, million, single_runs, where_time_goes


def main() -> None:
    """Measure one group after another and print each as a table."""
    for title, head, rows in (
        single_runs(),
        many_futures(),
        where_time_goes(),
        against_pyxirr(),
        cold_starts(),
        *((million(),) if "--million" in sys.argv else ()),
    ):
        print(f"{title}\n{tabulate(rows, head, disable_numparse=True)}\n", flush=True)


if __name__ == "__main__":
    main()
