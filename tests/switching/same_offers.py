"""Pairs of sums with the same presses at the same moments after their questions, and what is offered for each."""

from collections.abc import Iterator
from random import Random

from saythesum.settings import Scanning, Switch
from tests.switching.room import SwitchRoom
from tests.talk import plan_of

OFFERED_FOR_MS = 60_000
Offers = list[tuple[int, str]]
"""When, from the end of the question on, and what."""


def offers_of_pairs(scanning: Scanning, pairs: int) -> Iterator[tuple[Offers, Offers]]:
    dice = Random(scanning)
    switch = Switch(first="Space", scanning=scanning)
    for _ in range(pairs):
        presses_ms = sorted(dice.sample(range(500, 40_000, 50), dice.randint(3, 12)))
        one, other = ((dice.randint(10, 90), dice.randint(1, 9)) for _ in range(2))
        yield offered_for(*one, switch, presses_ms), offered_for(*other, switch, presses_ms)


def offered_for(start: int, amount: int, switch: Switch, presses_ms: list[int]) -> Offers:
    """What is offered once a whole number has been given is another question's, and so it is after a call for help,
    whose words are about the sum."""
    room = SwitchRoom(plan_of((start,), (amount,)), switch, longest_ms=OFFERED_FOR_MS)
    begun: list[int] = []

    def once_begun(room: SwitchRoom, offered: str) -> None:
        if not begun and room.live._scanner and room.live._scanner.shown.is_open:
            begun.append(room.now_ms)
            for at_ms in presses_ms:
                room.press(at_ms)

    room.pupil = once_begun
    room.chosen = lambda name: room.end() if name.startswith("That's it") else None
    room.run()
    until_ms = next((at for at, name in room.choices if name.startswith(("That's it", "Help me"))), room.now_ms)
    return [(at - begun[0], name) for at, name in room.offered if at < until_ms]
