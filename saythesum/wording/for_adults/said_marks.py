"""What an adult can mark in their turn, and what is marked already: lines to be read, never said to the pupil."""

from collections.abc import Iterable, Iterator, Mapping

from saythesum.core.records.marks import KINDS, Mark, takes_back
from saythesum.core.records.rows import Note, NoteKind
from saythesum.dialogue.topics.marking import is_on, last_answer, value_of
from saythesum.dialogue.turns.stack import AdultsTurn
from saythesum.dialogue.tutor.progress import Progress

MARK_WORDS: Mapping[Mark, str] = {
    Mark.WAS_RIGHT: "that was right",
    Mark.NOT_SAID: "that was not said",
    Mark.HELPED: "with my help",
    Mark.WORKED_WITH: "worked with",
    Mark.WAY: "how it was found",
    Mark.WAITS: "longer waits from here on",
    Mark.SKIP: "skip this sum",
    Mark.NOT_COUNTED: "the practice doesn't count from here",
}
KIND_WORDS: Mapping[str, str] = {
    "adult-help words": "words",
    "adult-help first-step": "first step shown",
    "adult-help hand-over-hand": "hand over hand",
    "adult-answer told": "told the answer",
    "number-line": "number line",
    "known": "knew it",
    "bridged": "through the ten",
    "counted": "counted on",
    "tens-and-ones": "tens and ones",
}
"""Where a value's own word is not what a person would say."""

FOR_ADULT = "For the adult"
"""The list's name, for whoever comes to it with a screen reader."""
GIVES_BACK = "The same digit again takes a mark back. F9 or Escape gives the turn back."


def kind_said(value: str) -> str:
    return KIND_WORDS.get(value, value.replace("-", " "))


def notes_said(notes: Iterable[Note]) -> tuple[str, ...]:
    """What adults noted of one answer, as others read it. Of a kind the newest holds, of free lines each."""
    newest = {note.value if note.what is NoteKind.TEXT else note.what: note for note in notes}
    return tuple(_note_said(note) for note in newest.values() if not takes_back(note))


def _note_said(note: Note) -> str:
    match note.what:
        case NoteKind.WAS_RIGHT:
            return MARK_WORDS[Mark.WAS_RIGHT]
        case NoteKind.SUPPORT:
            kind = KIND_WORDS.get(note.value)
            return f"with an adult's help{f' ({kind})' if kind else ''}"
        case NoteKind.WORKED_WITH:
            return f"worked with {kind_said(note.value)}"
        case NoteKind.WAY:
            return f"how it was found: {kind_said(note.value)}"
        case NoteKind.NOT_COUNTED:
            return "doesn't count"
        case _:
            return note.value


def marks_said(progress: Progress, topic: AdultsTurn) -> tuple[str, ...]:
    """A line for each digit, what the marks are about first."""
    lines = _kinds(progress, topic.open) if topic.open else _marks(progress, topic)
    return (_about(progress), *lines, GIVES_BACK)


def _about(progress: Progress) -> str:
    answer = last_answer(progress)
    if answer is None:
        return "The adult's turn. Nothing was answered yet."
    verdict = "right" if answer.right else "not right"
    return f"The adult's turn. The last answer: {answer.asked.shown}, {answer.given}, {verdict}."


def _marks(progress: Progress, topic: AdultsTurn) -> Iterator[str]:
    for digit, mark in enumerate(Mark, 1):
        kind = f" ({kind_said(value)})" if mark in KINDS and (value := value_of(progress, mark)) else ""
        yield f"{digit} {MARK_WORDS[mark]}{kind}{_state(is_on(progress, topic, mark))}"


def _kinds(progress: Progress, mark: Mark) -> Iterator[str]:
    yield f"{MARK_WORDS[mark].capitalize()}:"
    for digit, value in enumerate(KINDS[mark], 1):
        yield f"{digit} {kind_said(value)}{_state(value_of(progress, mark) == value)}"
    yield "0 back to the list"


def _state(is_marked: bool) -> str:
    return ": noted" if is_marked else ""
