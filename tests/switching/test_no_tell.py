"""What is offered for an answer, and when, does not depend on the right one."""

from random import Random
from typing import get_args

import pytest

from saythesum.settings import Scanning, Switch
from tests.switching.room import SwitchRoom
from tests.talk import plan_of

SUMS = 1_000
OFFERED_FOR_MS = 60_000


def offered_for(start: int, amount: int, switch: Switch, presses_ms: list[int]) -> list[tuple[int, str]]:
    """From the end of the question on; what is offered once a whole number has been given is another question's, and
    so it is after a call for help, whose words are about the sum."""
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


@pytest.mark.parametrize("scanning", get_args(Scanning))
def test_presses_and_seconds_are_the_same_for_every_sum(scanning: Scanning) -> None:
    """1,000 sums, each beside another one with the same presses at the same moments after its question."""
    dice = Random(scanning)
    switch = Switch(first="Space", scanning=scanning)
    lengths = []
    for _ in range(SUMS // 2):
        presses_ms = sorted(dice.sample(range(500, 40_000, 50), dice.randint(3, 12)))
        one, other = ((dice.randint(10, 90), dice.randint(1, 9)) for _ in range(2))
        offers = offered_for(*one, switch, presses_ms)
        assert offers == offered_for(*other, switch, presses_ms)
        lengths.append(len(offers))
    assert max(lengths) > 10
