"""The speech queue: what is spoken next, when the ear is open, what a cue announces, and what cuts speech.

It acts on a mouth and a listener and is told what came of it; it starts no thread and waits for nothing. A live
practice drives it with devices and the clock on the wall, a rehearsal with computed sound and the clock of its samples.
"""

from collections import deque
from collections.abc import Callable, Collection, Set
from dataclasses import dataclass, replace
from typing import Protocol, TypeAlias

from saythesum.dialogue.turns.effects import Ear, Listen, Purpose, Wake
from saythesum.dialogue.turns.events import Event, NobodySpoke, UtteranceEnded, UtteranceId, WakeId, Woke
from saythesum.ports import Clock, Listener, Over, OwnSound, SoundId

BEHIND_MS = 150
"""The ear always is behind by a block, and by what it takes to find speech; more means that the machine is busy."""
LONGEST_BEHIND_MS = 3_000
"""An ear that does not catch up at all holds up no wait for longer than this."""


class Mouth(Protocol):
    """Renders and plays in the order of the calls. Each id comes back in one `Over`; see `SpeechQueue.sound_over`."""

    def prepare(self, text: str) -> None:
        """This will be said soon: render it ahead."""

    def say(self, id: SoundId, text: str) -> None: ...

    def cue(self, id: OwnSound, name: str) -> None: ...

    def cut(self) -> None: ...

    def slow_down(self) -> None: ...


@dataclass(frozen=True, slots=True)
class Timer:
    id: WakeId
    at_ms: int


@dataclass(frozen=True, slots=True)
class _Sentence:
    id: SoundId
    text: str


@dataclass(frozen=True, slots=True)
class _Cue:
    id: OwnSound
    name: str


_Item: TypeAlias = _Sentence | _Cue


class SpeechQueue:
    """Outlets for `Runner`. On a loudspeaker the ear is never open while the tool speaks. For one thread."""

    def __init__(
        self,
        *,
        clock: Clock,
        mouth: Mouth,
        listener: Listener | None,
        post: Callable[[Over], None],
        write: Callable[[str], None],
        one_by_one: bool,
        has_cues: bool,
        silent_cues: Collection[str] = (),
        echo_ms: int = 0,
    ) -> None:
        """`post` takes the sounds that were dropped before they were handed to the mouth, and must return before it
        gives them back. `write` gets each sentence, for a terminal. `one_by_one`: a sentence waits until the one before
        it is over, so that the ear can be open between the two. `echo_ms`: how long after the tool has spoken its voice
        may still be heard in the room. `silent_cues`: those that are not heard, although others are.
        """
        self.timer: Timer | None = None
        self.to_dialogue: Callable[[Event], None] = _nobody_yet
        self._clock, self._mouth, self._listener, self._post, self._write = clock, mouth, listener, post, write
        self._one_by_one, self._has_cues, self._echo_ms = one_by_one, has_cues, echo_ms
        self._silent_cues = frozenset(silent_cues)
        self._waiting: deque[_Item] = deque()
        """Not handed to the mouth yet."""
        self._spoken_alone: SoundId | None = None
        """The sentence that must be over before the mouth gets the next one."""
        self._listen: Listen | None = None
        """What the ear is open for, or will be once the program's own sentences are over."""
        self._spoke_until_ms = 0
        self._own_sounds = 0
        self._own_sentences: set[OwnSound] = set()
        """Of keys and devices, not over yet: meanwhile the ear stays shut."""

    # ---- what the dialogue wants

    def say(self, id: UtteranceId, text: str) -> None:
        self._write(text)
        self._add(_Sentence(id, text))

    def cue(self, name: str) -> None:
        """In its turn, before what is said next."""
        if self._has_cues and name not in self._silent_cues:
            self._add(_Cue(self._new_own_sound(), name))

    def hush(self) -> None:
        self._spoke_until_ms = self._now_ms
        self._cut()
        if self._listen and self._listen.is_between:  # no sentence follows now: the ear is open like any other
            self._listen = replace(self._listen, purpose=Purpose.ANSWER, for_ms=None)

    def speak_slower(self) -> None:
        self._mouth.slow_down()

    def listen(self, listen: Listen) -> None:
        if listen.is_between:
            return self._listen_between(listen)
        self._listen = listen
        self._open_ear()
        if self._listener and listen.purpose is Purpose.ANSWER:
            # The cue is not speech, so the open ear ignores it; opening after it would cut off quick answers.
            self.cue("ear-open")

    def shut_ear(self) -> None:
        if self._listener and self._listen:
            self._listener.shut()
            if self._listen.ear is Ear.PRESS:
                self.cue("ear-shut")
        self._listen = None

    def wake(self, wake: Wake, since_ms: int) -> None:
        self.timer = Timer(wake.id, since_ms + wake.after_ms)

    # ---- what the program itself has to say

    def note(self, text: str, *, cuts: bool) -> None:
        """A sentence that is written as well, and is a turn by itself."""
        self._write(text)
        self.echo(text, cuts=cuts)

    def echo(self, text: str, *, cuts: bool) -> OwnSound:
        """A key, or news of a device. The ear waits until it has been said."""
        if cuts:
            self._cut()
        if self._listener and self._listen:
            self._listener.shut()
            if self._listen.is_between:
                self._listen = None
        id = self._new_own_sound()
        self._own_sentences.add(id)
        self._add(_Sentence(id, text))
        return id

    def prepare(self, text: str) -> None:
        """It will be said soon."""
        self._mouth.prepare(text)

    @property
    def own_sentences(self) -> Set[OwnSound]:
        """The program's own that are not over yet, or whose end has not been heard of."""
        return self._own_sentences

    # ---- what happened

    def sound_over(self, over: Over) -> None:
        """The dialogue hears of its own utterances only, and may open the ear before the next one begins."""
        if over.id == self._spoken_alone:
            self._spoken_alone = None
        match over.id:
            case OwnSound() if over.id in self._own_sentences:
                self._own_sentences.discard(over.id)
                self._spoke_until_ms = over.at_ms
                self._open_ear()
            case OwnSound():
                pass  # the ear is open during a cue
            case id:
                self._spoke_until_ms = over.at_ms
                self.to_dialogue(UtteranceEnded(id, over.at_ms, over.cut_ms))
        self._advance()

    def happened(self, event: Event) -> None:
        """Anything but the end of a sound: the ear, a key, a line of text."""
        self.to_dialogue(event)
        if isinstance(event, NobodySpoke) and self._listen and self._listen.id == event.listen:
            self._listen = None
            self._advance()

    def ring(self) -> None:
        """Ends the wait whose time has come, unless the pupil may have spoken in it and the ear has not got there."""
        timer = self.timer
        if timer and self._now_ms >= timer.at_ms and not self._is_ear_behind(timer):
            self.timer = None
            self.to_dialogue(Woke(timer.id, self._now_ms))

    def _is_ear_behind(self, timer: Timer) -> bool:
        if not (self._listener and self._listen):
            return False
        is_behind = self._listener.heard_until_ms < timer.at_ms - BEHIND_MS
        return is_behind and self._now_ms - timer.at_ms < LONGEST_BEHIND_MS

    # ---- the queue

    def _add(self, item: _Item) -> None:
        self._waiting.append(item)
        self._advance()
        if self._waiting and isinstance(item, _Sentence):
            self._mouth.prepare(item.text)

    def _advance(self) -> None:
        """Hands to the mouth whatever may begin by now."""
        while self._waiting and self._spoken_alone is None and not (self._listen and self._listen.is_between):
            match self._waiting.popleft():
                case _Cue(id=id, name=name):
                    self._mouth.cue(id, name)
                case _Sentence(id=id, text=text):
                    self._spoken_alone = id if self._one_by_one else None
                    self._mouth.say(id, text)

    def _cut(self) -> None:
        dropped = tuple(self._waiting)
        self._waiting.clear()
        self._spoken_alone = None
        self._mouth.cut()
        for item in dropped:
            self._post(Over(item.id, self._now_ms, cut_ms=0))

    def _new_own_sound(self) -> OwnSound:
        self._own_sounds += 1
        return OwnSound(self._own_sounds)

    # ---- the ear

    def _listen_between(self, listen: Listen) -> None:
        """The turn goes on, so no cue announces it. An engine that is still being loaded holds nothing up."""
        if self._listener and self._listener.is_ready and not self._own_sentences:
            self._listen = listen
            self._open_ear()

    def _open_ear(self) -> None:
        if self._listener and self._listen and not self._own_sentences:
            silent_from_ms = self._spoke_until_ms + self._echo_ms
            self._listener.open(self._listen, self._now_ms, silent_from_ms=silent_from_ms)

    @property
    def _now_ms(self) -> int:
        return self._clock.since_start_ms()


def _nobody_yet(event: Event) -> None:
    raise AssertionError(f"{event} before there is a dialogue to hear of it")
