"""Whole practices by one switch and by two, with made-up hands: `python -m tests.tools.one_switch [COUNT]`.

COUNT practices (300 without it) are spread over three kinds of hands and three ways; each is a 2 by 3 grid with a wrong
answer, a call for help and a pause. Nothing here is evidence about children. Then pairs of sums with the same presses:
whether what is offered, and when, tells one from the other.
"""

import sys
from collections.abc import Sequence
from statistics import median, quantiles
from typing import get_args

from saythesum.settings import Scanning
from tests.switching.hands import Kind, Practised, Way, practised
from tests.switching.same_offers import offers_of_pairs

PAIRS = 500


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 300
    pairs = [(way, kind) for way in Way for kind in Kind]
    share = [count // len(pairs) + (place < count % len(pairs)) for place in range(len(pairs))]
    total: list[Practised] = []
    for (way, kind), practices in zip(pairs, share, strict=True):
        came = [practised(kind, way, seed) for seed in range(practices)]
        total += came
        print(f"{_name(way.name)}, {_name(kind.name)} hands, {practices} practices: {_figures(came)}", flush=True)
    print(f"All {len(total)}: {_rows(total)}")
    for scanning in get_args(Scanning):
        different = sum(one != other for one, other in offers_of_pairs(scanning, PAIRS))
        print(f"Scanning {scanning}: {PAIRS} pairs of sums, {different} told apart by what is offered or when")


def _figures(came: Sequence[Practised]) -> str:
    presses = [sum for practice in came for sum in practice.presses]
    seconds = [sum for practice in came for sum in practice.seconds]
    return f"{_rows(came)}; presses a sum {_spread(presses)}, seconds a sum {_spread(seconds)}"


def _rows(came: Sequence[Practised]) -> str:
    right = sum(practice.reason == "finished" and practice.meant == practice.kept for practice in came)
    unpressed = sum(practice.unpressed for practice in came)
    bounced = sum(practice.from_bounces for practice in came)
    others = sum(practice.others for practice in came)
    kept = sum(len(practice.kept) for practice in came)
    return (
        f"{right} with the rows that were meant ({kept} answers), {unpressed} choices that were not pressed, "
        f"{bounced} from a bounce, {others} answers by anything else"
    )


def _spread(numbers: Sequence[float]) -> str:
    return f"median {median(numbers):.0f}, 95th {quantiles(numbers, n=20)[-1]:.0f}"


def _name(name: str) -> str:
    return name.lower().replace("_", " ")


if __name__ == "__main__":
    main()
