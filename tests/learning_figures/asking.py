"""How much is asked until a made-up pupil knows everything, and what is left of it four weeks later."""

from itertools import product
from random import Random
from statistics import mean

from saythesum.learner.choosing import LOW_CONFIDENCE, NO_BAND_SET
from tests.learner.learners import (
    CELLS,
    LONG,
    SHORT,
    Goal,
    Left,
    Picks,
    asked_to_know_all,
    by_choice,
    in_order,
    kept_after,
)
from tests.learning_figures.lines import SEEDS, each, spread

PUPILS = 20


def picks(seed: str) -> dict[str, Picks]:
    cells = list(CELLS)
    return {
        "chosen": by_choice(NO_BAND_SET),
        "random": in_order(Random(seed).sample(cells, len(cells))),
        "grid": in_order(cells),
        "chosen, low confidence": by_choice(LOW_CONFIDENCE),
    }


def questions() -> None:
    print("== Asked until everything is known, nothing forgotten (aim: chosen 25 % fewer than random and grid)")
    for most, share_known, goal in product((SHORT, LONG), (0.3, 0.6), Goal):
        print(f"-- {goal.value}; {share_known:.0%} known at first; practices of {most} questions")
        told = {
            name: [
                [
                    asked_to_know_all(f"{seed} {number}", picks(f"{seed} {number}")[name], share_known, goal, most=most)
                    for number in range(PUPILS)
                ]
                for seed in SEEDS
            ]
            for name in ("chosen", "random", "grid")
        }
        for what in ("questions", "sums"):
            counts = {name: [[getattr(one, what) for one in seed] for seed in runs] for name, runs in told.items()}
            for name, runs in counts.items():
                print(f"{what:9} {name:8} {spread(runs)}")
            for name in ("random", "grid"):
                pairs = zip(counts["chosen"], counts[name], strict=True)
                fewer = [1 - mean(ours) / mean(theirs) for ours, theirs in pairs]
                print(f"{what:9} chosen takes fewer than {name}: {each(fewer)}")


def kept() -> None:
    print("== Left 28 days after the last practice, of 30 % known at first (aim: more than random and grid)")
    for practices, most in ((16, SHORT), (32, SHORT), (16, LONG)):
        print(f"-- {practices} practices of {most} questions, one every other day; per cent of the sums")
        told: dict[str, list[list[Left]]] = {
            name: [
                [
                    kept_after(f"{seed} {number}", picks(f"{seed} {number}")[name], 0.3, practices=practices, most=most)
                    for number in range(PUPILS)
                ]
                for seed in SEEDS
            ]
            for name in picks("")
        }
        for what, name in product(("by_heart", "right"), told):
            shares = [[100 * getattr(one, what) for one in seed] for seed in told[name]]
            print(f"{what:8} {name:22} {spread(shares)}")
