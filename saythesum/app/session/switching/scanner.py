"""What is offered to a switch, in time: it owns the waits, and each thing is a sound of its own in the one queue."""

from collections.abc import Callable
from dataclasses import dataclass

from saythesum.app.session.speech.speech_queue import SpeechQueue
from saythesum.keyboard.answer_entry import Situation, Typing
from saythesum.keyboard.keys import Key, Pressed
from saythesum.keyboard.offers import Offer, Offers, comes_by_itself, offers
from saythesum.keyboard.scanning import (
    Acknowledge,
    Choose,
    FallSilent,
    Interrupt,
    SayOffer,
    Scan,
    ScanAction,
    Scanned,
    WaitFor,
    offer_said,
    offering,
    switch_pressed,
    wait_over,
)
from saythesum.ports import Over, OwnSound
from saythesum.scene.scan import ScanShown, scan_shown
from saythesum.settings import Switch
from saythesum.wording.speak.said_switch import PRESS_TO_GO_ON, offer_in_words


@dataclass(frozen=True, slots=True)
class _Wait:
    id: int
    at_ms: int


class Scanner:
    """For one thread. `choose` and `note` act on the practice, which may call `look` again before they return."""

    def __init__(
        self,
        switch: Switch,
        *,
        most_digits: int,
        queue: SpeechQueue,
        now_ms: Callable[[], int],
        choose: Callable[[Offer, int], None],
        note: Callable[[str], None],
    ) -> None:
        """`choose` gets what was chosen, and when; `note` says a sentence that is shown, too."""
        self._switch, self._most_digits, self._queue, self._now_ms = switch, most_digits, queue, now_ms
        self._choose, self._note = choose, note
        self._scan = Scan()
        self._wait: _Wait | None = None
        self._saying: OwnSound | None = None
        """The offer that is being said."""
        self._said: set[OwnSound] = set()
        """Offers whose end has not been heard of, that one among them."""
        self._of: object = None
        """What the offers belong to: when it changes, they begin anew."""
        self._typing, self._is_adults_turn = Typing(), False
        self._is_called = False
        """The pupil called for the adult, and may take the turn back."""
        self.is_switch_there = True
        self.is_heard = True
        """There is a loudspeaker, or nobody needs one."""

    # ---- what happens

    def look(self, situation: Situation, typing: Typing, *, is_seen: bool) -> None:
        """Whenever something may have changed. `is_seen`: there is a window."""
        self._typing, self._is_adults_turn = typing, situation.is_adults_turn
        self._is_called = self._is_called and situation.is_adults_turn
        now: Offers = ()
        if self._can_be_followed(is_seen=is_seen):
            now = offers(situation, typing.digits, self._most_digits, is_called=self._is_called)
        of = (now, situation.question, situation.turns_said, typing.digits)
        is_new, self._of = of != self._of, of
        if self._queue.own_sentences - self._said:
            if self._scan.offers and (is_new or not self._scan.has_fallen_silent):
                self._offer((), situation)
        elif is_new or self._scan.offers != now:
            self._offer(now, situation)

    def press(self, press: Pressed) -> None:
        self._done(switch_pressed(self._scan, press, self._switch))

    def sound_over(self, over: Over) -> None:
        if isinstance(over.id, OwnSound):
            self._said.discard(over.id)
        if over.id == self._saying:
            self._saying = None
            if over.cut_ms is None:
                self._done(offer_said(self._scan, self._switch, self._now_ms()))

    def ring(self) -> None:
        wait = self._wait
        if wait and self._now_ms() >= wait.at_ms:
            self._wait = None
            self._done(wait_over(self._scan, wait.id, self._switch, self._now_ms()))

    # ---- what can be asked

    @property
    def wait_ms(self) -> int | None:
        """Until `ring` has something to do."""
        return max(0, self._wait.at_ms - self._now_ms()) if self._wait else None

    @property
    def shown(self) -> ScanShown:
        return scan_shown(self._scan, self._typing.digits, is_adults_turn=self._is_adults_turn)

    # ---- what comes of it

    def _can_be_followed(self, *, is_seen: bool) -> bool:
        """Nothing is offered that nobody could choose, or hear or see."""
        return self.is_switch_there and (self.is_heard or is_seen)

    def _offer(self, now: Offers, situation: Situation) -> None:
        by_itself = comes_by_itself(situation)
        self._done(offering(self._scan, now, self._switch, self._now_ms(), by_itself=by_itself))

    def _done(self, scanned: Scanned) -> None:
        self._scan, actions = scanned
        for action in actions:
            self._carry_out(action)

    def _carry_out(self, action: ScanAction) -> None:
        match action:
            case SayOffer(offer=offer):
                self._say(offer)
            case WaitFor(id=id, ms=ms):
                self._wait = _Wait(id, self._now_ms() + ms)
            case Acknowledge():
                self._queue.hush()
                self._queue.cue("heard-you")
            case Choose(offer=offer):
                self._is_called = offer.key is Key.ADULT and not self._is_adults_turn
                self._choose(offer, self._now_ms())
            case Interrupt():
                self._queue.hush()
            case FallSilent():
                self._note(PRESS_TO_GO_ON)

    def _say(self, offer: Offer) -> None:
        """In place of the one before; the one that comes next is rendered meanwhile."""
        self._queue.hush()
        self._queue.cue("scan-step")
        self._saying = self._queue.echo(self._words(offer), cuts=False)
        self._said.add(self._saying)
        after = self._scan.offers[(self._scan.offers.index(offer) + 1) % len(self._scan.offers)]
        self._queue.prepare(self._words(after))

    def _words(self, offer: Offer) -> str:
        return offer_in_words(offer, self._typing.digits, is_adults_turn=self._is_adults_turn)
