"""What the dialogue wants is done in its order, rows first, and events wait for their turn."""

import json
from typing import Any

import pytest

from saythesum.app.session.log import Log
from saythesum.app.session.runner import Runner
from saythesum.core.grids.file_format import text_of
from saythesum.core.meanings import Command, Given, Number
from saythesum.core.records.rows import By, EndReason, HeardId, Row
from saythesum.dialogue.step import opened
from saythesum.dialogue.turns.effects import Ear, Listen, Wake
from saythesum.dialogue.turns.events import (
    Began,
    Entered,
    HeardSoFar,
    InputEnded,
    ListenId,
    SpeechBegan,
    TurnGivenBack,
    TurnTaken,
    UtteranceEnded,
    UtteranceId,
)
from saythesum.dialogue.tutor.progress import Progress
from saythesum.errors import StoreError
from saythesum.ports import StoredPractice
from saythesum.store.pupils import FIRST_PUPIL
from tests.fakes.clock import FakeClock
from tests.fakes.store import MemoryStore
from tests.talk import PRACTICE, plan_of


class Noted(MemoryStore):
    """Records and outlets that note in what order they are used; everything said is over at once."""

    runner: Runner

    def __init__(self, *, is_full: bool = False) -> None:
        super().__init__()
        self.done: list[str] = []
        self.wakes: list[int] = []
        self.listens: list[ListenId] = []
        self._is_full = is_full

    def keep(self, practice: Any, row: Row, *, at: str, at_ms: int) -> None:
        if self._is_full:
            raise StoreError("The disk is full; make room.")
        super().keep(practice, row, at=at, at_ms=at_ms)
        self.done.append(f"keep {type(row).__name__.lower()}")

    def say(self, id: UtteranceId, text: str) -> None:
        self.done.append(f"say {text}")
        self.runner.post(UtteranceEnded(id, self.runner.now_ms))
        self.done.append("said")

    def cue(self, name: str) -> None:
        self.done.append(f"cue {name}")

    def hush(self) -> None:
        self.done.append("hush")

    def speak_slower(self) -> None:
        self.done.append("slower")

    def listen(self, listen: Listen) -> None:
        self.done.append(f"listen {listen.awaiting}")
        self.listens.append(listen.id)

    def shut_ear(self) -> None:
        self.done.append("shut")

    def wake(self, wake: Wake, since_ms: int) -> None:
        self.done.append(f"wake {wake.name}")
        self.wakes.append(since_ms + wake.after_ms)


def running(
    noted: Noted,
    ear: Ear = Ear.TEXT,
    log: Log | None = None,
    *,
    starts: tuple[int, ...] = (47,),
    amounts: tuple[int, ...] = (5,),
) -> Runner:
    plan = plan_of(starts, amounts)
    noted.begin(StoredPractice(PRACTICE, FIRST_PUPIL, "", text_of(plan.activities[0].grid), 0, plan.settings, ""))
    clock = FakeClock(5_000)
    noted.runner = Runner(opened(plan, Progress(), ear), store=noted, clock=clock, outlets=noted, log=log)
    return noted.runner


def entered(number: int) -> Entered:
    return Entered(Number(number), str(number), By.TEXT, 5_000, 5_000, HeardId(f"heard {number}"))


def test_rows_are_kept_before_anything_is_said() -> None:
    noted = Noted()
    running(noted).post(Began(5_000))
    assert noted.done == [
        "keep ask",
        "say One row, one sum.",
        "said",
        "say Forty-seven add five.",
        "said",
        "listen number",
    ]


def test_what_an_outlet_posts_waits_until_the_step_is_through() -> None:
    """Each `said` stands right behind its `say`: nothing of what follows was done in between."""
    noted = Noted()
    runner = running(noted)
    runner.post(Began(5_000))
    noted.done.clear()
    runner.post(entered(52))
    assert [what for what in noted.done if not what.startswith("cue")] == [
        "shut",
        "keep answer",
        "keep end",
        "say Yes.",
        "said",
        "say That one's done. Bye for now.",
        "said",
    ]
    assert runner.finished is EndReason.FINISHED


def test_a_row_that_cannot_be_kept_stops_everything_before_a_word_of_it() -> None:
    noted = Noted(is_full=True)
    runner = running(noted)
    with pytest.raises(StoreError, match="make room"):
        runner.post(Began(5_000))
    assert noted.done == []


def test_a_wait_counts_from_when_it_happened() -> None:
    """The clock has gone on to 5,000 while 200 ms of silence ended at 3,400 were still being understood."""
    noted = Noted()
    runner = running(noted, Ear.OPEN)
    runner.post(Began(1_000))
    runner.post(SpeechBegan(noted.listens[-1], 2_600))
    heard = HeardSoFar(noted.listens[-1], 0, Number(52, 0.9), "fifty two", 2_500, 3_200, 3_400, HeardId("heard"))
    runner.post(heard)
    waits = runner.state.plan.settings.waits
    assert waits.after_number_ms is not None
    assert noted.wakes[-1] == 3_200 + waits.after_number_ms


def test_the_end_of_the_input_finishes_it() -> None:
    noted = Noted()
    runner = running(noted)
    runner.post(Began(5_000))
    runner.post(InputEnded(6_000))
    assert runner.finished is EndReason.END_OF_INPUT


def test_the_adults_turn_is_logged_when_it_is_taken_and_given_back_and_at_no_other_time() -> None:
    """Given back before anything is said or heard because of that."""
    lines: list[str] = []
    noted = Noted()
    runner = running(noted, log=Log(lines.append, PRACTICE, clock=FakeClock(5_000)))
    for event in (TurnTaken(1), Began(2), TurnGivenBack(3), TurnTaken(4), TurnTaken(5), entered(52), TurnGivenBack(6)):
        runner.post(event)
    told = [json.loads(line) for line in lines]
    kinds = [line["kind"] for line in told]
    assert [line["whose"] for line in told if line["kind"] == "turn"] == ["adult", "pupil"]
    given_back = len(kinds) - 1 - kinds[::-1].index("turn")
    assert kinds[given_back - 1 :] == ["turn", "turn", "say", "say", "said", "said", "listen"]
    runner.post(TurnTaken(7))
    runner.post(InputEnded(8))
    assert [json.loads(line)["kind"] for line in lines[len(kinds) :]] == ["turn", "end", "say", "said"]


def test_a_new_sum_and_a_finished_row_have_sounds_of_their_own_before_what_leads_to_them() -> None:
    """Hearing the question again, and help, are no new sum."""
    noted = Noted()
    runner = running(noted, starts=(38, 57), amounts=(3, 5))
    runner.post(Began(0))
    for meaning in (Number(41), Given(Command.SAY_AGAIN), Number(44), Number(2), Number(3), Number(43), Number(60)):
        runner.post(Entered(meaning, "", By.KEYS, 0, 0, HeardId("heard")))
    cues = [(done, noted.done[place + 1]) for place, done in enumerate(noted.done) if done.startswith("cue ")]
    assert [cue for cue in cues if cue[0] in ("cue next-sum", "cue row-finished")] == [
        ("cue next-sum", "say Thirty-eight add five."),
        ("cue row-finished", "say New row, fifty-seven."),
        ("cue next-sum", "say Fifty-seven add five."),
    ]
