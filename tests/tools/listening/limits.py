"""What the gate's limits cost, on hearings that were kept: `python -m tests.tools.listening.limits FILE...`.

FILE as `python -m tests.tools.listening --keep` writes it. Only single numbers of real people and what is no number.
"""

import sys
from collections.abc import Callable, Iterable
from pathlib import Path

from saythesum.core.meanings import Number
from saythesum.hearing.confidence.certainty import BestMeaning, best_answer
from saythesum.hearing.confidence.gate import A_WRONG_TAKING_COSTS, REFUSED_BELOW, SURE_FROM
from tests.tools.listening.calibrate import MADE_VOICES
from tests.tools.listening.hearings import Answer, read

ABOVE_NEXT_NATS = (1.0, 1.5, 2.0, 2.5, 3.0)
GROUPS: dict[str, Callable[[Answer], bool]] = {
    "clean numbers": lambda answer: answer.said is not None and answer.condition == "clean",
    "hard numbers": lambda answer: answer.said is not None and answer.condition != "clean",
    "no numbers": lambda answer: answer.said is None,
}


def main() -> None:
    answers = [answer for path in sys.argv[1:] for answer in read(Path(path)) if not answer.set.startswith(MADE_VOICES)]
    for name, belongs in GROUPS.items():
        _show(name, [(answer, best) for answer in answers if belongs(answer) and (best := _number(answer))])


def _number(answer: Answer) -> BestMeaning | None:
    likeliest = best_answer(answer.hearing)
    return likeliest if likeliest and isinstance(likeliest.meaning, Number) else None


def _show(name: str, found: list[tuple[Answer, BestMeaning]]) -> None:
    print(f"{name}: {len(found)} with a number among what may have been said")
    for above in ABOVE_NEXT_NATS:
        taken = [one for one in found if one[1].certainty >= SURE_FROM and one[1].above_next >= above]
        wrong = _wrong(taken)
        cost = A_WRONG_TAKING_COSTS * wrong + len(found) - len(taken)
        print(f"   {above} nats apart: {len(taken)} taken, {wrong} wrongly; costs {cost:.0f} askings")
    refused = [one for one in found if one[1].certainty < REFUSED_BELOW]
    right = len(refused) - _wrong(refused)
    print(f"   below {REFUSED_BELOW}: {len(refused)} refused, {right} of them right, of {len(found) - _wrong(found)}")


def _wrong(found: Iterable[tuple[Answer, BestMeaning]]) -> int:
    return sum(not (isinstance(best.meaning, Number) and best.meaning.value == answer.said) for answer, best in found)


if __name__ == "__main__":
    main()
