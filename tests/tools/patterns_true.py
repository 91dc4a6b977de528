"""What is said to be true of made-up grids, against plain arithmetic: `python -m tests.tools.patterns_true [COUNT]`."""

import sys
from collections import Counter
from random import Random

from saythesum.core.patterns.finding import patterns_of
from tests.core.patterns.plain_arithmetic import check, made_grid, to_be_found

COUNT = 20_000


def main(count: int) -> None:
    dice, found, untrue, missed = Random(2026), Counter[str](), 0, 0
    for _ in range(count):
        grid = made_grid(dice)
        patterns = patterns_of(grid)
        for pattern in patterns:
            found[pattern.name] += 1
            try:
                check(grid, pattern)
            except AssertionError as error:
                untrue += 1
                print(f"untrue: {pattern} in {grid}: {error}")
        left = to_be_found(grid) ^ {(one.name, one.lines) for one in patterns}
        if left:
            missed += 1
            print(f"found on one side only: {sorted(left)} in {grid}")
    print(f"{count} grids, {found.total()} patterns: {untrue} untrue, {missed} grids with one missed or too many")
    for name, times in found.most_common():
        print(f"  {name}: {times}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if sys.argv[1:] else COUNT)
