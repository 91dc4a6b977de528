"""What was said last, for whoever hears it through a screen reader: verdict and question in one text."""

from dataclasses import dataclass

from saythesum.dialogue.step import State
from saythesum.scene.caption import Aside, aside_said
from saythesum.wording.speak.said import said


@dataclass(frozen=True, slots=True)
class Spoken:
    text: str
    turn: int
    """Grows with each turn and aside, so that the same text can be heard again when it is said again."""


def spoken(state: State, aside: Aside | None) -> Spoken:
    turns = state.channel.turns_said
    turn = turns + (aside.count if aside else 0)
    if aside and aside.after_turns == turns:
        return Spoken(aside_said(aside.message), turn)
    texts = (said(message, state.plan.settings.wording.length) for message in state.channel.saying)
    return Spoken(" ".join(text for text in texts if text), turn)
