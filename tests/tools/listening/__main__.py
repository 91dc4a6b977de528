"""Prints what listening makes of each set of recordings in each condition, numbers awaited in 0 to 1099.

    python -m tests.tools.listening [FOLDER] [--set NAME] [--condition NAME] [--every N] [--keep FILE]
        [--opinions FOLDER]
    python -m tests.tools.listening --kept FILE [--kept FILE]

FOLDER holds a folder of VALUE-TAKE.wav for each speaker; without it, the environment variable SAYTHESUM_SOUNDS, or
else ../shared/sounds beside the checkout. What is not on this machine is left out, and that is said. NAME is the
beginning of a name and may be given several times; --every N hears every Nth clip only. --keep writes what was heard
into FILE, for the scripts that choose limits; --kept prints the figures of such files as the gate judges them now.
--opinions asks VOICE.npz of that folder for a second opinion about a voice, so that nobody is judged by weights that
have heard them; voices without a file are asked about with the shipped ones. All of it takes about twenty minutes on
two free cores.
"""

import argparse
import sys
from collections.abc import Iterable
from contextlib import nullcontext
from pathlib import Path
from typing import Protocol, TypeVar

from tests.tools.listening.conditions import CONDITIONS
from tests.tools.listening.figures import Figures, figures, wilson
from tests.tools.listening.hearings import Answer, heard, read, written
from tests.tools.listening.sets import sets, speakers_folder


class _Named(Protocol):
    @property
    def name(self) -> str: ...


Anything = TypeVar("Anything", bound=_Named)


def main() -> int:
    asked = _asked()
    if asked.kept:
        _print_heading()
        _print_kept([answer for path in asked.kept for answer in read(path)])
        return 0
    folder = speakers_folder(asked.folder)
    wanted = _beginning(sets(folder), asked.set)
    conditions = [each.name for each in _beginning(CONDITIONS, asked.condition)]
    if not wanted or not conditions:
        print("Nothing has such a name; right would be the beginning of a set's or a condition's.")
        return 2
    if not any(each.is_speaker for each in wanted):
        print(f"other speakers: left out. Not asked for, or no recordings in {folder}")
    _print_heading()
    with open(asked.keep, "w", encoding="utf-8") if asked.keep else nullcontext() as kept:
        for each, answers in heard(wanted, conditions, asked.every, asked.opinions):
            for condition in conditions:
                _print_row(each.name, condition, [answer for answer in answers if answer.condition == condition])
            if kept:
                kept.writelines(f"{written(answer)}\n" for answer in answers)
    return 0


def _print_kept(answers: list[Answer]) -> None:
    """Each set and condition in the order in which they come, and each condition of all the numbers of real people."""
    together = [answer for answer in answers if answer.said is not None and not answer.set.startswith("flite")]
    for part, name in ((answers, lambda answer: answer.set), (together, lambda _: "all real speakers")):
        rows: dict[tuple[str, str], list[Answer]] = {}
        for answer in part:
            rows.setdefault((name(answer), answer.condition), []).append(answer)
        for (each, condition), found in rows.items():
            _print_row(each, condition, found)


def _print_heading() -> None:
    print(f"{'set':<24}{'condition':<17}{'of':>5}{'right':>6} {'(95 %)':<13}{'taken':>5} {'(95 %)':<13}"
          f"{'wrongly':>7} {'(95 %)':<13}ms")  # fmt: skip


def _print_row(name: str, condition: str, found: list[Answer]) -> None:
    has_numbers = any(answer.said is not None for answer in found)
    print(f"{name:<24}{condition:<17}{_row(figures(found), numbers=has_numbers)}", flush=True)


def _asked() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.tools.listening")
    parser.add_argument("folder", nargs="?")
    parser.add_argument("--set", action="append", default=[])
    parser.add_argument("--condition", action="append", default=[])
    parser.add_argument("--every", type=int, default=1)
    parser.add_argument("--keep", type=Path)
    parser.add_argument("--opinions", type=Path)
    parser.add_argument("--kept", type=Path, action="append", default=[])
    return parser.parse_args()


def _beginning(named: Iterable[Anything], names: list[str]) -> list[Anything]:
    return [each for each in named if not names or each.name.startswith(tuple(names))]


def _row(found: Figures, *, numbers: bool) -> str:
    """Of a set without numbers, whatever is taken is taken wrongly."""
    right = _share(found.right, found.count, 6) if numbers else " " * 20
    taken = _share(found.taken, found.count, 5) if numbers else " " * 19
    return f"{found.count:>5}{right}{taken}{_share(found.taken_wrongly, found.count, 7)}{found.ms:.0f}"


def _share(successes: int, count: int, width: int) -> str:
    low, high = wilson(successes, count)
    return f"{successes:>{width}} {f'({100 * low:.1f}-{100 * high:.1f})':<13}"


if __name__ == "__main__":
    sys.exit(main())
