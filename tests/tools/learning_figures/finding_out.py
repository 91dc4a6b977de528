"""How soon a stable mistake is found out, and how seldom one is named that nobody makes."""

from collections.abc import Callable
from dataclasses import replace
from random import Random
from statistics import mean

from saythesum.app.rehearsal.kinds import KINDS, SLIPS_ONLY, mind_of
from saythesum.core.mistakes.adding_patterns import MISTAKES
from saythesum.learner.diagnosis import diagnosed
from saythesum.learner.findings import findings
from tests.core.mistakes.separation import (
    BRIDGING_SUMS,
    CROSSING_SUMS,
    separating,
    told_apart,
    where_alike,
    where_invisible,
)
from tests.learner.believers import Next, grid_order, questioned, shares_ranked_first, shuffled, to_find_out
from tests.learner.learners import FIRST_DAY
from tests.tools.learning_figures.lines import SEEDS, each

CODED = {mistake.code: mistake for mistake in MISTAKES}
ORDERS: dict[str, Callable[[Random], Next]] = {
    "finding out": lambda dice: to_find_out,
    "grid order": lambda dice: grid_order,
    "random order": shuffled,
}


def counts() -> None:
    print("== Which sums tell mistakes apart")
    print(f"crossing sums {len(CROSSING_SUMS)}; crossing or landing, to choose from {len(BRIDGING_SUMS)}")
    unseen = {code: len(where_invisible(mistake)) for code, mistake in CODED.items()}
    print("gives the right answer:", {code: sums for code, sums in unseen.items() if sums})
    for one, other in (("A13", "A14"), ("A1", "A14"), ("A7", "A10"), ("A8", "A11")):
        print(f"{one} like {other}: {len(where_alike(CODED[one], CODED[other]))}")
    print("tell all apart:", " ".join(f"{asked.start}+{asked.amount}" for asked in separating()))
    ones = {(asked.ones, asked.amount) for asked in CROSSING_SUMS}
    apart = {
        pair: mean(told_apart(asked) for asked in CROSSING_SUMS if (asked.ones, asked.amount) == pair) for pair in ones
    }
    ranked = sorted(apart, key=lambda pair: -apart[pair])
    print("best ones:", [(pair, apart[pair]) for pair in ranked[:4]])
    print("worst ones:", [(pair, apart[pair]) for pair in ranked[-4:]])


def ranked_first() -> None:
    print("== The one stable mistake ranked first after 6 answers (slips 5 %; aim: 95 % finding out, misheard 2 %)")
    for name, order in ORDERS.items():
        for misheard in (0.02, 0.10):
            shares = [shares_ranked_first(order, misheard, seed, each=40) for seed in SEEDS]
            least = [min(column) for column in zip(*shares, strict=True)]
            worst = min(range(len(MISTAKES)), key=lambda place: least[place])
            print(
                f"{name}, misheard {misheard:.0%}: {each(mean(share) for share in shares)}; "
                f"worst mistake at any seed {MISTAKES[worst].code} {least[worst]:.0%}"
            )


def false_naming() -> None:
    print("== Named although the pupil only slips (20 answers, looked at after each; aim: under 2 % at 5 % and 2 %)")
    for slips, misheard in ((0.05, 0.02), (0.1, 0.02), (0.05, 0.1)):
        for name, order in ORDERS.items():
            shares = [
                mean(_is_named(order, slips, misheard, 1000 * seed + number) for number in range(400)) for seed in SEEDS
            ]
            print(f"slips {slips:.0%}, misheard {misheard:.0%}, {name}: {each(shares)}")


def _is_named(order: Callable[[Random], Next], slips: float, misheard: float, seed: int) -> bool:
    pupil = mind_of(replace(SLIPS_ONLY, makeup=replace(SLIPS_ONLY.makeup, slips=slips)), seed, FIRST_DAY)
    told = questioned(pupil, order(Random(seed)), 20, misheard)
    return any(findings(told[:answers]) for answers in range(1, len(told) + 1))


def two_mistakes() -> None:
    print("== Two stable mistakes: both ranked first and second after 10 answers, finding out (no aim)")
    shares = []
    for seed in SEEDS:
        both = []
        for number in range(100):
            pupil = mind_of(KINDS["two-mistakes"], 1000 * seed + number, FIRST_DAY)
            ranked = diagnosed(questioned(pupil, to_find_out, 10)).ranked
            both.append(set(ranked[:2]) == {mistake.name for mistake in pupil.makeup.mistakes})
        shares.append(mean(both))
    print(each(shares))
