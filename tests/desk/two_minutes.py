"""The two minutes after a practice, at the keyboard: each doubt looked at, the pupil's words typed, the line read."""

from saythesum.office.afterwards import MOST_DOUBTFUL
from tests.desk.hands import Hands
from tests.desk.opened import OpenDesk
from tests.office.test_afterwards import DAY

WORDS = "Boats are easy"


def two_minutes(hands: Hands, desk: OpenDesk) -> None:
    """From the page of rk-7 for that day, of which five answers at least are in doubt."""
    hands.tab.goto(desk.path(f"/pupils/rk-7/afterwards/?on={DAY}"))
    hands.pressed.clear()
    for _ in range(MOST_DOUBTFUL):
        assert hands.has_focus() == "Said so"
        hands.goes_on()
    assert "All of it was looked at." in hands.tab.inner_text("main")
    hands.goes_to("What the pupil says of it")
    hands.tab.keyboard.type(WORDS)
    hands.goes_on()
    assert f'The pupil: "{WORDS}"' in hands.tab.inner_text("main"), "today in one line, to be copied"
