"""A practice, and what its window shows after each thing that is typed."""

from dataclasses import dataclass

from saythesum.dialogue.turns.effects import Ear
from saythesum.keyboard.answer_entry import Typing
from saythesum.scene.scene import AnswerShown, Scene, SumShown, scene
from tests.talk import Talk, plan_of

NOTHING_TYPED = Typing()


@dataclass
class Watched:
    talk: Talk

    def shown(self, typing: Typing = NOTHING_TYPED) -> Scene:
        return scene(self.talk.state, typing)

    def typed(self, *lines: str) -> Scene:
        for line in lines:
            self.talk.type(line)
        return self.shown()


def practice(*starts: int, amounts: tuple[int, ...] = (3, 5, 8), ear: Ear = Ear.OPEN) -> Watched:
    talk = Talk(plan_of(starts or (38, 57), amounts), ear)
    talk.begin()
    return Watched(talk)


def sum_in(scene: Scene) -> SumShown:
    assert scene.sum
    return scene.sum


def answer_in(scene: Scene) -> AnswerShown:
    assert scene.answer
    return scene.answer
