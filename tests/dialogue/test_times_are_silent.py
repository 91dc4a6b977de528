"""How long a pupil takes is kept for the adult; nothing that the pupil hears or sees hangs on it."""

from random import Random

import pytest

from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.progress import cell_of
from saythesum.keyboard.answer_entry import Typing
from saythesum.scene.scene import Scene, scene
from tests.talk import Talk, plan_of

QUICK_MS, SLOW_MS = 400, 90_000


def practised(ear: Ear, thinking_ms: int, seed: int) -> tuple[Talk, list[Scene]]:
    """To the end of a small grid, now and then with a wrong answer; what was shown after each answer."""
    dice = Random(seed)
    talk = Talk(plan_of((38, 57), (5, 3)), ear)
    talk.begin()
    scenes = []
    while not talk.finished:
        ask = talk.state.progress.ask
        assert ask is not None
        right = talk.plan.exercise_at(cell_of(ask)).answer_to(ask.part)
        talk.now_ms += thinking_ms
        talk.type(str(dice.choice((right, right, right - 1, right + 10))))
        scenes.append(scene(talk.state, Typing()))
    return talk, scenes


@pytest.mark.parametrize("ear", [Ear.TEXT, Ear.KEYS])
@pytest.mark.parametrize("seed", range(6))
def test_the_same_answers_sooner_or_later_are_met_alike(ear: Ear, seed: int) -> None:
    quick, seen_quick = practised(ear, QUICK_MS, seed)
    slow, seen_slow = practised(ear, SLOW_MS, seed)
    assert quick.said == slow.said
    assert seen_quick == seen_slow
    assert {answer.took_ms for answer in quick.answers} == {QUICK_MS}
    assert {answer.took_ms for answer in slow.answers} == {SLOW_MS}
