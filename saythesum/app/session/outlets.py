"""Mouth, ear and timer of a live practice, as the dialogue uses them."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace

from saythesum.app.session.listener import Listener
from saythesum.app.session.mouth import Mouth
from saythesum.dialogue.turns.effects import Ear, Listen, Wake
from saythesum.dialogue.turns.events import ListenId, UtteranceId, WakeId
from saythesum.ports import Clock

BEHIND_MS = 150
"""The ear always is by a block, and by what it takes to find speech: more means that the machine is busy."""
LONGEST_BEHIND_MS = 3_000
"""An ear that does not come after at all ends no wait."""


@dataclass(slots=True)
class Timer:
    id: WakeId
    at_ms: int


@dataclass(slots=True)
class _OwnSounds:
    """Cues and key echoes: sounds that are no utterance of the dialogue. Their ids are below zero."""

    last_id: int = 0
    echoes: set[int] = field(default_factory=set)

    def new_id(self) -> int:
        self.last_id -= 1
        return self.last_id


class LiveOutlets:
    """Outlets for `Runner`, on real devices. On a loudspeaker the ear is never open while the tool sounds."""

    def __init__(
        self,
        *,
        clock: Clock,
        mouth: Mouth,
        listener: Listener | None,
        has_cues: bool,
        echo_ms: int = 0,
        show: Callable[[str], None],
    ) -> None:
        """`echo_ms`: how long after the tool has spoken its voice may still be heard in the room."""
        self._clock, self._mouth, self._listener, self._show = clock, mouth, listener, show
        self._has_cues, self._echo_ms = has_cues, echo_ms
        self._own = _OwnSounds()
        self._listen: Listen | None = None
        self._over: int = 0
        """The sentence that was over last."""
        self._spoke_until_ms = 0
        self.timer: Timer | None = None
        self.is_pausing: Callable[[], bool] = _never
        """Whether the ear opens for a pause: that is not announced by a cue."""

    # ---- what the dialogue wants

    def say(self, id: UtteranceId, text: str) -> None:
        self._show(text)
        self._mouth.say(id, text)

    def hush(self) -> None:
        self._spoke_until_ms = self._clock.since_start_ms()
        self._mouth.cut()
        if self._listen:  # what follows will not be said now: the ear is open like any other
            self._listen = replace(self._listen, for_ms=None)

    def speak_slower(self) -> None:
        self._mouth.slow_down()

    def listen(self, listen: Listen) -> None:
        if listen.is_between:
            return self._listen_between(listen)
        self._listen = listen
        self._open_ear()
        if self._listener and not self.is_pausing():
            self.cue("ear-open")  # no speech, so that the open ear makes nothing of it; waiting would cut quick answers

    def shut_ear(self) -> None:
        if self._listener and self._listen:
            self._listener.shut()
            if self._listen.ear is Ear.PRESS:
                self.cue("ear-shut")
        self._listen = None

    def wake(self, wake: Wake, since_ms: int) -> None:
        self.timer = Timer(wake.id, since_ms + wake.after_ms)

    def is_ear_behind(self, timer: Timer) -> bool:
        """On a busy machine the pupil may have spoken in the wait, and the ear may not have got there yet."""
        if not (self._listener and self._listen):
            return False
        late_ms = self._clock.since_start_ms() - timer.at_ms
        return self._listener.heard_until_ms < timer.at_ms - BEHIND_MS and late_ms < LONGEST_BEHIND_MS

    # ---- between two sentences

    def _listen_between(self, listen: Listen) -> None:
        """The turn goes on, so there is no cue. An engine that is still being loaded holds nothing up."""
        if self._listener and self._listener.is_ready and not self._own.echoes:
            self._listen = listen
            self._open_ear()

    def sentence_over(self, id: int, at_ms: int) -> None:
        """Before the dialogue hears of it, which may open the ear."""
        self._over, self._spoke_until_ms = id, at_ms

    def go_on(self) -> None:
        """After the dialogue has heard of it: the next sentence may begin, unless the ear is open for the pupil."""
        if not (self._listen and self._listen.is_between):
            self._mouth.go_on(self._over)

    def nobody_spoke(self, listen: ListenId) -> None:
        if self._listen and self._listen.id == listen:
            self._listen = None
            self.go_on()

    # ---- what is said beside the dialogue

    def note(self, text: str, *, cuts: bool) -> None:
        """A line that is shown as well as said."""
        self._show(text)
        self.echo(text, cuts=cuts)

    def echo(self, text: str, *, cuts: bool) -> None:
        """A key, or news of a device. The ear waits until it has been said."""
        if cuts:
            self._mouth.cut()
        if self._listener and self._listen:
            self._listener.shut()
            if self._listen.is_between:
                self.nobody_spoke(self._listen.id)
        id = self._own.new_id()
        self._own.echoes.add(id)
        self._mouth.say(id, text)

    def cue(self, name: str) -> None:
        if self._has_cues:
            self._mouth.cue(self._own.new_id(), name)

    def own_sound_over(self, id: int, at_ms: int) -> None:
        if id in self._own.echoes:
            self._own.echoes.discard(id)
            self.sentence_over(id, at_ms)
            self._open_ear()
            self.go_on()

    def _open_ear(self) -> None:
        if self._listener and self._listen and not self._own.echoes:
            silent_from_ms = self._spoke_until_ms + self._echo_ms
            self._listener.open(self._listen, self._clock.since_start_ms(), silent_from_ms=silent_from_ms)


def _never() -> bool:
    return False
