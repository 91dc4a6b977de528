"""Made-up hands at a switch, and the pupil they belong to: who works a grid with a miss, a call for help and a pause.

Sources of the times: a simple reaction to a sound takes an adult 0.14 to 0.16 s (from memory, Woodworth and
Schlosberg, Experimental Psychology); choosing takes longer, and hands that need switches longer still. The figures
here are common practice among those who set switches up, not measured.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from enum import Enum
from random import Random

from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Ask
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue.turns.stack import OfferingFacts, OfferingPattern, OfferingTwoJumps
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import cell_of
from saythesum.keyboard.keys import Key
from saythesum.settings import Switch
from saythesum.wording.numbers import words
from saythesum.wording.speak.lengths import begun
from tests.switching.room import SwitchRoom
from tests.talk import plan_of

AGAIN_AFTER_MS = 600
"""Who has pressed and hears nothing presses again."""


@dataclass(frozen=True, slots=True)
class Hand:
    reaction_ms: tuple[float, float]
    """Mean and spread; never less than 200 ms."""
    held_ms: tuple[int, int]
    bounces: tuple[int, int]
    """How often it makes contact again after each press, from and to."""
    bounce_ms: tuple[int, int] = (20, 350)
    """From one contact to the next."""

    def reaction(self, dice: Random) -> int:
        return max(200, round(dice.gauss(*self.reaction_ms)))


class Kind(Enum):
    QUICK = Hand((450, 90), (60, 140), (0, 0))
    SLOW = Hand((1_100, 350), (200, 1_500), (0, 0))
    DOUBLE_PRESSING = Hand((650, 150), (40, 120), (1, 4))


class Way(Enum):
    """How the switches are used."""

    BY_ITSELF = Switch(first="Space")
    BY_PRESSING = Switch(first="Space", scanning="by pressing")
    TWO = Switch(first="Space", second="F8")


PACES_MS: Mapping[Kind, int] = {Kind.QUICK: 1_500, Kind.SLOW: 2_500, Kind.DOUBLE_PRESSING: 2_000}
"""As an adult would set them for such a hand."""


@dataclass
class Pupil:
    """Presses when what it wants is offered; a wrong digit is rubbed out, as it hears what it chose."""

    kind: Kind
    way: Way
    dice: Random
    misses: Cell | None = None
    calls_for_help: Cell | None = None
    pauses_at: Cell | None = None
    meant: list[int] = field(default_factory=list)
    """The numbers it gave, as it meant them."""
    bounces: set[int] = field(default_factory=set)
    """When contact was made that it did not mean."""
    places: int = 2
    """So many digits has every number."""
    _has: set[str] = field(default_factory=set)
    _at: int = 0
    """Grows with each thing offered: a press that is on its way is forgotten only by being made."""

    def __call__(self, room: SwitchRoom, offered: str) -> None:
        self._at += 1
        if not offered:
            self._start(room)
        elif offered == self._wanted(room):
            self._choose(room)
        elif self.way is not Way.BY_ITSELF:
            self._press(room, Key.SWITCH)

    def _start(self, room: SwitchRoom) -> None:
        """Nothing is offered: in a pause it rests first; where things do not come by themselves it asks for them."""
        shown = room.live._scanner.shown if room.live._scanner else None
        if not (shown and shown.is_open):
            return
        if room.live._scanner and room.live._scanner._scan.has_fallen_silent:
            self._press(room, Key.SWITCH)
        elif self.is_pausing(room):
            self._press(room, Key.SWITCH, after_ms=15_000)
        elif self.way is not Way.BY_ITSELF:
            self._press(room, Key.SWITCH)

    def is_pausing(self, room: SwitchRoom) -> bool:
        from saythesum.dialogue.turns.stack import Paused

        topics = room.runner.state.talk.topics
        return bool(topics) and isinstance(topics[-1], Paused)

    def _wanted(self, room: SwitchRoom) -> str:
        """By the name it is offered by."""
        if self.is_pausing(room):
            return "Go on."
        if isinstance(room.runner.state.talk.topics[-1], OfferingPattern | OfferingFacts | OfferingTwoJumps):
            return "No."
        ask = room.runner.state.progress.ask
        assert ask is not None
        cell = cell_of(ask)
        for wish, at, name in (("help", self.calls_for_help, "Help me."), ("pause", self.pauses_at, "Wait.")):
            if cell == at and wish not in self._has and not room.live._typing.digits:
                return name
        return self._next_of_number(room, self._number(room.plan, ask, cell))

    def _number(self, plan: Plan, ask: Ask, cell: Cell) -> int:
        right = plan.exercise_at(cell).answer_to(ask.part)
        if cell == self.misses and "miss" not in self._has and ask.part in CLOSING_PARTS:
            return right - 1 if right % 10 == 9 else right + 1
        return right

    def _next_of_number(self, room: SwitchRoom, number: int) -> str:
        typed = room.live._typing.digits
        places = str(number).zfill(self.places)
        so_far = "".join(map(str, typed))
        if not places.startswith(so_far):
            return "Rub out."
        if len(typed) == len(places):
            return f"That's it, {words(number)}."
        return f"{begun(int(places[len(typed)]))}."

    def _choose(self, room: SwitchRoom) -> None:
        match self.way:
            case Way.BY_ITSELF:
                self._press(room, Key.SWITCH)
            case Way.TWO:
                self._press(room, Key.SECOND_SWITCH)
            case Way.BY_PRESSING:
                pass  # it rests

    def _press(self, room: SwitchRoom, key: Key, after_ms: int = 0) -> None:
        """And once more, as long as nothing comes of it."""
        hand = self.kind.value
        at_ms = after_ms + hand.reaction(self.dice)
        room.press(at_ms, key, held_ms=self.dice.randint(*hand.held_ms))
        room.agenda.at(room.now_ms + at_ms + AGAIN_AFTER_MS, self._again(room, key))
        for _ in range(self.dice.randint(*hand.bounces)):
            at_ms += self.dice.randint(*hand.bounce_ms)
            self.bounces.add(room.now_ms + at_ms)
            room.press(at_ms, key, held_ms=20)

    def _again(self, room: SwitchRoom, key: Key) -> Callable[[], None]:
        on = self._at

        def press_again() -> None:
            if on == self._at:
                self._press(room, key)

        return press_again

    def has_chosen(self, room: SwitchRoom, name: str) -> None:
        """What came of a press."""
        ask = room.runner.state.progress.ask
        if ask is None or room.runner.state.progress.is_talking:
            return
        cell = cell_of(ask)
        if name == "Help me." and cell == self.calls_for_help:
            self._has.add("help")
        if name == "Wait." and cell == self.pauses_at:
            self._has.add("pause")
        if name.startswith("That's it"):
            number = self._number(room.plan, ask, cell)
            self.meant.append(number)
            if cell == self.misses:
                self._has.add("miss")


@dataclass(frozen=True, slots=True)
class Practised:
    reason: str | None
    meant: tuple[int, ...]
    kept: tuple[int, ...]
    """The numbers in the rows, by switch."""
    others: int
    """Answers by anything but a switch."""
    unpressed: int
    """Choices for which there was no press that the pupil meant."""
    from_bounces: int
    presses: tuple[int, ...]
    """For each sum, meant ones."""
    seconds: tuple[float, ...]
    """The same, from its question on."""
    support: tuple[str, ...]


def practised(kind: Kind, way: Way, seed: int) -> Practised:
    """A 2 by 3 grid with a wrong answer, a call for help and a pause, each at another sum."""
    dice = Random(f"{kind.name} {way.name} {seed}")
    starts = dice.sample(range(13, 90), 2)
    amounts = dice.sample(range(2, 10), 3)
    cells = [Cell(row, column) for row in range(2) for column in range(3)]
    misses, help_at, pause_at = dice.sample(cells, 3)
    switch = replace(way.value, pace_ms=PACES_MS[kind])
    pupil = Pupil(kind, way, dice, misses, help_at, pause_at)
    room = SwitchRoom(plan_of(starts, amounts), switch, pupil)
    room.chosen = lambda name: pupil.has_chosen(room, name)
    reason = room.run()
    return _came_of(room, pupil, reason)


def _came_of(room: SwitchRoom, pupil: Pupil, reason: str | None) -> Practised:
    answers = room.answers
    meant_presses = [at for at in room.presses if at not in pupil.bounces]
    unpressed = from_bounces = 0
    for at_ms, _ in room.choices:
        before = [at for at in room.presses if at <= at_ms]
        is_real = bool(before) and (before[-1] not in pupil.bounces or _within(room, meant_presses, at_ms))
        unpressed += not before
        from_bounces += bool(before) and not is_real
    presses, seconds = _by_sum(room, meant_presses)
    return Practised(
        reason=reason,
        meant=tuple(pupil.meant),
        kept=tuple(answer.given for answer in answers if answer.by == "switch"),
        others=sum(answer.by != "switch" for answer in answers),
        unpressed=unpressed,
        from_bounces=from_bounces,
        presses=presses,
        seconds=seconds,
        support=tuple(answer.support for answer in answers),
    )


def _within(room: SwitchRoom, meant: list[int], at_ms: int) -> bool:
    """A rest, or the moment in which both switches would count, lies between the press and what it chose."""
    if room.switch.scanning == "by pressing":
        return any(at <= at_ms for at in meant)
    return any(0 <= at_ms - at <= 100 for at in meant)


def _by_sum(room: SwitchRoom, meant: list[int]) -> tuple[tuple[int, ...], tuple[float, ...]]:
    asked = [(at_ms, cell) for at_ms, cell in room.asked]
    begins = [at for place, (at, cell) in enumerate(asked) if place == 0 or asked[place - 1][1] != cell]
    ends = [*begins[1:], room.now_ms]
    pairs = list(zip(begins, ends, strict=True))
    return (
        tuple(sum(begin <= at < end for at in meant) for begin, end in pairs),
        tuple((end - begin) / 1000 for begin, end in pairs),
    )
