"""What is kept of a hearing comes back as it was, and one that was heard is counted rightly."""

import dataclasses
import json
from pathlib import Path

from saythesum.core.meanings import Choice, Command, Given, Number
from saythesum.ports import Hearing, Hypothesis
from tests.tools.listening.figures import figures
from tests.tools.listening.hearings import Answer, read, written

RANKED = (
    Hypothesis(Number(46), -0.5),
    Hypothesis(Given(Command.DONT_KNOW), -4.25),
    Hypothesis(Choice(True), -5.0),
    Hypothesis(None, -6.125),
)
SURE = Answer("ferry crew", "mate", "46-1", 46, "clean", Hearing(RANKED, "46.", -0.25), ms=71.0)
NOT_SURE = dataclasses.replace(SURE, hearing=Hearing((RANKED[0], Hypothesis(Number(40), -0.75)), "Forty.", -0.25))
WRONG = dataclasses.replace(SURE, said=40)
NO_NUMBER = dataclasses.replace(SURE, said=None)
SILENT = dataclasses.replace(SURE, hearing=Hearing((), "", 0.0, is_speech=False))
A_SENTENCE = dataclasses.replace(SURE, hearing=Hearing(RANKED, "I said forty-six.", -3.0, inside=RANKED[:2]))


def test_what_was_kept_is_read_as_it_was(tmp_path: Path) -> None:
    answers = [SURE, NOT_SURE, WRONG, NO_NUMBER, SILENT, A_SENTENCE]
    (tmp_path / "kept.jsonl").write_text("".join(f"{written(answer)}\n" for answer in answers), encoding="utf-8")
    # Hearings compare by identity, so all is compared as it is written.
    assert [json.loads(written(answer)) for answer in read(tmp_path / "kept.jsonl")] == [
        json.loads(written(answer)) for answer in answers
    ]
    assert read(tmp_path / "kept.jsonl")[5].judged.heard == A_SENTENCE.judged.heard


def test_counts() -> None:
    found = figures([SURE, NOT_SURE, WRONG, SILENT])
    assert (found.count, found.right, found.taken, found.taken_wrongly) == (4, 2, 2, 1)


def test_whatever_is_taken_where_no_number_was_said_is_taken_wrongly() -> None:
    assert NO_NUMBER.is_taken_wrongly
    assert not NO_NUMBER.is_right
