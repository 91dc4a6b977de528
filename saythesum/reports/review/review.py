"""The review of one pupil over some time: what a coordinator lays on the table, in two pages."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from saythesum.core.records.marks import SAID_SO
from saythesum.core.records.rows import Note, NoteKind, Purpose
from saythesum.learner.evidence import evidence_of
from saythesum.learner.findings import findings
from saythesum.reports.page import Bars, Page, Section, Table
from saythesum.reports.review import over_time, said_review, shares, support
from saythesum.reports.review.facts import Fact, facts_of, firsts
from saythesum.reports.review.source import Period, PracticeRead, Source
from saythesum.reports.review.target import Standing, standing
from saythesum.reports.share import Share
from saythesum.wording.for_adults.days import day_said

MOST_NOTES = 6
LOOKED_AT_FOR_MISTAKES = 60
"""Evidence of the last first answers: a habit of half a year ago may be over."""


@dataclass(frozen=True, slots=True)
class Counted:
    """All that was counted; pages are made of it, and tests recount it."""

    source: Source
    period: Period
    facts: tuple[Fact, ...]
    """Of the period."""
    before: tuple[Fact, ...]
    """Of all days to its end, for what needs a longer look."""
    firsts: tuple[Fact, ...]
    """First answers of the period, in practice."""

    @property
    def practices(self) -> tuple[PracticeRead, ...]:
        return tuple(one for one in self.source.practices if one.began in self.period)

    @property
    def practised(self) -> tuple[date, ...]:
        """Days on which something was answered at the tool."""
        days = {one.day for one in self.facts if one.answer.purpose is not Purpose.PAPER}
        return tuple(sorted(days))

    @property
    def probes(self) -> tuple[tuple[date, Share], ...]:
        """Each probe to the end of the period, oldest first: the first one ever is the baseline."""
        by_practice: dict[object, list[Fact]] = {}
        for one in firsts(self.before, Purpose.PROBE):
            by_practice.setdefault(one.practice, []).append(one)
        return tuple((some[0].day, shares.right_unaided(some)) for some in by_practice.values())

    @property
    def standing(self) -> Standing | None:
        set_by_then = [one for one in self.source.targets if one.at.date() <= self.period.last]
        return standing(set_by_then[-1], self.firsts) if set_by_then else None

    @property
    def kept(self) -> tuple[tuple[int, Share], ...]:
        all_firsts = firsts(self.before)
        return tuple((weeks, over_time.kept_after(all_firsts, weeks, self.period.first)) for weeks in over_time.WEEKS)


def counted(source: Source, period: Period) -> Counted:
    facts = tuple(fact for practice in source.practices for fact in facts_of(practice) if fact.day <= period.last)
    inside = tuple(one for one in facts if one.day in period)
    return Counted(source, period, inside, facts, firsts(inside))


def review(of: Counted) -> Page:
    return Page(f"Review of {of.source.pupil}", about(of.period), tuple(_sections(of)))


def about(period: Period) -> str:
    return (
        f"{said_review.day(period.first)} to {said_review.day(period.last)}; made on {said_review.day(period.on)}. "
        "A share is of first answers without help, each sum once a practice."
    )


def _sections(of: Counted) -> Iterator[Section]:
    yield Section("target", "Target", tuple(said_review.target_said(of.standing)))
    yield Section("probes", "Baseline and now", tuple(said_review.probes_said(of.probes)))
    yield _skills(of.firsts)
    yield from _facts(of.firsts)
    yield _support(of)
    yield Section("kept", "Kept after weeks", tuple(said_review.kept_said(of.kept)))
    yield Section("mistakes", "Mistakes that could be", tuple(mistakes(of.firsts)))
    yield _conditions(of)
    yield from _times(of.firsts)
    offers = [one for one in of.source.not_done if one.day in of.period]
    attendance = (*said_review.attendance_said(of.practised, offers), *said_review.apart_said(of.facts))
    yield Section("attendance", "Attendance, and what is not counted", attendance)
    yield from _notes(of.practices)
    yield Section("limits", "What this cannot say", (*said_review.LIMITS, *of.source.unreadable))


def _skills(some: Sequence[Fact]) -> Section:
    rows = tuple(
        (one.skill, one.share.said, "yes" if one.is_secure else f"on {one.days} of {shares.SECURE_DAYS} days")
        for one in shares.by_skill(some)
    )
    heads = ("Skill", "Right unaided", "9 in 10 on 3 days")
    table = Table("Right at the first answer, without help", heads, rows) if rows else None
    return Section("skills", "Skills", () if rows else ("Nothing was answered without help yet.",), table)


def _facts(some: Sequence[Fact]) -> Iterator[Section]:
    """One table for each operation: the start's ones down the side, the amount along the top."""
    by_fact = shares.by_ones_fact(some)
    for operation in dict.fromkeys(key[0] for key in by_fact):
        cells = {(ones, amount): share for (of, ones, amount), share in by_fact.items() if of == operation}
        amounts = sorted({amount for _, amount in cells})
        rows = tuple(
            (str(ones), *(_in_cell(cells.get((ones, amount))) for amount in amounts))
            for ones in sorted({ones for ones, _ in cells})
        )
        sign = next(one.asked.operator.sign for one in some if one.answer.operation == operation)
        heads = ("Start's ones", *(f"{sign}{amount}" for amount in amounts))
        shades = tuple(
            tuple(_shade(cells.get((ones, amount))) for amount in amounts)
            for ones in sorted({ones for ones, _ in cells})
        )
        table = Table(_FACTS_CAPTION, heads, rows, shades)
        doing = next(one.asked.operator.doing for one in some if one.answer.operation == operation)
        yield Section(f"facts-{operation}", f"By the ones: {doing}", (), table)


_FACTS_CAPTION = "Right unaided, of how many, whatever the tens: mostly is 9 in 10 or more, often is half or more"
_STATES = ("not asked", "seldom", "often", "mostly")


def _shade(share: Share | None) -> int:
    """A place in the states: the darker, the more often it was right."""
    if share is None:
        return 0
    return 3 if share.right >= shares.SECURE_SHARE * share.of else 2 if 2 * share.right >= share.of else 1


def _in_cell(share: Share | None) -> str:
    state = _STATES[_shade(share)]
    return f"{state}, {share.counted}" if share else state


def _support(of: Counted) -> Section:
    over = support.over_time(of.facts, of.firsts)
    if not over.counts:
        return Section("support", "Support over time", ("No sum was ended rightly yet.",))
    rows = tuple(
        (day_said(begins), *map(str, counts), over.at_first[begins].counted) for begins, counts in over.counts.items()
    )
    bars = Bars(
        "Support over time",
        "Sums that were ended rightly, by the help they needed: a bar for each line of the table below.",
        over.levels,
        tuple((day_said(begins), counts) for begins, counts in over.counts.items()),
    )
    table = Table("Sums ended rightly, by the help they needed", (over.unit, *over.levels, "first answers right"), rows)
    return Section("support", "Support over time", support.fading_said(of.facts), table, bars)


def mistakes(some: Sequence[Fact]) -> Iterator[str]:
    """Two answers that agree are needed before anything is named."""
    evidence = [evidence_of(one.answer) for one in some if one.is_unaided][-LOOKED_AT_FOR_MISTAKES:]
    by_id: dict[str, Fact] = {one.answer.id: one for one in some}
    found = findings(evidence) if evidence else ()
    yield from (said_review.finding_said(finding, by_id) for finding in found)
    if not found:
        yield "Nothing shows: no mistake comes again."


def _conditions(of: Counted) -> Section:
    """Apart, and never averaged: how a pupil answered and how they saw and heard it."""
    paper = firsts(of.facts, Purpose.PAPER)
    groups = (
        ("By", shares.by_way(of.firsts)),
        ("Print", shares.by_print_size(of.firsts)),
        ("Voice at", shares.by_rate(of.firsts)),
    )
    rows = tuple((f"{name} {condition}", share.said) for name, some in groups for condition, share in some.items())
    if paper:
        rows = (*rows, (f"On paper ({written_how(of.practices)})", shares.right_unaided(paper).said))
    table = Table("The same sums, by how they were answered", ("Condition", "Right unaided"), rows) if rows else None
    return Section("conditions", "Ways and conditions, apart", tuple(said_review.noted_said(of.practices)), table)


def written_how(practices: Sequence[PracticeRead]) -> str:
    values = (
        row.value
        for one in practices
        for row in one.rows
        if isinstance(row, Note) and row.what is NoteKind.WORKED_WITH and row.of is None
    )
    return ", ".join(dict.fromkeys(values)) or "how is not noted"


def _times(facts: Sequence[Fact]) -> Iterator[Section]:
    times = over_time.seconds_by_way(facts)
    if not times:
        return
    rows = tuple(
        (f"{way}, {month}", f"{middle:.1f}", f"{low:.1f} to {high:.1f}", str(count))
        for (way, month), (low, middle, high, count) in times.items()
    )
    table = Table(
        "Seconds to a right unaided answer, within one way", ("Way, month", "Median", "Middle half", "Of"), rows
    )
    yield Section("times", "Time to answer (for adults only)", (), table)


def _notes(practices: Sequence[PracticeRead]) -> Iterator[Section]:
    """The newest ones, in their own words. Of the pupil's the newest of each practice holds."""
    words = [line for one in practices for line in _lines_of(one, NoteKind.OWN_WORDS)[-1:]]
    notes = [line for one in practices for line in _lines_of(one, NoteKind.TEXT)]
    for said, name, heading in ((words, "words", "The pupil's own words"), (notes, "notes", "Adults' notes")):
        if lines := [f"{day_said(day)}: {text}" for day, text in said if text not in ("", SAID_SO)]:
            yield Section(name, heading, tuple(lines[-MOST_NOTES:]))


def _lines_of(practice: PracticeRead, kind: NoteKind) -> list[tuple[date, str]]:
    return [
        (day, row.value)
        for row, day in zip(practice.rows, practice.days, strict=True)
        if isinstance(row, Note) and row.what is kind
    ]
