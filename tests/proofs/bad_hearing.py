"""Practices in which a quarter of all hearings are wrong, and a pupil who puts most of them right. No child."""

from dataclasses import dataclass, field
from random import Random
from statistics import median, quantiles

from saythesum.core.meanings import LARGEST_NUMBER, Choice, Meaning, Number
from saythesum.core.records.rows import Answer, HeardId
from saythesum.core.sums import CLOSING_PARTS
from saythesum.dialogue import messages as say
from saythesum.dialogue.turns.stack import Asking, Confirming, Guiding, OfferingFacts, SayingBack
from saythesum.dialogue.tutor.progress import cell_of
from tests.core.made_sums import sum_at
from tests.proofs.all_help import wrong_wholes
from tests.talk import Talk, plan_of

PRACTICES = 1000
STARTS, AMOUNTS = (38, 57, 46, 29), (5, 8, 6)
WRONG_HEARINGS = 0.25
SURE_OF_WRONG = 0.5
CORRECTS = 0.85
OWN_MISTAKES = 0.15
"""How often the pupil's first answer to a sum is a mistake of their own."""
HEARING = say.OnceMore | say.TryKeys | say.WasIt | say.OneNumber | say.SayItAgain
MOST_REPLIES = 400


@dataclass
class BadlyHeard:
    seed: int
    talk: Talk = field(init=False)
    meant: dict[HeardId, int] = field(default_factory=dict)
    """What the pupil said, by the hearing it became."""
    last_meant: int = -1
    hearing_in_parts: int = 0

    def __post_init__(self) -> None:
        self.dice = Random(self.seed)
        self.talk = Talk(plan_of(STARTS, AMOUNTS))
        self.is_first_try = True

    def run(self) -> "BadlyHeard":
        self.talk.begin()
        for _ in range(MOST_REPLIES):
            if self.talk.finished:
                return self
            self._act()
        raise AssertionError(f"practice {self.seed} did not come to its end")

    def _act(self) -> None:
        top = self.talk.state.talk.topics[-1]
        rows, said = len(self.talk.rows), len(self.talk.messages)
        is_part = isinstance(top, Guiding)
        match top:
            case SayingBack(number=number) if number.value != self.last_meant and self.dice.random() < CORRECTS:
                self._say(self.last_meant, objecting=True)
            case SayingBack():
                self.talk.wait()
            case Confirming(number=number):
                self._say_yes_or_no(number.value == self.last_meant)
            case OfferingFacts():
                self._hear(Choice(False), 0.9, None)
            case Asking() | Guiding():
                self._answer()
        if is_part and len(self.talk.rows) == rows:
            self.hearing_in_parts += sum(isinstance(message, HEARING) for message in self.talk.messages[said:])
        self.is_first_try = len(self.talk.rows) != rows

    def _answer(self) -> None:
        """Rightly, or with a mistake at the first try; a part that was followed wrongly is objected to."""
        progress = self.talk.state.progress
        ask = progress.ask
        assert ask is not None
        asked = sum_at(self.talk.plan, cell_of(ask))
        last = progress.visit[-2] if len(progress.visit) > 1 else None
        is_misread = isinstance(last, Answer) and last.part not in CLOSING_PARTS and self._was_misheard(last)
        if isinstance(last, Answer) and is_misread and self.dice.random() < CORRECTS:
            self._say(self.meant[last.heard or HeardId("")], objecting=True)
        elif len(progress.visit) == 1 and self.is_first_try and self.dice.random() < OWN_MISTAKES:
            self._say(self.dice.choice(wrong_wholes(asked)))
        else:
            self._say(asked.answer_to(ask.part))

    def _was_misheard(self, answer: Answer) -> bool:
        return self.meant.get(answer.heard or HeardId(""), answer.given) != answer.given

    def _say(self, value: int, *, objecting: bool = False) -> None:
        self.last_meant = value
        is_wrong = self.dice.random() < WRONG_HEARINGS
        is_sure = not is_wrong or self.dice.random() < SURE_OF_WRONG
        heard = HeardId(f"{len(self.meant)}")
        self.meant[heard] = value
        number = Number(self._taken_for(value) if is_wrong else value, objecting=objecting)
        self._hear(number, 0.9 if is_sure else 0.5, heard)

    def _say_yes_or_no(self, yes: bool) -> None:
        is_wrong = self.dice.random() < WRONG_HEARINGS
        is_sure = not is_wrong or self.dice.random() < SURE_OF_WRONG
        self._hear(Choice(yes != is_wrong), 0.9 if is_sure else 0.5, None)

    def _hear(self, meaning: Meaning, certainty: float, heard: HeardId | None) -> None:
        self.talk.hear(meaning, certainty, heard=heard)
        self.talk.wait()

    def _taken_for(self, value: int) -> int:
        """Another ten, a neighbour, -teen for -ty: what is easily heard instead."""
        others = {value + 10, value - 10, value + 1, value - 1, value // 10 + 10, value % 10 * 10}
        return self.dice.choice(sorted(other for other in others - {value} if 0 <= other <= LARGEST_NUMBER))

    # ---- what came of it

    def count(self, kind: type[say.Message]) -> int:
        return sum(isinstance(message, kind) for message in self.talk.messages)

    def wrong_rows(self, *, whole: bool) -> int:
        """Rows that were not taken back and hold a number the pupil never said."""
        return sum(
            (answer.part in CLOSING_PARTS) == whole and self._was_misheard(answer) for answer in self.talk.answers
        )


@dataclass(frozen=True, slots=True)
class Spread:
    median: float
    p95: float
    most: int


@dataclass(frozen=True, slots=True)
class Figures:
    practices: int
    once_more: Spread
    keys_offered: Spread
    yes_or_no: Spread
    hearing_in_parts: int
    """Over all practices."""
    wrong_whole_rows: Spread
    wrong_part_rows: Spread


def measured(practices: int = PRACTICES) -> Figures:
    runs = [BadlyHeard(seed).run() for seed in range(practices)]
    return Figures(
        practices,
        once_more=_spread([run.count(say.OnceMore) for run in runs]),
        keys_offered=_spread([run.count(say.TryKeys) for run in runs]),
        yes_or_no=_spread([run.count(say.WasIt) for run in runs]),
        hearing_in_parts=sum(run.hearing_in_parts for run in runs),
        wrong_whole_rows=_spread([run.wrong_rows(whole=True) for run in runs]),
        wrong_part_rows=_spread([run.wrong_rows(whole=False) for run in runs]),
    )


def _spread(values: list[int]) -> Spread:
    return Spread(median(values), quantiles(values, n=20)[-1], max(values))
