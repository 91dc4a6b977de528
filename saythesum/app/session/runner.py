"""Runs a practice: events in, one at a time; effects out to the records, the log, the mouth and the ear."""

from collections import deque
from collections.abc import Callable, Mapping
from typing import Protocol

from saythesum.app.session.log import Log
from saythesum.app.session.speech.line_cue import line_cue
from saythesum.core.exercises import bridge_remarks
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Ask, EndReason, Row
from saythesum.core.records.times import utc_text
from saythesum.dialogue import messages
from saythesum.dialogue.messages import Message
from saythesum.dialogue.step import State, step
from saythesum.dialogue.turns.effects import (
    Effect,
    Finish,
    Hush,
    Keep,
    Listen,
    Say,
    Settle,
    ShutEar,
    SpeakSlower,
    Wake,
)
from saythesum.dialogue.turns.events import Event, TurnGivenBack, TurnTaken, UtteranceEnded, UtteranceId
from saythesum.dialogue.turns.stack import AdultsTurn
from saythesum.dialogue.tutor.progress import cell_of, is_of_talk
from saythesum.learner.worth_finding import WorthFinding
from saythesum.ports import Clock, Keeper
from saythesum.scene.number_line import whole_line
from saythesum.wording.for_adults.said_patterns import why_found_said
from saythesum.wording.for_adults.said_whys import why_said
from saythesum.wording.speak.said import said

CUES: Mapping[type[Message], str] = {
    bridge_remarks.TenGiven: "ten-reached",
    bridge_remarks.GapGiven: "ten-reached",
    messages.AllDone: "practice-over",
    messages.ProbeOver: "practice-over",
}
"""What is said after a sound of its own."""
_LEADS_TO_A_SUM = (
    messages.AskWhole,
    messages.NewRow,
    messages.NextAlong,
    messages.BackToOneLeft,
    messages.ThisOneFirst,
)
"""The first of these has the sound of a new sum before it."""


class Outlets(Protocol):
    """Mouth, ear and timer of one way to practise. What happens there comes back through `Runner.post`."""

    def say(self, id: UtteranceId, text: str) -> None:
        """Speak or show it after what is being said already; `Said(id)` when it is over or cut."""

    def cue(self, name: str) -> None:
        """A short sound before what is said next, where there is sound."""

    def hush(self) -> None: ...

    def speak_slower(self) -> None: ...

    def listen(self, listen: Listen) -> None: ...

    def shut_ear(self) -> None: ...

    def wake(self, wake: Wake, since_ms: int) -> None:
        """The wait counts from `since_ms`, the moment of the event that asked for it: speech that ended a while ago,
        say, when it has only now been understood.
        """


class Notes(Protocol):
    def note(self, text: str, *, cuts: bool) -> None:
        """A line beside the dialogue, shown as well as said; `cuts`: what is being said gives way to it."""


class NotingOutlets(Outlets, Notes, Protocol):
    """What a practice is held with whose records can be lost."""


class Runner:
    """One practice, run by one thread: `post` from any other thread belongs in a queue of the caller's."""

    def __init__(self, state: State, *, store: Keeper, clock: Clock, outlets: Outlets, log: Log | None = None) -> None:
        self.state = state
        self.finished: EndReason | None = None
        self.on_kept: Callable[[Row], None] = _nothing
        """Told of each row that is on disk, for what goes on beside the practice."""
        self.whys: list[str] = []
        """Why each cell was chosen in this run, for the adult."""
        self.pattern_whys: list[str] = []
        """The same of the patterns that were talked about."""
        self._store = store
        self._clock = clock
        self._outlets = outlets
        self._log = log
        self._events: deque[Event] = deque()
        self._is_stepping = False
        self._last_asked: Cell | None = None
        self._new_sum_cue: str | None = None

    def post(self, event: Event) -> None:
        """An outlet may post while it is being used: that event waits until this step is through."""
        self._events.append(event)
        if self._is_stepping:
            return
        self._is_stepping = True
        try:
            while self._events:
                self._step(self._events.popleft())
        finally:
            self._is_stepping = False

    @property
    def now_ms(self) -> int:
        return self._clock.since_start_ms()

    def _step(self, event: Event) -> None:
        if isinstance(event, UtteranceEnded) and self._log:
            self._log.said(event)
        was_adults = _is_adults_turn(self.state)
        self.state, effects = step(self.state, event)
        is_adults = _is_adults_turn(self.state)
        if isinstance(event, TurnTaken | TurnGivenBack) and is_adults != was_adults and self._log:
            self._log.turn(is_adults=is_adults)
        for effect in effects:
            self._carry_out(effect, event.at_ms)

    def _carry_out(self, effect: Effect, event_ms: int) -> None:
        match effect:
            case Keep():
                self._keep(effect)
            case Say():
                self._say(effect)
            case Hush():
                self._outlets.hush()
            case SpeakSlower():
                self._outlets.speak_slower()
            case Listen():
                self._outlets.listen(effect)
                if self._log and not effect.is_between:
                    self._log.listen(effect)  # last: who follows the log speaks when it says that the ear is open
            case ShutEar():
                self._outlets.shut_ear()
            case Wake():
                self._outlets.wake(effect, event_ms)
            case Settle():
                if self._log:
                    self._log.heard(effect)
            case Finish(reason=reason):
                self.finished = reason

    def _keep(self, keep: Keep) -> None:
        """On disk before anything that follows in this step is done."""
        self._note_new_sum(keep.row)
        row, why = keep.row, _why(keep)
        if why:
            (self.pattern_whys if isinstance(keep.why, WorthFinding) else self.whys).append(why)
        at, at_ms = utc_text(self._clock.now()), self._clock.since_start_ms()
        self._store.keep(self.state.plan.practice, row, at=at, at_ms=at_ms)
        if self._log:
            self._log.kept(row, at=at, at_ms=at_ms, why=why)
        self.on_kept(row)

    def _note_new_sum(self, row: Row) -> None:
        """What is to be heard before another sum than the last one is asked."""
        if not isinstance(row, Ask) or is_of_talk(row):
            return
        last, self._last_asked = self._last_asked, cell_of(row)
        if last is None or last == self._last_asked:
            return
        activity = self.state.plan.activity_of(last)
        in_row = {cell for cell in activity.cells if cell.row == last.row}
        is_row_done = activity.aim.has_grid and in_row <= self.state.progress.closed
        self._new_sum_cue = "row-finished" if is_row_done and self._last_asked.row != last.row else "next-sum"

    def _say(self, say: Say) -> None:
        """A message that this length of wording leaves out is not said; the last of a turn always has words."""
        text = said(say.message, self.state.plan.settings.wording.length)
        if not text:
            return
        if self._log:
            self._log.say(say, text)
        if cue := self._cue(say.message):
            self._outlets.cue(cue)
        if self._new_sum_cue and isinstance(say.message, _LEADS_TO_A_SUM):
            self._outlets.cue(self._new_sum_cue)
            self._new_sum_cue = None
        self._outlets.say(say.id, text)

    def _cue(self, message: Message) -> str | None:
        if isinstance(message, messages.AlongTheLine):
            is_sounded = self.state.plan.settings.helping.number_line == "sounded"
            return line_cue(whole_line(message.asked)) if is_sounded else None
        return CUES.get(type(message))


def _why(keep: Keep) -> str | None:
    match keep.why:
        case None:
            return None
        case WorthFinding() as found:
            return why_found_said(found)
        case chosen:
            return why_said(chosen)


def _is_adults_turn(state: State) -> bool:
    topics = state.talk.topics
    return bool(topics) and isinstance(topics[-1], AdultsTurn)


def _nothing(row: Row) -> None:
    pass
