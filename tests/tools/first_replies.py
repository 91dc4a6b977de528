"""What wrong answers are met with, in words, for somebody to read as a teacher would.

python -m tests.tools.first_replies                 the first replies to numbers that mistakes give
python -m tests.tools.first_replies --from FILE     to the numbers in FILE: a sum, a tab, numbers, on each line
python -m tests.tools.first_replies --before OLD    beside those of another checkout's folder
python -m tests.tools.first_replies --three         three sums of a pupil who makes a mistake each time, for each of
                                                    the seventeen and each two that give the same number
"""

import argparse
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations
from pathlib import Path
from random import Random

from saythesum.core.exercises.adding import Sum
from saythesum.core.grids.grid import Grid, Order
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.core.mistakes.pattern import Mistake
from saythesum.core.records.rows import UNAIDED
from saythesum.core.sums import Part
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.dialogue.tutor.progress import cell_of
from saythesum.settings import Settings
from tests.talk import PRACTICE, Talk, plan_of

SUMS = (Sum(29, 4), Sum(38, 5), Sum(47, 8), Sum(64, 6), Sum(73, 5), Sum(96, 7))
ALL_SUMS = Random(8).sample([Sum(start, amount) for start in range(12, 99) for amount in range(2, 10)], 87 * 8)
MOST_TURNS = 200


@dataclass(frozen=True, slots=True)
class Met:
    """How one wrong answer was met."""

    asked: Sum
    given: int
    part: Part
    """What was asked then."""
    reply: str


def first_reply(asked: Sum, given: int) -> str:
    talk = Talk(plan_of((asked.start,), (asked.amount,)), Ear.TEXT)
    talk.begin()
    before = len(talk.said)
    talk.type(str(given))
    return " ".join(talk.said[before:])


def read_from(file: Path) -> Iterator[tuple[Sum, int]]:
    for line in file.read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            written, numbers = line.split("\t")
            start, amount = map(int, written.split("+"))
            yield from ((Sum(start, amount), int(number)) for number in numbers.split())


def given_by_mistakes() -> Iterator[tuple[Sum, int]]:
    for asked in SUMS:
        numbers = {number for mistake in MISTAKES for number in mistake.gives(asked) if mistake.fits(asked, number)}
        yield from ((asked, number) for number in sorted(numbers))


def three_times(mistakes: tuple[Mistake, ...], times: int = 3) -> list[Met]:
    """How a pupil is met who makes the mistake in every sum in which all of these give the
    same number; other sums, and all help, are answered rightly. Fewer where there are no more."""
    able = [asked for asked in ALL_SUMS if _shared(mistakes, asked)][:times]
    if not able:
        return []
    starts, amounts = ({getattr(asked, name): None for asked in able} for name in ("start", "amount"))
    grid = Grid("Loaves on the shelf", tuple(starts), tuple(amounts), Order.ROWS)
    talk = Talk(planned(PRACTICE, [activity(grid, 0)], Settings()), Ear.TEXT)
    talk.begin()
    met: list[Met] = []
    for _ in range(MOST_TURNS):
        ask = talk.state.progress.ask
        if talk.finished or ask is None or len(met) == times:
            break
        asked = talk.plan.exercise_at(cell_of(ask))
        assert isinstance(asked, Sum)
        shared = _shared(mistakes, asked) if ask.part is Part.WHOLE and ask.support in UNAIDED else ()
        before = len(talk.said)
        talk.type(str(shared[0] if shared else asked.answer_to(ask.part)))
        if shared:
            assert talk.state.progress.ask is not None
            met.append(Met(asked, shared[0], talk.state.progress.ask.part, " ".join(talk.said[before:])))
    return met


def _shared(mistakes: tuple[Mistake, ...], asked: Sum) -> tuple[int, ...]:
    numbers = [{number for number in mistake.gives(asked) if mistake.fits(asked, number)} for mistake in mistakes]
    return tuple(sorted(set.intersection(*numbers)))


def all_stories() -> Iterator[tuple[str, list[Met]]]:
    for mistake in MISTAKES:
        yield mistake.name, three_times((mistake,))
    for one, other in combinations(MISTAKES, 2):
        if met := three_times((one, other)):
            yield f"{one.name} or {other.name}", met


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--from", dest="file", type=Path)
    parser.add_argument("--beside", type=Path)
    parser.add_argument("--three", action="store_true")
    options = parser.parse_args()
    if options.three:
        for name, met in all_stories():
            print(name)
            for one in met:
                print(f"    {one.asked.shown} said {one.given}: {one.reply}")
        return
    cases = list(read_from(options.file) if options.file else given_by_mistakes())
    now = [f"{asked.shown} said {given}: {first_reply(asked, given)}" for asked, given in cases]
    earlier = options.beside.read_text(encoding="utf-8").splitlines() if options.beside else []
    if not earlier:
        print("\n".join(now))
        return
    for before, after in zip(earlier, now, strict=True):
        case, _, reply = after.partition(": ")
        print(f"{case}\n    before  {before.partition(': ')[2]}\n    after   {reply}")


if __name__ == "__main__":
    main()
