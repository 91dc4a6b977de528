"""What an adult beside the pupil can mark, and how it stands in the rows. Of notes of a kind the newest holds."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from enum import StrEnum

from saythesum.core.records.rows import Answer, Note, NoteKind, Row, RowId, Settled, Support, Way


class Mark(StrEnum):
    """In the order of their digits, from 1."""

    WAS_RIGHT = "was-right"
    NOT_SAID = "not-said"
    HELPED = "helped"
    WORKED_WITH = "worked-with"
    WAY = "way"
    WAITS = "waits"
    SKIP = "skip"
    NOT_COUNTED = "not-counted"


YES = "yes"
SAID_SO = "said so"
"""A note's text: the number that was heard unsurely is what the pupil said."""
LONGER = "longer"
FROM_HERE = "from-here"
COUNTS = "counts"
"""Takes back that an answer, or what comes from here on, does not count. Every other mark is taken back by ""."""

KINDS: Mapping[Mark, tuple[str, ...]] = {
    Mark.HELPED: (
        f"{Support.ADULT_HELP} words",
        f"{Support.ADULT_HELP} first-step",
        f"{Support.ADULT_HELP} hand-over-hand",
        f"{Support.ADULT_ANSWER} told",
    ),
    Mark.WORKED_WITH: ("head", "fingers", "number-line", "abacus", "brailler", "paper"),
    Mark.WAY: (Way.KNOWN.value, Way.BRIDGED.value, Way.COUNTED.value, Way.TENS_AND_ONES.value),
}
"""The values of marks that have more than one. Ladder of help: system of least prompts, University of Nevada, Reno."""

NOTES: Mapping[Mark, NoteKind] = {
    Mark.WAS_RIGHT: NoteKind.WAS_RIGHT,
    Mark.HELPED: NoteKind.SUPPORT,
    Mark.WORKED_WITH: NoteKind.WORKED_WITH,
    Mark.WAY: NoteKind.WAY,
    Mark.WAITS: NoteKind.WAITS,
    Mark.NOT_COUNTED: NoteKind.NOT_COUNTED,
}
"""Of those that are notes. What was not said is a void, and skipping is a question."""


def newest(rows: Iterable[Row], what: NoteKind, of: RowId | None) -> str | None:
    """The value of the newest note of that kind about that row; None where there is none."""
    values = [row.value for row in rows if isinstance(row, Note) and row.what is what and row.of == of]
    return values[-1] if values else None


def support_of(value: str) -> Support | None:
    """A note's level of help, with or without the kind of help behind it; None where it says none, or is taken back."""
    word = value.partition(" ")[0]
    return Support(word) if word in tuple(Support) else None


def is_counting(rows: Iterable[Row]) -> bool:
    """Whether what comes after these rows of a practice counts."""
    return newest(rows, NoteKind.NOT_COUNTED, None) != FROM_HERE


def takes_back(note: Note) -> bool:
    """It takes back the note of its kind before it. That an answer does not count has no value of its own."""
    return note.value == (COUNTS if note.what is NoteKind.NOT_COUNTED else "")


def judged_right(answer: Answer) -> Answer:
    """As it counts once an adult has said that it was right."""
    return replace(answer, given=answer.right_answer, right=True, could_be=(), sure=True, settled=Settled.ADULT)


def with_help(answer: Answer, value: str) -> Answer:
    """As it counts with that note of help, which never makes it more the pupil's own than it was."""
    support, levels = support_of(value), tuple(Support)
    if support is None or levels.index(support) <= levels.index(answer.support):
        return answer
    return replace(answer, support=support)


def rows_that_count(rows: Iterable[Row]) -> tuple[Row, ...]:
    """The rows of one practice, without answers that an adult said do not count, and with the help that was noted."""
    rows = tuple(rows)
    notes = [row for row in rows if isinstance(row, Note)]
    if not notes:
        return rows
    newest_of = {(note.of, note.what): note.value for note in notes}
    kept: list[Row] = []
    is_counting = True
    for row in rows:
        if isinstance(row, Note) and row.what is NoteKind.NOT_COUNTED and row.of is None:
            is_counting = row.value != FROM_HERE
        if isinstance(row, Answer):
            if not is_counting or newest_of.get((row.id, NoteKind.NOT_COUNTED), COUNTS) != COUNTS:
                continue
            kept.append(with_help(row, newest_of.get((row.id, NoteKind.SUPPORT), "")))
        else:
            kept.append(row)
    return tuple(kept)
