"""The sentences of the review. They say what was counted and nothing about what a pupil is."""

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from saythesum.core.records.rows import Note, NoteKind, Purpose, Void
from saythesum.learner.findings import Finding
from saythesum.reports.review.facts import Fact, Fate
from saythesum.reports.review.source import OfferNotDone, PracticeRead, SettingChange
from saythesum.reports.review.target import Standing
from saythesum.reports.share import Share
from saythesum.wording.for_adults.days import day_said
from saythesum.wording.for_adults.mistake_words import mistake_said
from saythesum.wording.for_adults.said_marks import kind_said

LIMITS = (
    "This is practice, not assessment or diagnosis; school and specialists decide.",
    "It cannot know how the pupil found an answer, felt or saw, what was done without it, or help that nobody noted.",
    "Practice sums are chosen to go well and are helped with: only a probe may be compared with another.",
)


def day(of: date) -> str:
    return f"{day_said(of)} {of.year}"


def target_said(stands: Standing | None) -> Iterator[str]:
    if stands is None:
        yield "No target is set."
        return
    target = stands.target
    unaided = " unaided" if target.unaided else ""
    yield f"{target.sentence.rstrip('.')}. ({target.right} of {target.of}{unaided}, by {day(target.by)}.)"
    if not stands.is_matched:
        yield f'Which sums are "{target.sums}" cannot be told from the records, so all sums are counted here.'
    if not stands.days:
        yield f"No day since it was set had {target.of} first answers or more."
        return
    met = ", ".join(day_said(one) for one in stands.met) or "none of them"
    yield f"Met on {len(stands.met)} of the {_days(len(stands.days))} with {target.of} first answers or more: {met}."


def probes_said(probes: Sequence[tuple[date, Share]]) -> Iterator[str]:
    if not probes:
        yield "No probe was done, so there is no baseline; a probe is eight sums without help."
        return
    (first_day, first), (last_day, last) = probes[0], probes[-1]
    yield f"Baseline, {day(first_day)}: {first.said} right."
    if len(probes) > 1:
        yield f"Now, {day(last_day)}: {last.said} right. The sums were others and as hard."
    else:
        yield "There is no second probe yet to compare it with."


def kept_said(shares: Sequence[tuple[int, Share]]) -> Iterator[str]:
    for weeks, share in shares:
        if share.of:
            yield f"Right unaided again {weeks} weeks after, or later, without the same sum in between: {share.said}."
    if not any(share.of for _, share in shares):
        yield "No sum that was right has been asked again after weeks yet."


def attendance_said(practised: Sequence[date], not_done: Sequence[OfferNotDone]) -> Iterator[str]:
    done = len(set(practised))
    yield f"Offered on {_days(done + len(not_done))}, practised on {done}, not done on {len(not_done)}."
    if not_done:
        yield "Not done: " + "; ".join(f"{day_said(one.day)}, {one.reason}" for one in not_done) + "."


def apart_said(facts: Sequence[Fact]) -> Iterator[str]:
    """What is in no share."""
    back: dict[str, int] = {}
    for one in facts:
        if one.fate is Fate.TAKEN_BACK:
            back[one.taken_back] = back.get(one.taken_back, 0) + 1
    why = ", ".join(f"{count} {_WHY[name]}" for name, count in sorted(back.items()))
    yield f"Answers taken back: {sum(back.values())}{f' ({why})' if why else ''}."
    unsure = sum(one.fate is Fate.UNSURE for one in facts if one.answer.purpose is Purpose.PRACTICE)
    out = sum(one.fate is Fate.NOT_COUNTED for one in facts)
    yield f"Not heard for sure, and so counted in no share: {unsure}. Taken out by an adult: {out}."


_WHY = {
    "not-said": "not what the pupil said",
    "wrong-pupil": "of another pupil",
    "adult": "by an adult",
    "interrupted": "interrupted",
}


def noted_said(practices: Sequence[PracticeRead]) -> Iterator[str]:
    """What adults beside the pupil saw: of each answer what it was worked with, and how it was found."""
    seen = {NoteKind.WORKED_WITH: Counter[str](), NoteKind.WAY: Counter[str]()}
    for one in practices:
        gone = {row.of for row in one.rows if isinstance(row, Void)}
        newest = {(row.of, row.what): row.value for row in one.rows if isinstance(row, Note) and row.what in seen}
        for (of, what), value in newest.items():
            if of and of not in gone and value:
                seen[what][kind_said(value)] += 1
    for what, words in ((NoteKind.WORKED_WITH, "Worked with"), (NoteKind.WAY, "How it was found")):
        if counts := seen[what].most_common():
            yield f"{words}, where an adult noted it: {', '.join(f'{kind} {count}' for kind, count in counts)}."


def finding_said(finding: Finding, facts: dict[str, Fact]) -> str:
    """With two examples for, and what spoke against."""
    for_ = _examples([facts[id] for id in finding.for_ if id in facts][-2:])
    against = _examples([facts[id] for id in finding.against if id in facts])
    return f"Could be {mistake_said(finding.mistake)}: {for_}. Against it: {against or 'nothing so far'}."


def _examples(facts: Sequence[Fact]) -> str:
    return ", ".join(f"{one.asked.shown} answered {one.answer.given}" for one in facts)


def change_said(change: SettingChange) -> str:
    before, after = _value(change.before), _value(change.after)
    return f"{day(change.day)}: {change.setting} was {before}, is {after}."


def _value(value: Any) -> str:
    return "not set" if value is None else str(value)


def _days(count: int) -> str:
    return f"{count} day{'' if count == 1 else 's'}"
