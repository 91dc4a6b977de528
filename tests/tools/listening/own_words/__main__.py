"""What a pupil's own words are worth, on three men's takes of the digits, as they are and as children.

    python -m tests.tools.listening.own_words KEPT [FOLDER] [--only PART ...]

KEPT is a folder for what was heard, so that nothing is heard twice (about half an hour on two free cores for the first
time; then minutes). FOLDER as in `python -m tests.tools.listening`. PART: takes, together, rivals, odd, learnt.
Behind each share stands its 95 % interval, a little too narrow where draws share sayings. The second opinion that is
shipped has heard all three men: what it is worth for somebody new stands in DEVELOPERS.md.
"""

import argparse
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from saythesum.hearing.embedded.own_words.comparison import Comparison
from saythesum.hearing.embedded.own_words.own_words import Odd
from tests.tools.listening.own_words.compared import DAY, HEADING, Counted, counted, drawn
from tests.tools.listening.own_words.learnt import TURNS, learnt
from tests.tools.listening.own_words.speakers import Speaker, heard_speakers
from tests.tools.listening.sets import speakers_folder
from tests.tools.listening.sounds import MissingError

DRAWS, TAKES = 3, (2, 4, 8)
TAKES_TOGETHER, TAKES_OF_ODD = 4, 2
NUMBERS = range(10)


def takes(speakers: list[Speaker]) -> None:
    """Each draw's own takes are left out of what is counted."""
    for speaker in speakers:
        for count in TAKES:
            before, after = Counted(), Counted()
            for own, rest in (drawn(speaker.sayings, count, seed) for seed in range(DRAWS)):
                before += counted(rest)
                after += counted(rest, Comparison(own))
            _row(speaker, f"{count} takes: before", before)
            _row(speaker, f"{count} takes: after", after)


def together(speakers: list[Speaker]) -> None:
    """Plain listening takes a second view near the line, the second opinion does without."""
    for speaker in speakers:
        for has_second in (False, True):
            for has_own in (False, True):
                total = Counted()
                for own, rest in (drawn(speaker.sayings, TAKES_TOGETHER, seed) for seed in range(DRAWS)):
                    total += counted(rest, Comparison(own) if has_own else None, has_second=has_second)
                names = [name for name, has in (("second opinion", has_second), ("own words", has_own)) if has]
                _row(speaker, " and ".join(names) or "plain", total)


def rivals(speakers: list[Speaker]) -> None:
    """A word that has no takes, while all the others have."""
    for speaker in speakers:
        before, after = Counted(), Counted()
        for own, rest in (drawn(speaker.sayings, TAKES_TOGETHER, seed) for seed in range(DRAWS)):
            for number in NUMBERS:
                said = [saying for saying in rest if saying.said == number]
                others = replace(own, takes=tuple(take for take in own.takes if take.number != number))
                before += counted(said)
                after += counted(said, Comparison(others))
        _row(speaker, "without its takes: before", before)
        _row(speaker, "without its takes: after", after)


def odd(speakers: list[Speaker]) -> None:
    """Of the speaker's own takes, and of another man's that say the same."""
    for speaker in speakers:
        others = [other for other in speakers if other.condition == speaker.condition and other is not speaker]
        for who in (speaker, *others):
            asked = count = 0
            for own, rest in (drawn(speaker.sayings, TAKES_OF_ODD, seed) for seed in range(DRAWS)):
                for saying in rest if who is speaker else who.sayings:
                    assert saying.said is not None and saying.frames is not None
                    count += 1
                    asked += isinstance(own.with_take(saying.said, saying.frames, on=DAY), Odd)
            print(f"{speaker.name:<9}{speaker.condition:<12}{who.name}'s takes asked about: {asked} of {count}")


def as_learnt(speakers: list[Speaker]) -> None:
    for speaker in speakers:
        before, after, kept, wrong = Counted(), Counted(), 0, 0
        for came in (learnt(speaker.sayings, seed) for seed in range(DRAWS)):
            before, after = before + came.before, after + came.after
            kept, wrong = kept + came.takes, wrong + came.wrong_takes
        _row(speaker, "before", before)
        _row(speaker, f"after {TURNS} turns", after)
        print(f"{'':<21}{kept / DRAWS:.0f} takes, {wrong / DRAWS:.1f} of them of another word")


def _row(speaker: Speaker, what: str, came: Counted) -> None:
    print(f"{speaker.name:<9}{speaker.condition:<12}{what:<32}{came.count:>5}  {came}", flush=True)


PARTS: dict[str, Callable[[list[Speaker]], None]] = {
    "takes": takes,
    "together": together,
    "rivals": rivals,
    "odd": odd,
    "learnt": as_learnt,
}


def main() -> int:
    reader = argparse.ArgumentParser(prog="python -m tests.tools.listening.own_words")
    reader.add_argument("kept", type=Path)
    reader.add_argument("folder", nargs="?")
    reader.add_argument("--only", choices=PARTS, action="append")
    asked = reader.parse_args()
    try:
        speakers = list(heard_speakers(speakers_folder(asked.folder), asked.kept))
    except MissingError as missing:
        print(missing)
        return 3
    for speaker in speakers:
        print(f"{speaker.name}, {speaker.condition}: {len(speaker.sayings)} sayings, factor {speaker.factor:g}")
    for name in asked.only or PARTS:
        print(f"\n{name:<58}{HEADING}")
        PARTS[name](speakers)
    return 0


if __name__ == "__main__":
    sys.exit(main())
