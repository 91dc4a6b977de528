"""A practice by switch in time that only moves when nothing happens in it: the real loop, queue and dialogue.

The mouth takes as long as the words are; what presses the switch is told what is offered, as a pupil hears it.
"""

import heapq
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from itertools import count

from saythesum.app.session.inbox import Happened, Inbox
from saythesum.app.session.loop import Live
from saythesum.app.session.runner import Runner
from saythesum.app.session.speech.speech_queue import SpeechQueue
from saythesum.core.grids.file_format import text_of
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Answer, Ask, EndReason, Row
from saythesum.dialogue.step import opened
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import Progress, cell_of
from saythesum.keyboard.keys import Key, Pressed
from saythesum.keyboard.offers import Offer
from saythesum.ports import Clock, Over, OwnSound, SoundId, StoredPractice
from saythesum.scene.scan import NOTHING_OFFERED
from saythesum.settings import Settings, Start, Switch
from saythesum.store.pupils import FIRST_PUPIL
from saythesum.wording.speak.said_switch import offer_in_words
from tests.fakes.clock import FakeClock
from tests.fakes.store import MemoryStore

WORD_MS = 400
"""A word of slow clear speech: 150 a minute."""
CUE_MS = 60


class WordyMouth:
    """Says one thing after the other, each word in the same time; what is cut is over at once."""

    def __init__(self, clock: Clock, at: Callable[[int, Happened], None]) -> None:
        self.said: list[tuple[int, str]] = []
        """When each began."""
        self.cues: list[tuple[int, str]] = []
        self._clock, self._at = clock, at
        self._free_ms = 0
        self._playing: list[tuple[SoundId, int, list[bool]]] = []

    def prepare(self, text: str) -> None:
        pass

    def say(self, id: SoundId, text: str) -> None:
        began_ms = max(self._clock.since_start_ms(), self._free_ms)
        self.said.append((began_ms, text))
        self._play(id, WORD_MS * len(text.split()))

    def cue(self, id: OwnSound, name: str) -> None:
        self.cues.append((self._clock.since_start_ms(), name))
        self._play(id, CUE_MS)

    def cut(self) -> None:
        now_ms = self._clock.since_start_ms()
        for id, end_ms in self._unfinished(now_ms):
            del end_ms
            self._at(now_ms, Over(id, now_ms, cut_ms=0))
        self._playing.clear()
        self._free_ms = now_ms

    def slow_down(self) -> None:
        pass

    def _play(self, id: SoundId, long_ms: int) -> None:
        end_ms = self._free_ms = max(self._clock.since_start_ms(), self._free_ms) + long_ms
        is_cut = [False]
        self._playing.append((id, end_ms, is_cut))
        self._at(end_ms, _Unless(is_cut, Over(id, end_ms)))  # type: ignore[arg-type]

    def _unfinished(self, now_ms: int) -> Iterator[tuple[SoundId, int]]:
        for id, end_ms, is_cut in self._playing:
            if end_ms > now_ms:
                is_cut[0] = True
                yield id, end_ms


@dataclass(frozen=True, slots=True)
class _Unless:
    is_cut: list[bool]
    over: Over


class Agenda(Inbox):
    """What will happen, in order of time; waiting moves the clock to the next of it."""

    def __init__(self, clock: FakeClock) -> None:
        super().__init__(clock.since_start_ms)
        self._clock = clock
        self._due: list[tuple[int, int, Happened | Callable[[], Happened | None]]] = []
        self._order = count()

    def at(self, at_ms: int, thing: Happened | Callable[[], Happened | None]) -> None:
        """What is called then may give something that happens, or nothing."""
        heapq.heappush(self._due, (at_ms, next(self._order), thing))

    def post(self, thing: Happened) -> None:
        self.at(self._clock.since_start_ms(), thing)

    def after(self, wait_ms: int) -> Iterator[Happened]:
        until_ms = self._clock.since_start_ms() + max(0, wait_ms)
        if not self._due or self._due[0][0] > until_ms:
            self._clock.pass_ms(until_ms - self._clock.since_start_ms())
            return
        at_ms, _, thing = heapq.heappop(self._due)
        self._clock.pass_ms(max(0, at_ms - self._clock.since_start_ms()))
        now = thing() if callable(thing) else thing
        if isinstance(now, _Unless):
            now = None if now.is_cut[0] else now.over
        if now is not None:
            yield now


@dataclass
class SwitchRoom:
    plan: Plan
    switch: Switch
    pupil: Callable[["SwitchRoom", str], None] = lambda _room, _offered: None
    """Told whenever something else is offered, by its name; "" where nothing is."""
    store: MemoryStore = field(default_factory=MemoryStore)
    longest_ms: int = 3_600_000
    """Then it is over, wherever it is."""
    settings: Settings = field(default_factory=Settings)

    def __post_init__(self) -> None:
        self.clock = FakeClock()
        self.agenda = Agenda(self.clock)
        self.mouth = WordyMouth(self.clock, self.agenda.at)
        self.written: list[str] = []
        self.offered: list[tuple[int, str]] = []
        """Each thing offered, and when."""
        self.presses: list[int] = []
        """When the switch made contact, bounces among them."""
        self.typed: list[tuple[int, ...]] = []
        self.choices: list[tuple[int, str]] = []
        """What was chosen by switch, and when."""
        self.chosen: Callable[[str], None] = lambda _name: None
        self.asked: list[tuple[int, Cell]] = []
        """The cell of each question, and when it was kept."""
        settings = replace(self.settings, switch=self.switch, start=Start(by="switch"))
        self.plan = replace(self.plan, settings=settings)
        grid = self.plan.activities[0].grid
        self.store.begin(StoredPractice(self.plan.practice, FIRST_PUPIL, "", text_of(grid), 0, self.plan.settings, ""))
        queue = SpeechQueue(
            clock=self.clock,
            mouth=self.mouth,
            listener=None,
            post=self.agenda.post,
            write=self.written.append,
            one_by_one=False,
            has_cues=True,
        )
        state = opened(self.plan, Progress(), Ear.SWITCH)
        self.runner = Runner(state, store=self.store, clock=self.clock, outlets=queue)
        self.runner.on_kept = self._kept
        self.live = _Watched(self, self.runner, queue, self.agenda, self, speaks_keys=True, switch=self.switch)

    def type(self, digits: tuple[int, ...]) -> None:
        self.typed.append(digits)

    def show(self, text: str) -> None:
        self.written.append(text)

    def _kept(self, row: Row) -> None:
        if isinstance(row, Ask) and row.row is not None:
            self.asked.append((self.now_ms, cell_of(row)))

    @property
    def now_ms(self) -> int:
        return self.clock.since_start_ms()

    def press(self, after_ms: int = 0, key: Key = Key.SWITCH, *, held_ms: int = 80) -> None:
        """Contact, and so long after it the letting go."""

        def pressed() -> Happened:
            self.presses.append(self.now_ms)
            return Pressed(key, self.now_ms)

        self.agenda.at(self.now_ms + after_ms, pressed)
        self.agenda.at(self.now_ms + after_ms + held_ms, lambda: Pressed(key, self.now_ms, is_let_go=True))

    def run(self) -> EndReason | None:
        self.agenda.at(self.longest_ms, _give_up)
        try:
            self.live.run()
        except _OutOfTimeError:
            return None
        return self.runner.finished

    def end(self) -> None:
        """It is over now, wherever it is."""
        self.agenda.at(self.now_ms, _give_up)

    @property
    def rows(self) -> list[Row]:
        return list(self.store.practice(self.plan.practice).rows)

    @property
    def answers(self) -> list[Answer]:
        return [row for row in self.rows if isinstance(row, Answer)]


class _OutOfTimeError(Exception):
    pass


def _give_up() -> Happened:
    raise _OutOfTimeError


class _Watched(Live):
    """Tells the pupil what is offered whenever that has changed."""

    def __init__(self, room: SwitchRoom, *given: object, **named: object) -> None:
        super().__init__(*given, **named)  # type: ignore[arg-type]
        self._room = room
        self._seen = NOTHING_OFFERED

    def _chosen(self, offer: Offer, at_ms: int) -> None:
        name = offer_in_words(offer, self._typing.digits)
        self._room.choices.append((at_ms, name))
        self._room.chosen(name)
        super()._chosen(offer, at_ms)

    def _offer_next(self) -> None:
        super()._offer_next()
        assert self._scanner
        shown = self._scanner.shown
        if shown != self._seen:
            self._seen = shown
            if shown.name:
                self._room.offered.append((self._room.now_ms, shown.name))
            self._room.pupil(self._room, shown.name)
