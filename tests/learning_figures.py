"""Every figure of diagnosis, the model of the pupil and the choice of cells: `python -m tests.learning_figures`.

Takes some minutes. Made-up pupils only: what is printed says nothing about children.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import product
from random import Random
from statistics import mean, quantiles
from time import process_time

from saythesum.core.catalogue.apart import (
    BRIDGING_SUMS,
    CROSSING_SUMS,
    separating,
    told_apart,
    where_alike,
    where_invisible,
)
from saythesum.core.mistakes import MISTAKES
from saythesum.core.rows import Ask, Row, RowId
from saythesum.learner.choosing import LOW_CONFIDENCE, NO_BAND_SET, choose
from saythesum.learner.diagnosis import diagnosed
from saythesum.learner.naming import findings
from saythesum.learner.replay import Kept, Record, learned, with_row
from saythesum.learner.telling_apart import most_telling
from tests.learner.believers import Believer, Next, grid_order, questioned, shares_ranked_first, shuffled, to_find_out
from tests.learner.learners import (
    CELLS,
    FIRST_DAY,
    LONG,
    SHORT,
    Goal,
    Left,
    MadeUpPupil,
    Picks,
    asked_to_know_all,
    by_choice,
    in_order,
    kept_after,
)
from tests.learner.published import print_published

SEEDS = (1, 2, 3)
CODED = {mistake.code: mistake for mistake in MISTAKES}


def main() -> None:
    _counts()
    print_published()
    _ranked_first()
    _false_naming()
    _two_mistakes()
    _questions()
    _kept()
    _cost()


def _counts() -> None:
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


ORDERS: dict[str, Callable[[Random], Next]] = {
    "finding out": lambda dice: to_find_out,
    "grid order": lambda dice: grid_order,
    "random order": shuffled,
}


def _ranked_first() -> None:
    print("== The one stable mistake ranked first after 6 answers (slips 5 %; aim: 95 % finding out, misheard 2 %)")
    for name, order in ORDERS.items():
        for misheard in (0.02, 0.10):
            shares = [shares_ranked_first(order, misheard, seed, each=40) for seed in SEEDS]
            least = [min(column) for column in zip(*shares, strict=True)]
            worst = min(range(len(MISTAKES)), key=lambda place: least[place])
            print(
                f"{name}, misheard {misheard:.0%}: {_each(mean(share) for share in shares)}; "
                f"worst mistake at any seed {MISTAKES[worst].code} {least[worst]:.0%}"
            )


def _false_naming() -> None:
    print("== Named although the pupil only slips (20 answers, misheard 2 %; aim: under 2 %)")
    for name, order in ORDERS.items():
        shares = []
        for seed in SEEDS:
            named = 0
            for number in range(400):
                dice = Random(f"{seed} slips {number}")
                heard = questioned(Believer((), 0.02), order(dice), 20, dice)
                named += any(findings(heard[:answers]) for answers in range(1, len(heard) + 1))
            shares.append(named / 400)
        print(f"{name}: {_each(shares)}")


def _two_mistakes() -> None:
    print("== Two stable mistakes: both ranked first and second after 10 answers, finding out (no aim)")
    shares = []
    for seed in SEEDS:
        both = 0
        for number in range(100):
            dice = Random(f"{seed} two {number}")
            two = tuple(dice.sample(MISTAKES, 2))
            heard = questioned(Believer(two, 0.02), to_find_out, 10, dice)
            both += set(diagnosed(heard).ranked[:2]) == {mistake.name for mistake in two}
        shares.append(both / 100)
    print(_each(shares))


def _picks(seed: str) -> dict[str, Picks]:
    cells = list(CELLS)
    return {
        "chosen": by_choice(NO_BAND_SET),
        "random": in_order(Random(seed).sample(cells, len(cells))),
        "grid": in_order(cells),
        "chosen, low confidence": by_choice(LOW_CONFIDENCE),
    }


PUPILS = 20


def _questions() -> None:
    print("== Asked until everything is known, nothing forgotten (aim: chosen 25 % fewer than random and grid)")
    for most, share_known, goal in product((SHORT, LONG), (0.3, 0.6), Goal):
        print(f"-- {goal.value}; {share_known:.0%} known at first; practices of {most} questions")
        told = {
            name: [
                [
                    asked_to_know_all(
                        f"{seed} {number}", _picks(f"{seed} {number}")[name], share_known, goal, most=most
                    )
                    for number in range(PUPILS)
                ]
                for seed in SEEDS
            ]
            for name in ("chosen", "random", "grid")
        }
        for what in ("questions", "sums"):
            counts = {name: [[getattr(one, what) for one in seed] for seed in runs] for name, runs in told.items()}
            for name, runs in counts.items():
                print(f"{what:9} {name:8} {_spread(runs)}")
            for name in ("random", "grid"):
                pairs = zip(counts["chosen"], counts[name], strict=True)
                fewer = [1 - mean(ours) / mean(theirs) for ours, theirs in pairs]
                print(f"{what:9} chosen takes fewer than {name}: {_each(fewer)}")


def _kept() -> None:
    print("== Left 28 days after the last practice, of 30 % known at first (aim: more than random and grid)")
    for practices, most in ((16, SHORT), (32, SHORT), (16, LONG)):
        print(f"-- {practices} practices of {most} questions, one every other day; per cent of the sums")
        told: dict[str, list[list[Left]]] = {
            name: [
                [
                    kept_after(
                        f"{seed} {number}", _picks(f"{seed} {number}")[name], 0.3, practices=practices, most=most
                    )
                    for number in range(PUPILS)
                ]
                for seed in SEEDS
            ]
            for name in _picks("")
        }
        for what, name in product(("by_heart", "right"), told):
            shares = [[100 * getattr(one, what) for one in seed] for seed in told[name]]
            print(f"{what:8} {name:22} {_spread(shares)}")


def _rows(count: int, seed: int) -> list[Kept]:
    """A pupil who meets new sums now and then: three answers in four or so are right."""
    dice = Random(seed)
    pupil = MadeUpPupil(dice, forgets=True)
    at = datetime(FIRST_DAY.year, FIRST_DAY.month, FIRST_DAY.day, 9, tzinfo=UTC)
    rows: list[Kept] = []
    while len(rows) < count:
        if len(rows) % 4000 < 2:
            pupil.known.clear()
            pupil.begin(0.5, at.date())
        cell = dice.choice(list(CELLS))
        for said in pupil.ask(cell, CELLS[cell], at.date()):
            ask: Row = Ask(RowId(f"ask {len(rows)}"), cell.row, cell.column, said.part, said.support, None)
            rows += [Kept(ask, at), Kept(replace(said, id=RowId(f"answer {len(rows)}")), at)]
            at += timedelta(seconds=10)
        if dice.random() < 0.05:
            at += timedelta(days=2)
    return rows[:count]


def _cost() -> None:
    print("== Cost, in seconds of this processor (aims: posterior 5 ms, next cell 20 ms, 100,000 rows 2 s)")
    rows = _rows(100_000, 1)
    began = process_time()
    record = learned(rows)
    print(f"{len(rows)} rows replayed: {process_time() - began:.2f} s")
    pupil, day = record.pupil, rows[-1].at.date()
    diagnosis = pupil.diagnosis()
    print(f"posterior: {_each_ms(pupil.diagnosis, 200):.2f} ms")
    print(f"next cell of {len(CELLS)}: {_each_ms(lambda: choose(pupil, CELLS, day), 100):.2f} ms")
    print(
        f"most telling of {len(BRIDGING_SUMS)}: {_each_ms(lambda: most_telling(BRIDGING_SUMS, diagnosis), 50):.2f} ms"
    )
    more = _rows(2000, 2)
    for so_far in (200, 100_000, 2_000_000):
        begun = _after_rows(so_far, rows)
        began = process_time()
        for kept in more:
            begun = with_row(begun, kept)
        print(f"one more row after {so_far} rows: {1000 * (process_time() - began) / len(more):.3f} ms")


def _after_rows(count: int, rows: Sequence[Kept]) -> Record:
    record = learned(rows[: min(count, len(rows))])
    for again in range(count // len(rows) - 1):
        for kept in rows:
            record = with_row(record, replace(kept, at=kept.at + timedelta(days=1000 * (again + 1))))
    return record


def _each_ms(work: Callable[[], object], times: int) -> float:
    began = process_time()
    for _ in range(times):
        work()
    return 1000 * (process_time() - began) / times


def _each(shares: Iterable[float]) -> str:
    return "seeds " + ", ".join(f"{share:.1%}" for share in shares)


def _spread(runs: Sequence[Sequence[float]]) -> str:
    low, middle, high = quantiles([one for run in runs for one in run], n=4)
    means = ", ".join(f"{mean(run):.1f}" for run in runs)
    return f"quartiles {low:.1f} {middle:.1f} {high:.1f}; mean of each seed {means}"


if __name__ == "__main__":
    main()
