"""A practice in time that moves only when told to: the real dialogue and wording, no device.

What is said is over at once, or after `speech_ms`; timers fire when `wait` moves the time past them.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from uuid import UUID

from saythesum.core.grids.grid import Grid, Order
from saythesum.core.meanings import Awaiting, Meaning
from saythesum.core.records.rows import Answer, By, HeardId, Row
from saythesum.dialogue.messages import Message
from saythesum.dialogue.step import State, opened, step
from saythesum.dialogue.turns.effects import Ear, Effect, Finish, Hush, Keep, Listen, OpenWhen, Say, ShutEar, Wake
from saythesum.dialogue.turns.events import (
    Began,
    EarAsked,
    Entered,
    Event,
    HeardSoFar,
    InputEnded,
    ListenId,
    SpeechBegan,
    TurnGivenBack,
    TurnTaken,
    UtteranceEnded,
    WakeId,
    Woke,
)
from saythesum.dialogue.tutor.plan import Plan, activity, planned
from saythesum.dialogue.tutor.progress import folded
from saythesum.settings import Length, Patterns, Settings, Wording
from saythesum.wording.speak.said import said
from saythesum.wording.understand.understood import understood
from tests.judged import judged_at

PRACTICE = UUID("6f0d2c7e-0000-4000-8000-000000000038")
SPEAKING_MS = 600
SILENCE_MS = 200
NO_EAR = ListenId(-1)


def plan_of(
    starts: Iterable[int], amounts: Iterable[int], *, length: Length = "short", offers_patterns: bool = False
) -> Plan:
    """`offers_patterns`: as the program does; most tests are about the sums of the grid alone."""
    grid = Grid("Rows of oars", tuple(starts), tuple(amounts), Order.ROWS)
    settings = Settings(wording=Wording(length=length), patterns=Patterns(offer=offers_patterns))
    return planned(PRACTICE, [activity(grid, 0)], settings)


@dataclass
class Talk:
    plan: Plan
    ear: Ear = Ear.OPEN
    speech_ms: int = 0
    """How long everything said in one turn takes."""
    between_ms: int | None = None
    """Each sentence takes `speech_ms` then, and so long after it the next one begins; the ear opens in between."""
    now_ms: int = 0
    rows: list[Row] = field(default_factory=list)
    state: State = field(init=False)
    messages: list[Message] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    finished: bool = False
    listen: Listen | None = None
    """The ear that is open."""
    _due: dict[int, Event] = field(default_factory=dict)
    _segment: int = 0
    _heard: int = 0

    def __post_init__(self) -> None:
        open_when = OpenWhen.AFTER_SPEECH if self.between_ms is None else OpenWhen.BETWEEN_SENTENCES
        self.state = opened(self.plan, folded(self.rows), self.ear, open_when=open_when)

    # ---- what happens

    def begin(self) -> list[Effect]:
        return self.post(Began(self.now_ms))

    def again(self) -> "Talk":
        """The program was killed and started again: only the kept rows are left."""
        return Talk(self.plan, self.ear, self.speech_ms, self.between_ms, self.now_ms, list(self.rows))

    def hear(
        self,
        meaning: str | Meaning,
        certainty: float = 0.9,
        *,
        is_clear: bool = True,
        after_ms: int = 0,
        heard: HeardId | None = None,
    ) -> list[Effect]:
        """One segment of speech, `after_ms` from now; what it means is settled only after a `wait`.

        Not clear: another meaning is nearly as likely.
        """
        effects = self.wait(after_ms) if after_ms else []
        listen = self.listen.id if self.listen else NO_EAR
        awaiting = self.listen.awaiting if self.listen else Awaiting.NUMBER
        effects += self.post(SpeechBegan(listen, self.now_ms))
        began_ms, ended_ms = self.now_ms, self.now_ms + SPEAKING_MS
        effects += self.wait(SPEAKING_MS + SILENCE_MS)
        meant = understood(meaning, awaiting) if isinstance(meaning, str) else meaning
        text = meaning if isinstance(meaning, str) else ""
        self._segment += 1
        return effects + self.post(
            HeardSoFar(
                listen,
                self._segment,
                judged_at(meant, certainty, is_clear=is_clear),
                text,
                began_ms,
                ended_ms,
                self.now_ms,
                heard or self._new_heard_id(),
            )
        )

    def answer(self, meaning: str | Meaning, certainty: float = 0.9, *, is_clear: bool = True) -> list[Effect]:
        """Speech, the end pause, and the pause after what was said back."""
        return self.hear(meaning, certainty, is_clear=is_clear) + self.wait() + self.wait()

    def type(self, line: str | Meaning) -> list[Effect]:
        by = By.TEXT if self.ear is Ear.TEXT else By.KEYS
        awaiting = self.listen.awaiting if self.listen else Awaiting.NUMBER
        meant = understood(line, awaiting, typed=True) if isinstance(line, str) else line
        text = line if isinstance(line, str) else ""
        return self.post(Entered(meant, text, by, self.now_ms, self.now_ms, self._new_heard_id()))

    def press(self) -> list[Effect]:
        return self.post(EarAsked(self.now_ms))

    def adult_takes(self) -> list[Effect]:
        return self.post(TurnTaken(self.now_ms))

    def adult_gives(self) -> list[Effect]:
        return self.post(TurnGivenBack(self.now_ms))

    def end_input(self) -> list[Effect]:
        return self.post(InputEnded(self.now_ms))

    def wait(self, ms: int | None = None) -> list[Effect]:
        """Let time pass; without `ms`, until whatever is due next has happened."""
        timer = self.state.channel.timer
        self._due = {
            id: event
            for id, event in self._due.items()
            if isinstance(event, UtteranceEnded) or id == (timer and timer.id)
        }
        if ms is None:
            ms = max(0, min((event.at_ms for event in self._due.values()), default=self.now_ms) - self.now_ms)
        until = self.now_ms + ms
        effects: list[Effect] = []
        while due := [id for id, event in self._due.items() if event.at_ms <= until]:
            event = self._due.pop(min(due, key=lambda id: (self._due[id].at_ms, id)))
            self.now_ms = max(self.now_ms, event.at_ms)
            effects += self.post(event)
        self.now_ms = until
        return effects

    def post(self, event: Event) -> list[Effect]:
        self.state, effects = step(self.state, event)
        over: list[Effect] = []
        for effect in effects:
            self._note(effect)
        spoken = [effect for effect in effects if isinstance(effect, Say)]
        if spoken:
            assert self._said_of(spoken[-1]), f"{spoken[-1]} ends a turn and has no words"
            end = UtteranceEnded(spoken[-1].id, self.now_ms + self.speech_ms)
            if self.between_ms is not None:
                self._due |= self._sentences(spoken, self.between_ms)
            elif self.speech_ms:
                self._due[end.id] = end
            else:
                over = self.post(end)
        return [*effects, *over]

    # ---- what came of it

    @property
    def answers(self) -> list[Answer]:
        return [row for row in self.state.progress.live if isinstance(row, Answer)]

    @property
    def is_waiting(self) -> bool:
        """Something will happen without anybody doing anything."""
        return bool(self._due)

    def _sentences(self, spoken: list[Say], between_ms: int) -> dict[int, Event]:
        """Their ends. What this length of wording leaves out is not said."""
        heard = [effect for effect in spoken if self._said_of(effect)]
        each_ms = self.speech_ms + between_ms
        return {
            say.id: UtteranceEnded(say.id, self.now_ms + self.speech_ms + at * each_ms) for at, say in enumerate(heard)
        }

    def _said_of(self, effect: Say) -> str:
        return said(effect.message, self.plan.settings.wording.length)

    def _note(self, effect: Effect) -> None:
        match effect:
            case Keep(row=row):
                self.rows.append(row)
            case Say(message=message):
                self.messages.append(message)
                if text := self._said_of(effect):
                    self.said.append(text)
            case Hush():
                self._due = {id: event for id, event in self._due.items() if not isinstance(event, UtteranceEnded)}
            case Listen():
                self.listen = effect
                self._segment = 0
            case ShutEar():
                self.listen = None
            case Wake(id=id, after_ms=after_ms):
                self._due = {other: event for other, event in self._due.items() if not isinstance(event, Woke)}
                self._due[id] = Woke(WakeId(id), self.now_ms + after_ms)
            case Finish():
                self.finished = True
            case _:
                pass

    def _new_heard_id(self) -> HeardId:
        self._heard += 1
        return HeardId(f"heard {self._heard}")
