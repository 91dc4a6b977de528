"""Prints what listening makes of each set of recordings, numbers awaited in 0 to 1099. About three minutes.

    python -m tests.listening [FOLDER]

FOLDER holds a folder of VALUE-TAKE.wav for each speaker; without it, the environment variable SAYTHESUM_SOUNDS, or
else ../shared/sounds beside the checkout. Speakers that are not there are left out, and that is said.
"""

import os
import sys
from pathlib import Path

from saythesum.dialogue.heard import Awaiting
from saythesum.hearing.neural import NeuralRecogniser, tree
from tests.listening.figures import Figures, answers, figures, wilson
from tests.listening.sounds import (
    FLITE_VOICES,
    MissingError,
    flite_numbers,
    speakers,
    womans_numbers,
    womans_other_phrases,
)

TOP = Path(__file__).resolve().parents[2]


def main() -> int:
    try:
        _measure(speakers_folder())
    except MissingError as missing:
        print(missing)
        return 3
    return 0


def speakers_folder() -> Path:
    return Path(sys.argv[1] if len(sys.argv) > 1 else os.environ.get("SAYTHESUM_SOUNDS", TOP / "../shared/sounds"))


def _measure(folder: Path) -> None:
    engine = NeuralRecogniser()
    tree(Awaiting.NUMBER)
    print(
        f"{'set':<28}{'of':>5}  {'right':>5} {'(95 %)':<12}{'taken':>5} {'(95 %)':<12}{'wrongly':>7} {'(95 %)':<12}ms"
    )
    _show(figures("recorded woman, 0-99", answers(womans_numbers(), engine)))
    _show(figures("her other phrases", answers(womans_other_phrases(80), engine)))
    people = [figures(name, answers(clips, engine)) for name, clips in speakers(folder)]
    if people:
        for person in people:
            _show(person)
        _show(_together("all speakers", people))
    else:
        print(f"no other speakers: no recordings in {folder}")
    for voice in FLITE_VOICES:
        _show(figures(f"flite {voice}, of 0-129", answers(flite_numbers(voice, 65), engine)))


def _together(name: str, sets: list[Figures]) -> Figures:
    count = sum(each.count for each in sets)
    return Figures(
        name,
        count,
        right=sum(each.right for each in sets),
        taken=sum(each.taken for each in sets),
        taken_wrongly=sum(each.taken_wrongly for each in sets),
        ms=sum(each.ms * each.count for each in sets) / count,
    )


def _show(each: Figures) -> None:
    columns = "".join(
        f"{successes:>{width}} {_interval(successes, each.count):<12}"
        for successes, width in ((each.right, 6), (each.taken, 5), (each.taken_wrongly, 7))
    )
    print(f"{each.name:<28}{each.count:>5} {columns}{each.ms:.0f}", flush=True)


def _interval(successes: int, count: int) -> str:
    low, high = wilson(successes, count)
    return f"({100 * low:.1f}-{100 * high:.1f})"


if __name__ == "__main__":
    sys.exit(main())
