"""What a pupil's last mistakes ask of the next grid."""

from collections.abc import Iterator
from contextlib import closing, suppress
from dataclasses import dataclass, replace
from datetime import datetime

from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.wishes import GridWish
from saythesum.core.records.rows import Answer
from saythesum.core.sums import ExerciseName, Hidden, Kind, Part
from saythesum.learner.findings import findings
from saythesum.learner.replay import Kept, grid_of, learned
from saythesum.office.places import Places
from saythesum.office.pupils import known_code
from saythesum.ports import StoredPractice
from saythesum.store.reading import StoredRecords, kept_grid, open_to_read
from saythesum.store.sqlite_errors import UnreadableError

LATELY = 6
"""Practices."""
MOST_MISTAKES = 4


@dataclass(frozen=True, slots=True)
class LastMistakes:
    kinds: frozenset[Kind]
    """Of the sums that were answered wrongly."""
    names: tuple[str, ...]
    """Mistakes that fit the answers, likeliest first: the next grid should tell them apart. They might be; nobody is
    diagnosed."""


def last_mistakes(places: Places, given: str) -> LastMistakes:
    """Of the last practices. Raises CallerError and StoreError."""
    code = known_code(places, given)
    with closing(open_to_read(places.records_file)) as reader:
        stored = [*_lately(reader, code)]
    rows = [kept for practice in stored for kept in _kept(practice, code)]
    pupil = learned(rows)
    wrong = [kept.row for kept in rows if isinstance(kept.row, Answer) and _is_wrong(kept.row)]
    found = [finding.mistake for finding in findings(pupil.evidence)]
    could_be = [name for row in reversed(wrong) for name in row.could_be[:1]]
    names = tuple(dict.fromkeys([*found, *could_be]))[:MOST_MISTAKES]
    return LastMistakes(frozenset(Sum(row.start, row.amount).kind for row in wrong), names)


def wish_for(mistakes: LastMistakes, wish: GridWish) -> GridWish:
    """The wish, with sums of the kinds that went wrong unless it names kinds itself, telling the mistakes apart."""
    kinds = mistakes.kinds if mistakes.kinds and wish.kinds == frozenset(Kind) else wish.kinds
    return replace(wish, kinds=kinds, mistakes=mistakes.names)


def _lately(reader: StoredRecords, code: str) -> Iterator[StoredPractice]:
    for id in reader.practices(code)[-LATELY:]:
        with suppress(UnreadableError):
            yield reader.practice(id)


def _kept(stored: StoredPractice, code: str) -> Iterator[Kept]:
    with suppress(UnreadableError):
        grids = [kept_grid(one.grid_text) if one.aim.has_grid else None for one in stored.activities]
        at = datetime.fromisoformat(stored.began_at)
        yield from (Kept(row, at, grid_of(row, grids)) for row in stored.rows_of(code))


def _is_wrong(answer: Answer) -> bool:
    is_sum = answer.exercise is ExerciseName.SUM and answer.hidden is Hidden.TOTAL and answer.operation == "add"
    return is_sum and not answer.right and answer.part is Part.WHOLE and answer.is_relied_on
