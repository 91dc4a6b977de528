"""A practice in time that moves only when told to: the real dialogue and wording, no device.

What is said is said at once; timers fire when `wait` moves the time past them.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from uuid import UUID

from saythesum.core.grids import Grid, Order
from saythesum.core.rows import SURE_FROM, Answer, By, HeardId, Row
from saythesum.dialogue.effects import Ear, Effect, Finish, Keep, Listen, Say, ShutEar, Wake
from saythesum.dialogue.events import (
    Began,
    EarAsked,
    Entered,
    Event,
    HeardSoFar,
    InputEnded,
    ListenId,
    Said,
    SpeechBegan,
    TurnGivenBack,
    TurnTaken,
    WakeId,
    Woke,
)
from saythesum.dialogue.heard import Awaiting, Choice, Given, Number, Understood
from saythesum.dialogue.plan import Plan, planned
from saythesum.dialogue.progress import folded
from saythesum.dialogue.step import State, opened, step
from saythesum.settings import Length, Settings, Wording
from saythesum.wording.said import said
from saythesum.wording.understood import understood

PRACTICE = UUID("6f0d2c7e-0000-4000-8000-000000000038")
SPEAKING_MS = 600
SILENCE_MS = 200


def plan_of(starts: Iterable[int], amounts: Iterable[int], *, length: Length = "short") -> Plan:
    grid = Grid("Rows of oars", tuple(starts), tuple(amounts), Order.ROWS)
    return planned(PRACTICE, grid, 0, Settings(wording=Wording(length=length)))


@dataclass
class Talk:
    plan: Plan
    ear: Ear = Ear.OPEN
    state: State = field(init=False)
    now_ms: int = 0
    rows: list[Row] = field(default_factory=list)
    said: list[str] = field(default_factory=list)
    finished: bool = False
    _listen: Listen | None = None
    _timers: dict[WakeId, int] = field(default_factory=dict)
    _stretch: int = 0
    _heard: int = 0

    def __post_init__(self) -> None:
        self.state = opened(self.plan, folded(self.rows), self.ear)

    # ---- what happens

    def begin(self) -> list[Effect]:
        return self.post(Began(self.now_ms))

    def again(self) -> "Talk":
        """The program was killed and started again: only the kept rows are left."""
        return Talk(self.plan, self.ear, now_ms=self.now_ms, rows=list(self.rows))

    def hear(self, meaning: str | Understood, certainty: float = 0.9, *, after_ms: int = 0) -> list[Effect]:
        """One stretch of speech, `after_ms` from now; what it means is settled only after a `wait`."""
        self.now_ms += after_ms
        listen = self._listen.id if self._listen else ListenId(-1)
        effects = self.post(SpeechBegan(listen, self.now_ms))
        began_ms, ended_ms = self.now_ms, self.now_ms + SPEAKING_MS
        self.now_ms = ended_ms + SILENCE_MS
        awaiting = self._listen.awaiting if self._listen else Awaiting.NUMBER
        heard = understood(meaning, awaiting) if isinstance(meaning, str) else meaning
        text = meaning if isinstance(meaning, str) else ""
        heard = with_certainty(heard, certainty)
        self._stretch += 1
        return effects + self.post(
            HeardSoFar(listen, self._stretch, heard, text, began_ms, ended_ms, self.now_ms, self._new_heard_id())
        )

    def answer(self, meaning: str | Understood, certainty: float = 0.9) -> list[Effect]:
        """Speech, the end pause, and the pause after what was said back."""
        return self.hear(meaning, certainty) + self.wait() + self.wait()

    def type(self, line: str) -> list[Effect]:
        by = By.TEXT if self.ear is Ear.TEXT else By.KEYS
        awaiting = self._listen.awaiting if self._listen else Awaiting.NUMBER
        heard = understood(line, awaiting, typed=True)
        return self.post(Entered(heard, line, by, self.now_ms, self.now_ms, self._new_heard_id()))

    def press(self) -> list[Effect]:
        return self.post(EarAsked(self.now_ms))

    def adult_takes(self) -> list[Effect]:
        return self.post(TurnTaken(self.now_ms))

    def adult_gives(self) -> list[Effect]:
        return self.post(TurnGivenBack(self.now_ms))

    def end_input(self) -> list[Effect]:
        return self.post(InputEnded(self.now_ms))

    def wait(self, ms: int | None = None) -> list[Effect]:
        """Let time pass; without `ms`, until the next timer has fired."""
        if ms is None:
            ms = max(0, min(self._timers.values(), default=self.now_ms) - self.now_ms)
        until = self.now_ms + ms
        effects: list[Effect] = []
        while due := [id for id, at in self._timers.items() if at <= until]:
            first = min(due, key=lambda id: self._timers[id])
            self.now_ms = max(self.now_ms, self._timers.pop(first))
            effects += self.post(Woke(first, self.now_ms))
            if ms == 0:
                break
        self.now_ms = until
        return effects

    def post(self, event: Event) -> list[Effect]:
        self.state, effects = step(self.state, event)
        all_effects = list(effects)
        spoken = [effect for effect in effects if isinstance(effect, Say)]
        for effect in effects:
            self._note(effect)
        if spoken:
            all_effects += self.post(Said(spoken[-1].id, self.now_ms))
        return all_effects

    # ---- what came of it

    @property
    def answers(self) -> list[Answer]:
        return [row for row in self.state.progress.live if isinstance(row, Answer)]

    @property
    def is_listening(self) -> bool:
        return self._listen is not None

    def _note(self, effect: Effect) -> None:
        match effect:
            case Keep(row=row):
                self.rows.append(row)
            case Say(message=message):
                if text := said(message, self.plan.settings.wording.length):
                    self.said.append(text)
            case Listen():
                self._listen = effect
                self._stretch = 0
            case ShutEar():
                self._listen = None
            case Wake(id=id, after_ms=after_ms):
                self._timers = {id: self.now_ms + after_ms}
            case Finish():
                self.finished = True
            case _:
                pass

    def _new_heard_id(self) -> HeardId:
        self._heard += 1
        return HeardId(f"heard {self._heard}")


def with_certainty(heard: Understood, certainty: float) -> Understood:
    if isinstance(heard, Number | Choice | Given):
        return replace(heard, certainty=certainty, sure=certainty >= SURE_FROM)
    return heard
