"""The figures behind the proofs: `python -m tests.proofs`."""

import sys
from collections import Counter
from typing import get_args

from saythesum.core.exercises.adding import Sum
from saythesum.settings import Length
from tests.proofs import adult_talks, bad_hearing, no_tell
from tests.proofs.all_help import AMOUNTS, SMALL_STARTS, STARTS, all_help, first_help
from tests.proofs.counting import counted, counts
from tests.proofs.flaws_of_help import flaws

PAST_HUNDRED = (100, 104, 195, 197, 398, 600, 991, 999)
"""Starts. Numbers take four words there, so no turn can keep within the ceilings."""


def main() -> int:
    tell = no_tell.measured()
    print(f"1. No tell: {tell.answers} answers in pairs, {tell.different} pairs told apart by words or waits;")
    print(f"   once more: {tell.once_more_right} right, {tell.once_more_wrong} wrong.")
    listened = [(count, *counted(count)) for count in counts()]
    whole = sum([answer.given for answer in talk.answers] == [count.last] for count, talk, _ in listened)
    spoken = sum(said > 0 for _, _, said in listened)
    print(f"2. Counting aloud: {len(listened)} counts, {whole} kept as their last number, {spoken} spoken into.")
    adult = adult_talks.measured()
    print(f"3. An adult without the turn, open ear: {adult.sentences} sentences, {adult.said_back} said back or acted")
    print(f"   on, {adult.kept} kept as answers where nobody objects.")
    sums = [Sum(start, amount) for start in (*SMALL_STARTS, *STARTS) for amount in AMOUNTS]
    first = [turn for asked in sums for turn in first_help(asked)]
    other = [turn for asked in sums for turn in all_help(asked)]
    sets = {frozenset(names) for turn in first for names in turn.could_be}
    found = sum((flaws(turn, length) for turn in first + other for length in get_args(Length)), Counter[str]())
    print(
        f"5. True help: {len(first)} first helps after {len(sets)} sets of patterns, {len(other)} turns of help in all,"
    )
    print(f"   over {len(sums)} sums in three lengths: {dict(found) or 'nothing amiss'}.")
    past = [Sum(start, amount) for start in PAST_HUNDRED for amount in AMOUNTS]
    turns = [turn for asked in past for turn in (*first_help(asked), *all_help(asked))]
    amiss = sum((flaws(turn, "short") for turn in turns), Counter[str]())
    del amiss["short: too long"]
    print(f"   Past a hundred {len(turns)} turns over {len(past)} sums: {dict(amiss) or 'nothing amiss'}.")
    bad = bad_hearing.measured()
    print(f"6. Bad hearing, {bad.practices} practices (median, 95th percentile, most):")
    print(f"   once more {_shown(bad.once_more)}; keys offered {_shown(bad.keys_offered)};")
    print(f"   yes or no {_shown(bad.yes_or_no)}; asked about hearing inside parts {bad.hearing_in_parts};")
    print(f"   wrong rows not taken back: whole {_shown(bad.wrong_whole_rows)}, parts {_shown(bad.wrong_part_rows)}.")
    return 1 if found or amiss or tell.different else 0


def _shown(spread: bad_hearing.Spread) -> str:
    return f"{spread.median:g}, {spread.p95:g}, {spread.most}"


if __name__ == "__main__":
    sys.exit(main())
