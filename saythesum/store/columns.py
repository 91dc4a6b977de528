"""Practices and rows as the columns of their tables: how they are copied from one file into another."""

import sqlite3
from collections.abc import Sequence
from typing import TypeAlias
from uuid import UUID

from saythesum.store.checksum import checksum_of

Value: TypeAlias = int | float | str | bytes | None
Columns: TypeAlias = tuple[Value, ...]

PRACTICE = "number, id, pupil, began_at, plan, seed, settings, program_version, aim"
ROW = "practice, serial, id, kind, at, at_ms, fields"
"""The columns under a checksum, in its order."""


def practice_columns(connection: sqlite3.Connection, id: UUID) -> Columns:
    query = f"SELECT {PRACTICE} FROM practices WHERE id = ?"  # noqa: S608 - the names above
    columns: Columns = connection.execute(query, (str(id),)).fetchone()
    return columns


def row_columns(connection: sqlite3.Connection, practice: Value) -> list[Columns]:
    query = f"SELECT {ROW} FROM rows WHERE practice = ? ORDER BY serial"  # noqa: S608 - the names above
    return connection.execute(query, (practice,)).fetchall()


def insert_practice(connection: sqlite3.Connection, columns: Columns) -> None:
    _insert(connection, f"practices ({PRACTICE}, checksum)", columns)


def insert_row(connection: sqlite3.Connection, columns: Columns) -> None:
    _insert(connection, f"rows ({ROW}, checksum)", columns)


def _insert(connection: sqlite3.Connection, table: str, columns: Sequence[Value]) -> None:
    places = ", ".join("?" * (len(columns) + 1))
    connection.execute(f"INSERT INTO {table} VALUES ({places})", (*columns, checksum_of(*columns)))  # noqa: S608
