"""How many sums a made-up pupil with one mistake needs until one is right unaided, in two versions of the program.

`python -m tests.tools.until_unaided OLD NEW`: OLD and NEW are checkouts; plain text, the same pupils in both.

The rule: a pupil makes one mistake in every whole sum in which it gives a wrong number. In help, the step that the
mistake is about is answered by it too, where `MEETS` has a number for that; everything else rightly. Where help asks
that step, the two come apart before the pupil, who lets the mistake go with `LET_GO_WHEN_MET`; a sum that ends without
that step having been asked is a way shown, and lets it go with `LET_GO_WHEN_SHOWN`. Which step that is, is what
teachers ask first after such an answer, not what this program asks: common practice, and for a carried ten that is
lost or written Brown and Burton (1978) and Ashlock. Only numbers are looked at, no sentence. It is no evidence about
children: it says only how often, and how soon, help comes to the mistake.
"""

import argparse
import json
import os
import runpy
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import redirect_stdout
from pathlib import Path
from random import Random
from statistics import mean, median
from typing import Any, NamedTuple, TypeAlias

STARTS, AMOUNTS = (38, 57, 29, 46, 68, 77), (5, 6, 8, 9)
"""A ferry's seats: six rows of four; most cross a ten."""
LET_GO_WHEN_MET, LET_GO_WHEN_SHOWN = 0.5, 0.1
SEEDS = (0, 1, 2)
PUPILS = 6
"""Of each mistake, with each seed."""
MOST_LINES = 400

Formula: TypeAlias = Callable[[int, int], int]


class Belief(NamedTuple):
    """A mistake of knowing."""

    gives: Formula
    """The wrong answer to a start and an amount."""
    meets: Mapping[str, Formula | None]
    """The steps that it is about, with the number that it gives there; None: the step is answered rightly, and shows
    by its answer that the mistake's number can't be."""


def _ones(start: int, amount: int) -> int:
    return start % 10 + amount


BELIEFS: Mapping[str, Belief] = {
    "new-ten-lost": Belief(
        lambda start, amount: start + amount - 10,
        {"next-ten": lambda start, _: start // 10 * 10, "ones": None, "tens-of-ones": lambda *_: 0},
    ),
    "both-digits-written": Belief(
        lambda start, amount: start // 10 * 100 + _ones(start, amount), {"ones": None, "tens-of-ones": lambda *_: 0}
    ),
    "ten-written-ones-carried": Belief(
        lambda start, amount: 10 * (start // 10 + _ones(start, amount) % 10) + 1,
        {"tens-of-ones": lambda start, amount: _ones(start, amount) % 10},
    ),
    "amount-in-the-tens": Belief(
        lambda start, amount: start + 10 * amount, {"one-more": lambda start, _: start + 10, "ones": None}
    ),
    "amount-to-both-digits": Belief(
        lambda start, amount: start + 11 * amount, {"one-more": lambda start, _: start + 11, "ones": None}
    ),
    "all-digits-totalled": Belief(
        lambda start, amount: start // 10 + start % 10 + amount, {"tens": lambda start, _: start // 10 + start % 10}
    ),
    "one-short": Belief(lambda start, amount: start + amount - 1, {"one-more": lambda start, _: start}),
    "one-over": Belief(lambda start, amount: start + amount + 1, {"one-more": lambda start, _: start + 2}),
    "extra-ten": Belief(
        lambda start, amount: start + amount + 10, {"next-ten": lambda start, _: start // 10 * 10 + 20}
    ),
    "stopped-at-the-ten": Belief(lambda start, _: start // 10 * 10 + 10, {"rest": lambda *_: 0}),
    "whole-amount-after-bridging": Belief(
        lambda start, amount: start // 10 * 10 + 10 + amount, {"rest": lambda _, amount: amount}
    ),
    "gap-used-twice": Belief(
        lambda start, _: start // 10 * 10 + 10 + (10 - start % 10), {"rest": lambda start, _: 10 - start % 10}
    ),
    "subtracted": Belief(
        lambda start, amount: start - amount,
        {"one-more": lambda start, _: start - 1, "ones": lambda start, amount: abs(start % 10 - amount)},
    ),
    "ones-differenced": Belief(
        lambda start, amount: start // 10 * 10 + abs(start % 10 - amount),
        {"ones": lambda start, amount: abs(start % 10 - amount)},
    ),
    "double-not-adjusted": Belief(
        lambda start, _: start // 10 * 10 + 2 * (start % 10), {"ones": lambda start, _: 2 * (start % 10)}
    ),
}


class Pupil:
    """Stands for the keyboard: reads in the log what is asked, and types a line."""

    def __init__(self, name: str, seed: str, log: Path) -> None:
        self._belief = BELIEFS[name]
        self._dice = Random(seed)
        self._log = log.open(encoding="utf-8")
        self._asked: dict[str, Any] = {}
        self._awaited = "number"
        self._is_met = False
        self._cell: tuple[int, int] | None = None
        self._lines = MOST_LINES
        self.believes = True
        self.sums = 0
        """Whole sums asked unaided in which the mistake shows, until the first that is right; all, where none was."""
        self.is_done = False

    def readline(self, most: int = -1) -> str:
        self._read()
        self._lines -= 1
        if self.is_done or not self._lines:
            return ""
        match self._awaited:
            case "number" | "step":
                return self._number() + "\n"
            case "choice":
                return "no\n"
            case _:
                return "go on\n"

    def _read(self) -> None:
        for written in self._log:
            line = json.loads(written)
            if line["kind"] == "ask":
                self._take(line)
            elif line["kind"] == "listen":
                self._awaited = line["for"]

    def _take(self, ask: dict[str, Any]) -> None:
        cell = (ask["row"], ask["column"])
        if cell != self._cell:
            self._leave()
            self._cell = cell
        self._asked = ask

    def _leave(self) -> None:
        """The sum is over: what was not met was shown, if help was needed at all."""
        if self._asked.get("support", "independent") != "independent" and not self._is_met:
            self._let_go(LET_GO_WHEN_SHOWN)
        self._is_met = False

    def _let_go(self, chance: float) -> None:
        if self._dice.random() < chance:
            self.believes = False

    def _number(self) -> str:
        start, amount = STARTS[self._asked["row"]], AMOUNTS[self._asked["column"]]
        right = _right(start, amount)
        part = self._asked["part"]
        if part != "whole":
            return str(self._step(part, start, amount, right))
        wrong = self._belief.gives(start, amount)
        if wrong < 0 or wrong == right["whole"]:
            return str(right["whole"])
        if self._asked["support"] == "independent":
            self.sums += 1
            self.is_done = not self.believes
        return str(wrong if self.believes else right["whole"])

    def _step(self, part: str, start: int, amount: int, right: Mapping[str, int]) -> int:
        if not self.believes or part not in self._belief.meets:
            return right[part]
        formula = self._belief.meets[part]
        if self._is_met:
            return right[part]
        self._is_met = True
        self._let_go(LET_GO_WHEN_MET)
        return formula(start, amount) if formula and self.believes else right[part]


def _right(start: int, amount: int) -> dict[str, int]:
    ten = start // 10 * 10 + 10
    return {
        **dict.fromkeys(("whole", "total"), start + amount),
        **{"next-ten": ten, "gap": ten - start, "rest": start + amount - ten, "ones": _ones(start, amount)},
        **{"tens": start // 10, "one-more": start + 1, "tens-of-ones": _ones(start, amount) // 10},
    }


def sums_until_unaided(name: str, seed: str, home: Path) -> int:
    """One practice in the version that this process imports."""
    home.mkdir(mode=0o700, parents=True)
    os.environ["SAYTHESUM_HOME"] = str(home)
    grid, log = home / "grid.toml", home / "log.jsonl"
    grid.write_text(
        f'title = "Seats"\nstart = {list(STARTS)}\nadd = {list(AMOUNTS)}\norder = "shuffled"\n', encoding="utf-8"
    )
    log.touch()
    pupil = Pupil(name, seed, log)
    words = ["--grid", str(grid), "--log", str(log), "--seed", str(Random(seed).randrange(1000))]
    sys.argv = ["saythesum", "practise", "--by", "text", *words]
    sys.stdin = pupil
    with (home / "printed.txt").open("w", encoding="utf-8") as printed, redirect_stdout(printed):
        try:
            runpy.run_module("saythesum", run_name="__main__")
        except SystemExit as ended:
            if ended.code:
                raise
    return pupil.sums


def play(folder: Path, pupils: int) -> None:
    """Prints a line of JSON for each practice: mistake, seed, sums."""
    for name in BELIEFS:
        for seed in SEEDS:
            for number in range(pupils):
                home = folder / f"{name}-{seed}-{number}"
                sums = sums_until_unaided(name, f"{seed} {number} {name}", home)
                print(json.dumps([name, seed, sums]), flush=True)


# ---- both versions -----------------------------------------------------------------------------------


def _played(checkout: Path, folder: Path, pupils: int) -> Iterator[tuple[str, int, int]]:
    """A process of its own that imports nothing but this checkout's program."""
    environment = {**os.environ, "PYTHONPATH": str(checkout), "PYTHONDONTWRITEBYTECODE": "1"}
    command = [sys.executable, str(Path(__file__).resolve()), "--play", str(folder), str(pupils)]
    done = subprocess.run(command, check=True, env=environment, cwd=checkout, capture_output=True, text=True)
    yield from (tuple(json.loads(line)) for line in done.stdout.splitlines())


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("old", type=Path)
    parser.add_argument("new", type=Path)
    parser.add_argument("--pupils", type=int, default=PUPILS)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as made:
        old, new = (
            list(_played(checkout.resolve(), Path(made) / name, options.pupils))
            for name, checkout in (("old", options.old), ("new", options.new))
        )
    print("sums until one was right unaided, mean (median)            before         after")
    for name in (*BELIEFS, "all"):
        shown = [[sums for one, _, sums in played if name in (one, "all")] for played in (old, new)]
        print(f"{name:52}", *(f"{mean(sums):8.2f} ({median(sums):.0f})" for sums in shown))
    for seed in SEEDS:
        shown = [[sums for _, one, sums in played if one == seed] for played in (old, new)]
        print(f"{f'all, seed {seed}':52}", *(f"{mean(sums):8.2f} ({median(sums):.0f})" for sums in shown))


if __name__ == "__main__":
    if sys.argv[1:2] == ["--play"]:
        play(Path(sys.argv[2]), int(sys.argv[3]))
    else:
        main()
