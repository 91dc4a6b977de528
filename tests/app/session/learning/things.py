"""Hearings and rows of a practice, made up."""

from itertools import count

import numpy as np

from saythesum.app.session.learning.beside_practice import Heard
from saythesum.core.meanings import Awaiting, Meaning, Number, Unclear, WhyUnclear
from saythesum.core.records.rows import (
    Answer,
    Ask,
    By,
    HeardId,
    Note,
    NoteKind,
    RowId,
    Settled,
    Support,
    Void,
    VoidReason,
)
from saythesum.core.sums import Part
from saythesum.dialogue.turns.events import HeardSoFar, ListenId
from saythesum.ports import Frames

OTHER = Unclear(WhyUnclear.OTHER)
UNSURE = Number(9, certainty=0.5, sure=False)
SURE = Number(9, certainty=0.95)
_serial = count()


def heard(
    frames: "Frames | None",
    meaning: Meaning = OTHER,
    *,
    listen: int | None = None,
    segment: int = 0,
    awaiting: Awaiting = Awaiting.NUMBER,
    factor: float = 1.0,
) -> Heard:
    """Each in an opening of the ear of its own, unless `listen` says which."""
    serial = next(_serial)
    id, opening = HeardId(f"heard-{serial}"), ListenId(10_000 + serial if listen is None else listen)
    event = HeardSoFar(opening, segment, meaning, "", began_ms=0, ended_ms=1, at_ms=1, id=id)
    return Heard(event, awaiting, np.zeros(16, np.float32), frames, factor)


def ask() -> Ask:
    return Ask(RowId(f"ask-{next(_serial)}"), 0, 0, Part.GAP, Support.ASKED, None)


def answer(given: int, heard: Heard | None = None, *, right: int | None = None) -> Answer:
    """By voice where it was heard, else by keys."""
    right_answer = given if right is None else right
    by, settled = (By.VOICE, Settled.SAID_BACK) if heard else (By.KEYS, Settled.KEYS)
    return Answer(
        RowId(f"answer-{next(_serial)}"), 0, 0, 38, 5, Part.GAP, right_answer, given, given == right_answer,
        Support.ASKED, 1, None, (), heard.event.id if heard else None, None, (), by, settled, True,
    )  # fmt: skip


def marked_right(of: Answer, *, taken_back: bool = False) -> Note:
    return Note(RowId(f"note-{next(_serial)}"), of.id, NoteKind.WAS_RIGHT, "" if taken_back else "yes")


def void(of: Answer) -> Void:
    return Void(RowId(f"void-{next(_serial)}"), of.id, VoidReason.NOT_SAID)
