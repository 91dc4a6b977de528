from collections.abc import Callable, Sequence
from dataclasses import replace
from uuid import UUID

from saythesum.core.aims import Aim
from saythesum.core.records.rows import End, EndReason, Note, Row
from saythesum.errors import StoreError
from saythesum.ports import EarlierPractice, StoredPractice


class MemoryStore:
    """Keeps practices for as long as it lives; closing loses nothing: a story can be killed and resumed."""

    def __init__(self) -> None:
        self._practices: dict[UUID, StoredPractice] = {}

    def begin(self, practice: StoredPractice) -> None:
        if practice.rows:
            raise ValueError("a practice begins without rows")
        if practice.id in self._practices:
            raise StoreError(f"The practice {practice.id} has begun already.")
        self._practices[practice.id] = practice

    def keep(self, practice: UUID, row: Row, *, at: str, at_ms: int) -> None:
        stored = self.practice(practice)
        if any(row.id == kept.id for one in self._practices.values() for kept in one.rows):
            raise StoreError(f"The row {row.id} has been kept already.")
        self._practices[practice] = replace(stored, rows=(*stored.rows, row))

    def unfinished(
        self,
        pupil: str,
        *,
        aim: Aim | None = None,
        grid_text: str | None = None,
        fits: Callable[[StoredPractice], bool] | None = None,
    ) -> StoredPractice | None:
        for id in reversed(self.practices(pupil, aim=aim)):
            stored = self._practices[id]
            is_wanted = grid_text in (None, stored.grid_text) and (fits is None or fits(stored))
            if is_wanted and not _is_finished(stored.rows):
                return stored
        return None

    def practices(self, pupil: str, *, aim: Aim | None = None) -> Sequence[UUID]:
        return [id for id, stored in self._practices.items() if stored.pupil == pupil and aim in (None, stored.aim)]

    def practice(self, id: UUID) -> StoredPractice:
        if id not in self._practices:
            raise StoreError(f"There is no practice {id}.")
        return self._practices[id]

    def earlier(self, practice: UUID, *, last: int | None = None) -> Sequence[EarlierPractice]:
        ids = self.practices(self.practice(practice).pupil)
        before = [EarlierPractice(id, len(self._practices[id].rows)) for id in ids[: ids.index(practice)]]
        return before[len(before) - min(last, len(before)) :] if last is not None else before

    def close(self) -> None:
        pass


def _is_finished(rows: tuple[Row, ...]) -> bool:
    acts = [row for row in rows if not isinstance(row, Note)]
    return bool(acts) and isinstance(acts[-1], End) and acts[-1].reason is EndReason.FINISHED
