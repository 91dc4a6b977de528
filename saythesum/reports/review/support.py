"""With how much help sums were ended rightly, over time, and whether that help fades."""

from collections import Counter
from collections.abc import Sequence
from datetime import date

from saythesum.core.records.rows import Purpose, Support
from saythesum.reports.review.facts import Fact, Fate
from saythesum.reports.review.shares import monday

LOOKED_BACK = 10
MOST_OFTEN = 7
"""Of these, before another way is suggested. Our own choice."""

LEVELS: tuple[tuple[str, frozenset[Support]], ...] = (
    ("alone", frozenset({Support.INDEPENDENT, Support.REPEATED})),
    ("second look", frozenset({Support.ENCOURAGED})),
    ("asked a question", frozenset({Support.ASKED})),
    ("first step given", frozenset({Support.FIRST_STEP})),
    ("worked through", frozenset({Support.MODELLED})),
    ("adult", frozenset({Support.ADULT_HELP, Support.ADULT_ANSWER})),
)
"""Least first. Source of the ladder: least-to-most prompting, as University of Nevada, Reno, describes it."""

_LIGHTER = {
    "asked a question": "wait longer before helping?",
    "first step given": "try a question instead?",
    "worked through": "try giving the first step only?",
    "adult": "let the tool help first?",
}


def level_of(fact: Fact) -> str:
    return next(name for name, of in LEVELS if fact.answer.support in of)


def ended(facts: Sequence[Fact]) -> tuple[Fact, ...]:
    """The answers that ended a sum of a practice rightly."""
    return tuple(
        one
        for one in facts
        if one.is_closing and one.answer.purpose is Purpose.PRACTICE and one.fate in (Fate.COUNTED, Fate.UNSURE)
    )


def by_week(facts: Sequence[Fact]) -> dict[date, tuple[int, ...]]:
    """How many sums were ended at each level, by the Monday of each week."""
    weeks: dict[date, Counter[str]] = {}
    for one in ended(facts):
        weeks.setdefault(monday(one.day), Counter())[level_of(one)] += 1
    return {week: tuple(weeks[week][name] for name, _ in LEVELS) for week in sorted(weeks)}


def fading_said(facts: Sequence[Fact]) -> tuple[str, ...]:
    """The two halves of the sums beside each other, and a suggestion where one kind of help stays."""
    done = ended(facts)
    if len(done) < 2:
        return ()
    half = len(done) // 2
    early, late = done[:half], done[half:]
    alone = [sum(level_of(one) == "alone" for one in some) for some in (early, late)]
    said = [f"Ended without help: {alone[0]} of the first {len(early)} sums, {alone[1]} of the {len(late)} after them."]
    last = Counter(level_of(one) for one in done[-LOOKED_BACK:])
    level, times = last.most_common(1)[0]
    if level in _LIGHTER and times >= MOST_OFTEN:
        said.append(f"Help of the kind '{level}' on {times} of the last {LOOKED_BACK}: {_LIGHTER[level]}")
    return tuple(said)
