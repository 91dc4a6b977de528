"""A pupil who does anything at all, by voice or by keys, and follows the practice to its end. Not a child."""

from dataclasses import dataclass
from random import Random

from saythesum.core.exercises.adding import Sum
from saythesum.core.meanings import LARGEST_NUMBER, Choice, Command, Given, Meaning, Number
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.records.rows import Ask
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue.turns.stack import Confirming
from saythesum.dialogue.tutor.progress import cell_of
from tests.core.made_sums import sum_at
from tests.talk import Talk

COMMANDS = (
    *(Command.DONT_KNOW, Command.HELP, Command.SAY_AGAIN, Command.SKIP, Command.GO_BACK, Command.NOT_WHAT_I_SAID),
    *(Command.WHERE_AM_I, Command.READ_ROW, Command.READ_COLUMN, Command.HOW_MANY_MORE, Command.RIGHT, Command.DOWN),
)


@dataclass
class WildPupil:
    seed: int
    rightness: float = 0.4
    """How often a question is answered rightly."""
    by_voice: float = 0.5

    def __post_init__(self) -> None:
        self.dice = Random(self.seed)

    def reply(self, talk: Talk) -> Meaning:
        top = talk.state.talk.topics[-1]
        ask = talk.state.progress.ask
        assert ask is not None
        if isinstance(top, Confirming):
            return Choice(self.dice.random() < 0.5)
        if self.dice.random() < 0.2:
            return Given(self.dice.choice(COMMANDS))
        value = self._value(talk, sum_at(talk.plan, cell_of(ask)), ask)
        return Number(value, objecting=self.dice.random() < 0.1)

    def _value(self, talk: Talk, asked: Sum, ask: Ask) -> int:
        right = talk.plan.exercise_of(ask).answer_to(ask.part)
        if self.dice.random() < self.rightness:
            return right
        if ask.part in CLOSING_PARTS:
            gives = self.dice.choice(MISTAKES).gives(asked)
            return min(max(0, self.dice.choice(gives)), LARGEST_NUMBER)
        return self.dice.choice((0, 1, right + 1, max(0, right - 1), asked.amount, asked.next_ten, asked.start))

    def act(self, talk: Talk) -> Meaning:
        """One reply, and whatever comes of it until the tool waits for the pupil again."""
        reply = self.reply(talk)
        if self.dice.random() < self.by_voice:
            talk.hear(reply, self.dice.choice((0.4, 0.9, 0.9)))
            while talk.is_waiting and not talk.finished:
                talk.wait()
        else:
            talk.type(reply)
        return reply
