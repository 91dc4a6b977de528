"""With how much help sums were ended rightly, over time, and whether that help fades."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from saythesum.core.records.rows import Purpose, Support
from saythesum.reports.review.facts import Fact, Fate
from saythesum.reports.review.shares import monday, right_unaided
from saythesum.reports.share import Share

LOOKED_BACK = 10
MOST_WEEKS = 14
"""Of a table that still leaves room on two pages."""
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


@dataclass(frozen=True, slots=True)
class OverTime:
    """How many sums were ended at each level, by week, or by month where there are many weeks."""

    unit: str
    levels: tuple[str, ...]
    """Those that came up."""
    counts: dict[date, tuple[int, ...]]
    """By the first day of each week or month."""
    at_first: dict[date, Share]
    """First answers, right unaided."""


def over_time(facts: Sequence[Fact], firsts: Sequence[Fact]) -> OverTime:
    done = ended(facts)
    is_by_week = len({monday(one.day) for one in done}) <= MOST_WEEKS
    spans: dict[date, Counter[str]] = {}
    at_first: dict[date, list[Fact]] = {}
    for one in done:
        spans.setdefault(_begins(one, is_by_week), Counter())[level_of(one)] += 1
    for one in firsts:
        at_first.setdefault(_begins(one, is_by_week), []).append(one)
    levels = tuple(name for name, _ in LEVELS if any(span[name] for span in spans.values()))
    counts = {begins: tuple(spans[begins][name] for name in levels) for begins in sorted(spans)}
    shares = {begins: right_unaided(at_first.get(begins, [])) for begins in counts}
    return OverTime("Week from" if is_by_week else "Month from", levels, counts, shares)


def _begins(fact: Fact, is_by_week: bool) -> date:
    return monday(fact.day) if is_by_week else fact.day.replace(day=1)


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
