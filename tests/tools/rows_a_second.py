"""How many rows a second are put on disk, each synced by itself: `python -m tests.store.rows_a_second`."""

import statistics
import tempfile
import time
from pathlib import Path

from saythesum.store.records import SqliteStore
from tests.store.made_practices import AT, answered, practice

ROWS = 200
RUNS = 20


def rows_a_second(folder: Path) -> float:
    store = SqliteStore(folder / "records.sqlite")
    started = practice()
    store.begin(started)
    rows = [answered(started, serial) for serial in range(ROWS)]
    began_s = time.perf_counter()
    for row in rows:
        store.keep(started.id, row, at=AT, at_ms=0)
    took_s = time.perf_counter() - began_s
    store.close()
    return ROWS / took_s


def main() -> None:
    rates = []
    for _ in range(RUNS):
        with tempfile.TemporaryDirectory() as folder:
            rates.append(rows_a_second(Path(folder)))
    print(f"rows a second on disk: median {statistics.median(rates):.0f}, worst {min(rates):.0f} of {RUNS} runs")


if __name__ == "__main__":
    main()
