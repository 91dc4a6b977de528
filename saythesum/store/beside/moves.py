"""Whose rows they are: a practice, or a part of it, may be moved to another pupil and back."""

import sqlite3
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from uuid import UUID, uuid4

from saythesum.store.checksum import checksum_of

TO_THE_END = 2**53
"""As the last row of a move: rows that are added later belong to it, too."""


@dataclass(frozen=True, slots=True)
class Move:
    practice: UUID
    first: int
    """Serial of a row."""
    last: int
    pupil: str
    at: str
    """UTC, ISO 8601. Of the moves of a row the newest counts."""
    id: UUID = field(default_factory=uuid4)

    @property
    def is_whole(self) -> bool:
        return self.first == 0 and self.last == TO_THE_END


class Moves:
    def __init__(self, moves: Iterable[Move] = (), forks: Iterable[tuple[UUID, UUID]] = ()) -> None:
        """`forks`: each with the practice that it is a fork of. It moves with that practice, if all of it moves."""
        self._of: dict[UUID, list[Move]] = {}
        for move in sorted(moves, key=lambda one: (one.at, str(one.id))):
            self._of.setdefault(move.practice, []).append(move)
        for fork, root in forks:
            whole = [move for move in self._of.get(root, []) if move.is_whole]
            if whole and fork not in self._of:
                self._of[fork] = whole

    def __bool__(self) -> bool:
        return bool(self._of)

    def __iter__(self) -> Iterator[UUID]:
        """The practices that were moved, or parts of them."""
        return iter(self._of)

    def pupil(self, practice: UUID, first: str) -> str:
        """Whose the practice is as a whole. `first`: who it was kept for."""
        whole = [move.pupil for move in self._of.get(practice, []) if move.is_whole]
        return whole[-1] if whole else first

    def owner(self, practice: UUID, serial: int, first: str) -> str:
        for move in reversed(self._of.get(practice, [])):
            if move.first <= serial <= move.last:
                return move.pupil
        return first

    def is_divided(self, practice: UUID) -> bool:
        """A part of it is, or was, another pupil's: it is not gone on with."""
        return any(not move.is_whole for move in self._of.get(practice, []))


def read_moves(connection: sqlite3.Connection) -> tuple[Move, ...]:
    """Oldest first. Those that were damaged on the disk are passed over."""
    found = connection.execute("SELECT practice, first, last, pupil, at, id, checksum FROM moves ORDER BY at, id")
    return tuple(
        Move(UUID(practice), first, last, pupil, at, UUID(id))
        for practice, first, last, pupil, at, id, checksum in found
        if checksum == checksum_of("moves", id, practice, first, last, pupil, at)
    )


def moves_in(connection: sqlite3.Connection) -> Moves:
    moves = read_moves(connection)
    if not moves:
        return Moves()
    forks = connection.execute("SELECT practice, root FROM forks").fetchall()
    return Moves(moves, ((UUID(practice), UUID(root)) for practice, root in forks))


def insert_move(connection: sqlite3.Connection, move: Move) -> bool:
    """Whether it is new here."""
    columns = (str(move.id), str(move.practice), move.first, move.last, move.pupil, move.at)
    if connection.execute("SELECT 1 FROM moves WHERE id = ?", columns[:1]).fetchone():
        return False
    connection.execute("INSERT INTO moves VALUES (?, ?, ?, ?, ?, ?, ?)", (*columns, checksum_of("moves", *columns)))
    return True
