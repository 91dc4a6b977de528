"""A live practice: one thread runs the dialogue; keys, window, mouth and ear post into its inbox."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Protocol
from uuid import uuid4

from saythesum.app.session.inbox import Happened, Inbox
from saythesum.app.session.runner import Runner
from saythesum.app.session.speech.listener import ListeningLost
from saythesum.app.session.speech.mouth import VoiceLost
from saythesum.app.session.speech.speech_queue import SpeechQueue
from saythesum.app.session.switching.scanner import Scanner
from saythesum.app.session.ways_left import ScreenLost
from saythesum.core.records.rows import By, EndReason, HeardId
from saythesum.dialogue.turns.events import Began, InputEnded, SpeakerChanged, TypingChanged
from saythesum.dialogue.turns.stack import Ending
from saythesum.keyboard.answer_entry import Typing, keep_with_question, situation
from saythesum.keyboard.key_actions import pressed
from saythesum.keyboard.keys import (
    SWITCHES,
    ChangeLook,
    ChangeSpeaker,
    ColoursShown,
    CutSpeech,
    DigitTyped,
    Focus,
    FocusMoved,
    Key,
    KeyAction,
    KeyMessage,
    LookChange,
    NoWindow,
    Post,
    Pressed,
    RubbedOut,
    SizeShown,
    SpeakerShown,
    SpeakKey,
    ViewShown,
)
from saythesum.keyboard.offers import Offer, most_digits
from saythesum.ports import Over, SwitchFound, SwitchLost, Touched
from saythesum.scene.caption import Aside, News, aside_said
from saythesum.scene.scan import NOTHING_OFFERED
from saythesum.scene.scene import Scene, for_adult, scene
from saythesum.settings import Switch
from saythesum.sound.device_events import LoudspeakerFound, LoudspeakerLost, MicrophoneFound, MicrophoneLost
from saythesum.wording.speak.said_keys import key_said
from saythesum.wording.speak.said_start import PRESS_TO_CLOSE
from saythesum.wording.speak.said_switch import SWITCH_BACK, SWITCH_LOST

LONGEST_WAIT_MS = 1_000
"""Without a timer or a press: how long the loop rests before it looks round."""
STOPS = (Key.STOP, Key.CLOSE)
LOOK_AGAIN_MS = 20
"""A wait is over and the ear has not listened that far."""


class Hands(Protocol):
    """Where typed digits are shown besides being heard."""

    def type(self, digits: tuple[int, ...]) -> None: ...

    def show(self, text: str) -> None:
        """A line that is read and never spoken."""


class Live:
    """The loop. One thread; everything else posts into its inbox."""

    def __init__(
        self,
        runner: Runner,
        queue: SpeechQueue,
        inbox: Inbox,
        hands: Hands,
        *,
        speaks_keys: bool,
        switch: Switch | None = None,
        silence: Callable[[bool], None] = lambda _: None,
        tell_adult: Callable[[tuple[str, ...]], None] = lambda _: None,
    ) -> None:
        """`switch`: what the pupil answers with; None: by keys, or by voice.

        `silence`: told whether a screen reader speaks in place of the tool from now on; `tell_adult`: told what is
        listed in the adult's turn, and nothing once it is given back.
        """
        self._tell_adult = tell_adult
        self._runner, self._queue, self._inbox, self._hands = runner, queue, inbox, hands
        self._speaks_keys, self._silence = speaks_keys, silence
        self._typing = Typing()
        self._aside: Aside | None = None
        self._listed: tuple[str, ...] = ()
        self._scanner = self._scanner_for(switch) if switch else None
        queue.to_dialogue = runner.post

    def run(self, missing: Sequence[str] = ()) -> None:
        """Until the practice is over, and whoever reads its last words has pressed a key.

        `missing`: sentences of devices that were looked for in vain, which so far stand in the terminal only.
        """
        for sentence in missing:
            self._aside = Aside(News(sentence), self._runner.state.channel.turns_said)
            self._queue.echo(sentence, cuts=False)
        self._show_scene()
        self._runner.post(Began(self._runner.now_ms))
        while not self._runner.finished:
            for thing in self._inbox.after(self._wait_ms()):
                if self._is_second_stop(thing):
                    return
                self._handle(thing)
                self._offer_next()
                if self._runner.finished:
                    break
            self._queue.ring()
            self._offer_next()
            self._show_scene()
        if self._runner.finished is EndReason.FINISHED:
            self._wait_for_a_key()

    def _wait_for_a_key(self) -> None:
        """Without a window nothing is shown that could be missed; one that was lost with the last words is told of."""
        if self._inbox.screen:
            self._queue.echo(PRESS_TO_CLOSE, cuts=False)
        is_waiting = True
        while is_waiting:
            for thing in self._inbox.after(LONGEST_WAIT_MS if self._inbox.screen else 0):
                if isinstance(thing, Over | ScreenLost):
                    self._handle(thing)
                if isinstance(thing, Touched | InputEnded) or _is_press(thing):
                    return
            is_waiting = self._inbox.screen is not None

    def _handle(self, thing: Happened) -> None:
        match thing:
            case Over():
                self._queue.sound_over(thing)
                if self._scanner:
                    self._scanner.sound_over(thing)
            case Pressed(key=key) if key in SWITCHES:
                self._press_switch(thing)
            case SwitchLost() | SwitchFound():
                self._switch_came_or_went(is_there=isinstance(thing, SwitchFound))
            case Pressed() | Touched():
                self._press(thing)
            case MicrophoneLost() | LoudspeakerLost() | VoiceLost() | ListeningLost() | ScreenLost():
                self._note_whether_heard(thing)
                self._tell(thing.sentence)
            case MicrophoneFound(device=device) | LoudspeakerFound(device=device):
                self._note_whether_heard(thing)
                self._tell(f"{device.name} is back.")
            case _:
                self._queue.happened(thing)

    def _is_second_stop(self, thing: Happened) -> bool:
        """The first one keeps the place and says goodbye; nobody has to hear that out."""
        topics = self._runner.state.talk.topics
        is_ending = bool(topics) and isinstance(topics[-1], Ending)
        is_stop = isinstance(thing, InputEnded) or (isinstance(thing, Pressed) and thing.key in STOPS)
        return is_ending and is_stop

    def _press(self, press: Pressed | Touched) -> None:
        if isinstance(press, Touched):
            self._typing = replace(self._typing, focus=press.focus)
            press = Pressed(Key.ENTER, press.at_ms)
        was_typing = bool(self._typing.digits)
        before = situation(self._runner.state)
        self._typing, actions = pressed(self._typing, press, situation=before, heard_id=HeardId(str(uuid4())))
        if was_typing != bool(self._typing.digits) and not any(isinstance(action, Post) for action in actions):
            self._runner.post(TypingChanged(is_empty=was_typing, at_ms=press.at_ms))
        self._carry_out(actions, cuts=press.by is not By.SWITCH)
        self._typing, actions = keep_with_question(self._typing, situation(self._runner.state))
        self._carry_out(actions)
        self._hands.type(self._typing.digits)
        self._list_marks()

    def _list_marks(self) -> None:
        """In the adult's turn the terminal has the list as well, for an adult who does not see the window."""
        marks = for_adult(self._runner.state)
        if marks != self._listed:
            for text in marks:
                self._hands.show(text)
            self._tell_adult(marks)
        self._listed = marks

    # ---- the switch

    def _scanner_for(self, switch: Switch) -> Scanner:
        return Scanner(
            switch,
            most_digits=most_digits(self._runner.state.plan),
            queue=self._queue,
            now_ms=lambda: self._runner.now_ms,
            choose=self._chosen,
            note=lambda sentence: self._note(News(sentence), cuts=False),
        )

    def _press_switch(self, press: Pressed) -> None:
        if self._scanner:
            self._typing = replace(self._typing, verdict_passed=situation(self._runner.state).verdict_on)
            self._scanner.press(press)

    def _chosen(self, offer: Offer, at_ms: int) -> None:
        """As if its key had been pressed, wherever Tab is."""
        self._typing = replace(self._typing, focus=Focus.ANSWER)
        self._press(Pressed(offer.key, at_ms, digit=offer.digit, by=By.SWITCH))

    def _offer_next(self) -> None:
        if self._scanner:
            self._scanner.ring()
            is_seen = self._inbox.screen is not None
            self._scanner.look(situation(self._runner.state), self._typing, is_seen=is_seen)

    def _switch_came_or_went(self, *, is_there: bool) -> None:
        if self._scanner and self._scanner.is_switch_there != is_there:
            self._scanner.is_switch_there = is_there
            self._tell(SWITCH_BACK if is_there else SWITCH_LOST)

    def _note_whether_heard(self, news: Happened) -> None:
        if self._scanner and isinstance(news, LoudspeakerLost | LoudspeakerFound | VoiceLost):
            self._scanner.is_heard = isinstance(news, LoudspeakerFound)

    # ---- what comes of a press

    def _carry_out(self, actions: Sequence[KeyAction], *, cuts: bool = True) -> None:
        """`cuts`: what is said of a key cuts what is being said, which a switch has done by itself."""
        for action in actions:
            match action:
                case Post(event=event):
                    self._runner.post(event)
                case CutSpeech():
                    self._queue.hush()
                case SpeakKey(message=message):
                    self._speak_key(message, cuts=cuts)
                case ChangeLook(change=change):
                    self._change_look(change)
                case ChangeSpeaker():
                    self._change_speaker()

    def _change_look(self, change: LookChange) -> None:
        looks = self._inbox.on_screen(lambda screen: screen.change(change))
        self._speak_key(looks or NoWindow(), cuts=True)

    def _change_speaker(self) -> None:
        """From then on the other one says everything, this sentence included."""
        is_screen_reader = self._speaks_keys
        self._speaks_keys = not is_screen_reader
        self._silence(is_screen_reader)
        self._runner.post(SpeakerChanged(is_screen_reader, self._runner.now_ms))
        self._speak_key(SpeakerShown(is_screen_reader), cuts=True)

    def _speak_key(self, message: KeyMessage, *, cuts: bool) -> None:
        """Digits are in large print; a look is seen, and what was written stays. Everything else is shown as a line,
        too. A screen reader says by itself what is typed and where Tab is; a look it says from what is written.
        """
        match message:
            case DigitTyped(is_letter=False) | RubbedOut() | FocusMoved() if not self._speaks_keys:
                pass
            case ViewShown() | ColoursShown() | SizeShown() if not self._speaks_keys:
                self._note(message, cuts=cuts)
            case DigitTyped() | RubbedOut() | ViewShown() | ColoursShown() | SizeShown():
                self._queue.echo(key_said(message), cuts=cuts)
            case _:
                self._note(message, cuts=cuts)

    def _tell(self, sentence: str) -> None:
        """A device has gone or come back: said once, and the practice goes on with what is left."""
        self._note(News(sentence), cuts=False)

    def _note(self, message: KeyMessage | News, *, cuts: bool) -> None:
        count = self._aside.count + 1 if self._aside else 1
        self._aside = Aside(message, self._runner.state.channel.turns_said, count)
        self._queue.note(aside_said(message), cuts=cuts)

    def _wait_ms(self) -> int:
        timer = self._queue.timer
        offer_ms = self._scanner.wait_ms if self._scanner else None
        longest_ms = LONGEST_WAIT_MS if offer_ms is None else min(LONGEST_WAIT_MS, offer_ms)
        if timer is None:
            return longest_ms
        left_ms = timer.at_ms - self._runner.now_ms
        return min(longest_ms, left_ms if left_ms > 0 else LOOK_AGAIN_MS)

    def _show_scene(self) -> None:
        def now() -> Scene:
            offered = self._scanner.shown if self._scanner else NOTHING_OFFERED
            return scene(self._runner.state, self._typing, self._aside, offered)

        self._inbox.on_screen(lambda screen: screen.show(now()))


def _is_press(thing: Happened) -> bool:
    return isinstance(thing, Pressed) and not (thing.is_repeat or thing.is_let_go)
