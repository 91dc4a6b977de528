"""The live loop by keys, in this process: everything that happens comes through its one inbox."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from queue import SimpleQueue
from threading import Event as Flag

import pytest

from saythesum.app.session.inbox import Happened, Inbox
from saythesum.app.session.loop import Live
from saythesum.app.session.no_start import say_why_not
from saythesum.app.session.runner import Runner
from saythesum.app.session.speech.listener import ListeningLost
from saythesum.app.session.speech.mouth import Mouth, VoiceLost
from saythesum.app.session.speech.speech_queue import SpeechQueue
from saythesum.app.session.ways_left import WaysLeft
from saythesum.app.setup.clock import RealClock
from saythesum.core.grids.file_format import text_of
from saythesum.core.records.rows import Answer, By, End, EndReason
from saythesum.dialogue.step import opened
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.events import InputEnded
from saythesum.dialogue.tutor.progress import Progress
from saythesum.errors import AnotherCopyError, ScreenError
from saythesum.keyboard.keys import Focus, Key, LookChange, LookMessage, Pressed
from saythesum.ports import Loudspeaker, Over, StoredPractice, Touched
from saythesum.scene.scene import Now, Scene
from saythesum.screen.look import FIRST_STEP, Look
from saythesum.settings import Speech
from saythesum.sound.device_events import LoudspeakerLost, MicrophoneFound, MicrophoneLost
from saythesum.sound.devices import Device
from saythesum.speaking.voice import ToolVoice
from saythesum.store.pupils import FIRST_PUPIL
from saythesum.store.records import SqliteStore
from saythesum.wording.speak.said_start import ANOTHER_COPY
from tests.fakes.sound_devices import NotedLoudspeaker
from tests.fakes.store import MemoryStore
from tests.talk import PRACTICE, plan_of


def typed(text: str) -> list[Happened]:
    """Digits, and Enter for each /."""
    return [Pressed(Key.ENTER, 0) if sign == "/" else Pressed(Key.DIGIT, 0, digit=int(sign)) for sign in text]


class NotedScreen:
    """A window that shows scenes until it goes away."""

    def __init__(self, presses: list[Pressed | Touched], goes_after: int = 1_000_000) -> None:
        self.scenes: list[Scene] = []
        self.look = Look()
        self.is_over: Callable[[], bool] = lambda: False
        self.at_the_end: list[Pressed | Touched] = [Pressed(Key.SPACE, 0)]
        """Pressed when the practice is over."""
        self._presses, self._goes_after = presses, goes_after
        self._woken = Flag()

    def show(self, scene: Scene) -> None:
        self._stay()
        self.scenes.append(scene)

    def presses(self, timeout_ms: int) -> Sequence[Pressed | Touched]:
        self._stay()
        presses = self.at_the_end if self.is_over() else self._presses
        if presses:
            return [presses.pop(0)]
        self._woken.wait(timeout_ms / 1000)
        self._woken.clear()
        return []

    def wake(self) -> None:
        self._woken.set()

    def change(self, change: LookChange) -> LookMessage:
        self._stay()
        self.look, message = self.look.changed(change)
        return message

    def resize_to(self, step: int) -> None:
        raise AssertionError("nobody asked for it")

    def close(self) -> None:
        pass

    def _stay(self) -> None:
        self._goes_after -= 1
        if self._goes_after < 0:
            raise ScreenError("The screen has gone; go on by ear.")


@dataclass
class Table:
    """Where somebody practises by keys: without a loudspeaker everything said is over at once."""

    inbox: Inbox = field(default_factory=lambda: Inbox(lambda: 0))
    shown: list[str] = field(default_factory=list)
    typed: list[tuple[int, ...]] = field(default_factory=list)
    store: MemoryStore = field(default_factory=MemoryStore)

    def show(self, text: str) -> None:
        self.shown.append(text)

    def type(self, digits: tuple[int, ...]) -> None:
        self.typed.append(digits)

    @property
    def answers(self) -> list[tuple[int, bool]]:
        rows = self.store.practice(PRACTICE).rows
        return [(row.given, row.right) for row in rows if isinstance(row, Answer) and row.by is By.KEYS]


Practises = Callable[..., EndReason | None]


@pytest.fixture
def table() -> Table:
    return Table()


@pytest.fixture
def practises(table: Table, tmp_path: Path) -> Iterator[Practises]:
    mouths: list[Mouth] = []

    def practise(
        *happens: Happened, screen: NotedScreen | None = None, loudspeaker: Loudspeaker | None = None
    ) -> EndReason | None:
        clock, plan = RealClock(), plan_of((47, 58), (5,))
        table.store.begin(
            StoredPractice(PRACTICE, FIRST_PUPIL, "", text_of(plan.activities[0].grid), 0, plan.settings, "")
        )
        mouth = Mouth(ToolVoice(Speech(), tmp_path), loudspeaker, clock=clock, post=table.inbox.post)
        mouths.append(mouth)
        queue = SpeechQueue(
            clock=clock,
            mouth=mouth,
            listener=None,
            post=table.inbox.post,
            write=table.show,
            one_by_one=False,
            has_cues=True,
        )
        runner = Runner(opened(plan, Progress(), Ear.KEYS), store=table.store, clock=clock, outlets=queue)
        if screen:
            screen.is_over = lambda: runner.finished is not None
        table.inbox.screen = screen
        for thing in happens:
            table.inbox.post(thing)
        Live(runner, queue, table.inbox, table, speaks_keys=True).run()
        return runner.finished

    yield practise
    for mouth in mouths:
        mouth.close()


def test_from_the_first_key_to_the_last(table: Table, practises: Practises) -> None:
    assert practises(*typed("52/63/")) is EndReason.FINISHED
    assert table.answers == [(52, True), (63, True)]
    assert table.typed == [(5,), (5, 2), (), (6,), (6, 3), ()]
    assert table.shown[-1] == "That's both done. Bye for now."


def test_the_end_of_the_keys_ends_the_practice_and_keeps_the_place(table: Table, practises: Practises) -> None:
    assert practises(*typed("52/"), InputEnded(0)) is EndReason.END_OF_INPUT
    assert table.answers == [(52, True)]
    assert table.shown[-1] == "We'll go on from here next time."


HEADSET = Device("Ferry headset", "ALSA", 1, 2, 48_000)


@pytest.mark.parametrize(
    ("news", "told"),
    [
        (MicrophoneLost("The microphone has gone; plug it in again."), "The microphone has gone; plug it in again."),
        (LoudspeakerLost("The headset has gone; plug it in again."), "The headset has gone; plug it in again."),
        (VoiceLost("No voice: install one."), "No voice: install one."),
        (ListeningLost("No model: install one."), "No model: install one."),
        (MicrophoneFound(HEADSET), "Ferry headset is back."),
    ],
)
def test_what_is_lost_or_found_is_told_once_and_costs_nothing(
    news: Happened, told: str, table: Table, practises: Practises
) -> None:
    assert practises(*typed("5"), news, *typed("2/63/")) is EndReason.FINISHED
    assert table.answers == [(52, True), (63, True)]
    assert table.shown.count(told) == 1


def test_a_window_shows_what_is_said_and_typed(table: Table, practises: Practises) -> None:
    presses: list[Pressed | Touched] = [press for press in typed("4/52/63/") if isinstance(press, Pressed | Touched)]
    looks = [Pressed(key, 0) for key in (Key.BIGGER, Key.VIEW, Key.COLOURS)]
    screen = NotedScreen([*presses[:1], Pressed(Key.BACKSPACE, 0), *looks, *presses[2:]])
    assert practises(screen=screen) is EndReason.FINISHED
    assert table.answers == [(52, True), (63, True)]
    assert screen.look == Look("grid", FIRST_STEP + 1, "white on black")
    assert {"4", "5", "52", "63"} <= {typed_in(scene) for scene in screen.scenes}
    captions = [scene.caption.text for scene in screen.scenes]
    assert any("Forty-seven add five." in caption for caption in captions)
    assert not any("view" in text for text in table.shown), "a look is seen, and said; what was written stays"
    assert any("Rubbed out" in caption for caption in captions) == ("Rubbed out four." in table.shown)


def test_a_verdict_stands_beside_its_own_sum(table: Table, practises: Practises) -> None:
    """Through the loop, as in the product: without a loudspeaker everything said is over at once."""
    presses = [press for press in typed("42/52/63/") if isinstance(press, Pressed)]
    screen = NotedScreen([*presses])
    assert practises(screen=screen) is EndReason.FINISHED
    shown = {(s.verdict.text, s.sum.text) for s in screen.scenes if s.verdict and s.sum}
    assert shown == {
        ("47 + 5: 42. Not yet.", "47 + 5"),
        ("47 + 5 = 52. Yes.", "58 + 5"),
        ("58 + 5 = 63. Yes.", "58 + 5"),
    }
    assert not any("Yes." in s.caption.text or "Not yet." in s.caption.text for s in screen.scenes)
    assert not any(s.verdict for s in screen.scenes if typed_in(s) and s.now is not Now.CLOSES), "a key goes on from it"


def typed_in(scene: Scene) -> str:
    return scene.answer.text if scene.answer else ""


def test_the_last_verdict_stays_until_a_key(table: Table, practises: Practises) -> None:
    """A key that is still held from the last answer is none."""
    presses = [press for press in typed("52/63/") if isinstance(press, Pressed)]
    screen = NotedScreen([*presses])
    held, other, one_too_many = Pressed(Key.ENTER, 0, is_repeat=True), Pressed(Key.SPACE, 0), Pressed(Key.HELP, 0)
    screen.at_the_end = [held, other, one_too_many]
    assert practises(screen=screen) is EndReason.FINISHED
    last = screen.scenes[-1]
    assert last.verdict
    assert (typed_in(last), last.verdict.text) == ("63", "58 + 5 = 63. Yes.")
    assert last.caption.text == "That's both done. Bye for now."
    assert screen.at_the_end == [one_too_many]


def test_a_touched_button_is_as_good_as_a_key(table: Table, practises: Practises) -> None:
    screen = NotedScreen([Touched(Focus.STOP, 0)])
    assert practises(screen=screen) is EndReason.STOPPED


@pytest.mark.parametrize("goes_after", [0, 1, 2])
def test_a_window_that_goes_away_is_told_once_and_the_practice_goes_on(
    goes_after: int, table: Table, practises: Practises
) -> None:
    screen = NotedScreen([], goes_after)
    assert practises(*typed("52/63/"), screen=screen) is EndReason.FINISHED
    assert table.answers == [(52, True), (63, True)]
    assert table.shown.count("The screen has gone; go on by ear.") == 1


def test_a_window_that_goes_away_with_the_only_keyboard_ends_the_practice(table: Table, practises: Practises) -> None:
    table.inbox.ways = WaysLeft(has_terminal=False, has_window=True, hears_by_itself=False)
    assert practises(screen=NotedScreen([], 1)) is EndReason.END_OF_INPUT
    assert table.shown[-1] == "We'll go on from here next time."


def test_a_look_without_a_window_is_answered(table: Table, practises: Practises) -> None:
    assert practises(Pressed(Key.VIEW, 0), *typed("52/63/")) is EndReason.FINISHED
    assert table.shown.count("There is no window.") == 1


def test_a_window_that_goes_away_while_its_look_changes(table: Table, practises: Practises) -> None:
    screen = NotedScreen([Pressed(Key.COLOURS, 0)], 3)
    assert practises(*typed("52/63/"), screen=screen) is EndReason.FINISHED
    assert table.shown.count("The screen has gone; go on by ear.") == 1


@pytest.mark.parametrize("stop", [InputEnded(0), Pressed(Key.CLOSE, 0), Pressed(Key.STOP, 0)])
def test_a_second_stop_does_not_wait_for_the_goodbye(stop: Happened, table: Table, practises: Practises) -> None:
    """With a loudspeaker that never gets to the end of anything."""
    assert practises(*typed("52/"), stop, stop, loudspeaker=NotedLoudspeaker(lambda _: None)) is None
    assert table.answers == [(52, True)]
    assert [row.reason for row in table.store.practice(PRACTICE).rows if isinstance(row, End)] != []


def test_another_copy_is_told_by_ear_and_in_the_window_until_a_key(table: Table, tmp_path: Path) -> None:
    """The copy that has the records is this very test."""
    first = SqliteStore(tmp_path / "records.sqlite")
    with pytest.raises(AnotherCopyError) as told:
        SqliteStore(tmp_path / "records.sqlite")
    overs: SimpleQueue[Over | VoiceLost] = SimpleQueue()
    loudspeaker = NotedLoudspeaker(table.inbox.post)
    mouth = Mouth(ToolVoice(Speech(), tmp_path), loudspeaker, clock=RealClock(), post=overs.put)
    queue = SpeechQueue(
        clock=RealClock(),
        mouth=mouth,
        listener=None,
        post=table.inbox.post,
        write=table.show,
        one_by_one=False,
        has_cues=True,
    )
    screen = table.inbox.screen = NotedScreen([Pressed(Key.SPACE, 0)])
    say_why_not(told.value, queue, table.inbox)
    assert [scene.caption.text for scene in screen.scenes] == [ANOTHER_COPY]
    loudspeaker.finish()
    assert len(loudspeaker.played) == 1
    mouth.close()
    first.close()
