"""A pupil at the keyboard: presses go through the real key logic into the real dialogue."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from saythesum.core.records.rows import HeardId
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.events import Event
from saythesum.keyboard.answer_entry import Typing, keep_with_question, situation
from saythesum.keyboard.key_actions import pressed
from saythesum.keyboard.keys import Key, KeyAction, KeyMessage, Post, Pressed, SpeakKey
from tests.talk import Talk, plan_of

SLOWLY_MS = 1500


@dataclass
class AtTheKeys:
    """38 and 57 down the side, 3, 5 and 8 along the top; by keys alone unless told otherwise."""

    talk: Talk = field(default_factory=lambda: Talk(plan_of((38, 57), (3, 5, 8)), Ear.KEYS))
    typing: Typing = field(default_factory=Typing)
    posted: list[Event] = field(default_factory=list)
    told: list[KeyMessage] = field(default_factory=list)
    others: list[KeyAction] = field(default_factory=list)
    _presses: int = 0

    def __post_init__(self) -> None:
        self.talk.begin()

    def keys(self, line: str, *, every_ms: int = SLOWLY_MS) -> "AtTheKeys":
        """Keys by name or digit: "4 7 backspace 4 enter"."""
        for name in line.split():
            self.talk.now_ms += every_ms
            now_ms = self.talk.now_ms
            self.press(Pressed(Key.DIGIT, now_ms, digit=int(name)) if name.isdigit() else Pressed(Key(name), now_ms))
        return self

    def presses(self, presses: Iterable[Pressed | None]) -> "AtTheKeys":
        for press in presses:
            if press is not None:
                self.press(press)
        return self

    def press(self, press: Pressed) -> None:
        self._presses += 1
        id = HeardId(f"press {self._presses}")
        self.typing, actions = pressed(self.typing, press, situation=situation(self.talk.state), heard_id=id)
        self._carry_out(actions)
        self.follow()

    def follow(self) -> None:
        """Something has happened in the dialogue."""
        self.typing, actions = keep_with_question(self.typing, situation(self.talk.state))
        self._carry_out(actions)

    @property
    def given(self) -> list[int]:
        """The numbers of the answers that count."""
        return [answer.given for answer in self.talk.answers]

    @property
    def at(self) -> tuple[int, int]:
        """Row and column of what is asked."""
        ask = self.talk.state.progress.ask
        assert ask is not None
        return ask.place

    def _carry_out(self, actions: Iterable[KeyAction]) -> None:
        for action in actions:
            match action:
                case Post(event=event):
                    self.posted.append(event)
                    self.talk.post(event)
                case SpeakKey(message=message):
                    self.told.append(message)
                case _:
                    self.others.append(action)
