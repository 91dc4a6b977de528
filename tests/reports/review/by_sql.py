"""The review's figures counted a second time: plain SQL over the exported CSV, which shares no code with the first."""

import csv
import sqlite3
from pathlib import Path

_FIRSTS = """
    CREATE TABLE first AS
    SELECT *, "right" = '1' AND part = 'whole' AND tries = '1' AND support IN ('independent', 'repeated') AS alone
    FROM (
        SELECT *, row_number() OVER (
            PARTITION BY practice, activity, "row", "column", operation, exercise, hidden, start, amount
            ORDER BY CAST(serial AS INTEGER)
        ) AS place
        FROM answer WHERE taken_back = ''
    )
    WHERE place = 1 AND fate <> 'not-counted'
    AND NOT (sure = '0' AND settled = 'followed') AND NOT (close_to <> '' AND "right" = '0')
"""


class BySql:
    def __init__(self, file: Path) -> None:
        self._sql = sqlite3.connect(":memory:")
        with file.open(newline="", encoding="utf-8") as lines:
            heads, *rows = csv.reader(lines)
        columns = ", ".join(f'"{head}"' for head in heads)
        self._sql.execute(f"CREATE TABLE answer ({columns})")
        self._sql.executemany(f"INSERT INTO answer VALUES ({', '.join('?' * len(heads))})", rows)  # noqa: S608
        self._sql.execute(_FIRSTS)

    def ask(self, query: str) -> list[tuple[object, ...]]:
        return self._sql.execute(query).fetchall()

    def shares(self, by: str, purpose: str = "practice") -> dict[object, tuple[object, object]]:
        """By an expression: how many right unaided, of how many."""
        query = f"SELECT {by}, sum(alone), count(*) FROM first WHERE purpose = '{purpose}' GROUP BY 1 ORDER BY 1"  # noqa: S608
        return {key: (right, of) for key, right, of in self.ask(query)}
