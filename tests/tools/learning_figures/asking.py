"""How much is asked until a made-up pupil knows everything, and what is left of it four weeks later."""

from itertools import product
from random import Random
from statistics import mean

from saythesum.learner.selection import LOW_CONFIDENCE, NO_BAND_SET, Band
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
from tests.tools.learning_figures.by_sight import what_is_missing
from tests.tools.learning_figures.lines import SEEDS, each, spread

PUPILS = 20
ORDERS = ("random", "grid")


def picks(seed: str) -> dict[str, Picks]:
    cells = list(CELLS)
    return {
        "chosen": by_choice(NO_BAND_SET),
        "random": in_order(Random(seed).sample(cells, len(cells))),
        "grid": in_order(cells),
        "chosen, low confidence": by_choice(LOW_CONFIDENCE),
    }


EVERY_SHARE = Band(0, 1)
"""Of right answers: what is asked next hangs on learning alone."""


def _picks_towards(goal: Goal, seed: str) -> dict[str, Picks]:
    return {
        "chosen": by_choice(NO_BAND_SET),
        "no band": by_choice(EVERY_SHARE),
        "by sight": what_is_missing(goal, NO_BAND_SET, Random(seed)),
        **{name: picks(seed)[name] for name in ORDERS},
    }


def questions() -> None:
    print("== Occasion until everything is known, nothing forgotten (aim: chosen 25 % fewer than random and grid)")
    print("   no band: chosen, any share of right answers; by sight: who sees into the pupil and keeps to the band")
    for most, share_known, goal in product((SHORT, LONG), (0.3, 0.6), Goal):
        print(f"-- {goal.value}; {share_known:.0%} known at first; practices of {most} questions")
        told = {
            name: [
                [
                    asked_to_know_all(pupil, _picks_towards(goal, pupil)[name], share_known, goal, most=most)
                    for pupil in (f"{seed} {number}" for number in range(PUPILS))
                ]
                for seed in SEEDS
            ]
            for name in _picks_towards(goal, "")
        }
        for what in ("questions", "sums"):
            counts = {name: [[getattr(one, what) for one in seed] for seed in runs] for name, runs in told.items()}
            for name, runs in counts.items():
                print(f"{what:9} {name:8} {spread(runs)}")
            for ours, theirs in product(("chosen", "no band", "by sight"), ORDERS):
                pairs = zip(counts[ours], counts[theirs], strict=True)
                fewer = [1 - mean(one) / mean(other) for one, other in pairs]
                print(f"{what:9} {ours} takes fewer than {theirs}: {each(fewer)}")


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
