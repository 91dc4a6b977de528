"""The parent's page, the visiting teacher's, and today in one line: the same counts, for other readers."""

from collections.abc import Iterator

from saythesum.reports.page import Page, Section
from saythesum.reports.review import said_review, shares, support
from saythesum.reports.review.review import Counted, about, mistakes


def parents_page(of: Counted) -> Page:
    """One side in plain words: no levels, no percentages, no other pupils."""
    return Page(f"How {of.source.pupil} is getting on", _when(of), tuple(_for_parents(of)))


def _when(of: Counted) -> str:
    return f"From {said_review.day(of.period.first)} to {said_review.day(of.period.last)}."


def _for_parents(of: Counted) -> Iterator[Section]:
    done = len(of.practised)
    sums = len({(one.practice, one.answer.activity, one.answer.row, one.answer.column) for one in of.facts})
    yield Section(
        "what",
        "What we did",
        (
            "We practise adding and taking away small numbers in the head, going by way of the next ten: 47 add 5 is "
            "47, 50, 52.",
            f"There were {done} days of practice, with {sums} sums. Nothing was timed, and help was there at any time.",
        ),
    )
    yield Section("well", "What goes well", tuple(_goes_well(of)))
    yield Section("next", "What comes next", tuple(_comes_next(of)))
    yield Section(
        "home",
        "If you would like to join in",
        (
            "Ask your child to show you one sum and how they got there. Wait for the answer; any way that works is a "
            "good way. A few minutes are enough.",
            "These are counts from practice, not a test and not a diagnosis. Ask us whatever you would like to know.",
        ),
    )


def _goes_well(of: Counted) -> Iterator[str]:
    told_of = [one for one in _lately(of) if one.share.of >= _ENOUGH]
    known = [one for one in told_of if one.share.right >= _WELL * one.share.of]
    for one in known:
        yield f"{one.skill}: {one.share.right} of the last {one.share.of} right at once, without help."
    if told_of and not known:
        yield _with_help(of)
    elif not known:
        yield "We are still finding out what comes easily: there are too few sums yet."
    if stands := of.standing:
        yield f"The aim is: {stands.target.sentence.rstrip('.')}. It was reached on {len(stands.met)} days so far."


_LATELY = 20
"""First answers of a skill, so that a hard beginning does not hide what goes well by now. Our own choice."""
_ENOUGH, _WELL = 8, 0.7
"""For a skill to be told of as going well. Our own choice."""


def _lately(of: Counted) -> tuple[shares.SkillShare, ...]:
    return shares.by_skill(shares.newest_of_each_skill(of.firsts, _LATELY))


def _with_help(of: Counted) -> str:
    alone = shares.right_unaided(of.firsts)
    helped = sum(support.level_of(one) != "alone" for one in support.ended(of.facts))
    return (
        f"Nothing comes by itself yet. {alone.right} of {alone.of} sums were right at once, and {helped} were worked "
        "out with a little help, step by step."
    )


def _comes_next(of: Counted) -> Iterator[str]:
    working = [one for one in _lately(of) if one.share.right < _WELL * one.share.of]
    for one in working[:2]:
        yield f"{one.skill}, step by step."
    if not working:
        yield "More of the same, in larger numbers, and again after some weeks, to see what stays."


def visit_page(of: Counted) -> Page:
    """What has changed since the last visit, dated. The period begins with that visit."""
    return Page(f"{of.source.pupil}: since the last visit", about(of.period), tuple(_since(of)))


def _since(of: Counted) -> Iterator[Section]:
    settings = (one for one in of.source.changes if one.day in of.period and "." in one.setting)
    changes = [said_review.change_said(one) for one in settings]
    yield Section("settings", "Settings that changed", tuple(changes) or ("None.",))
    targets = [
        f"{said_review.day(one.at.date())}: {one.sentence}" for one in of.source.targets if one.at.date() in of.period
    ]
    yield Section("targets", "Targets that were set", tuple(targets) or ("None.",))
    yield Section("target", "Where the target stands", tuple(said_review.target_said(of.standing)))
    yield Section("support", "Support", support.fading_said(of.facts) or ("Too few sums to say.",))
    ways = (f"By {way}: {share.said} right unaided." for way, share in shares.by_way(of.firsts).items())
    sizes = (f"Print of {size}: {share.said}." for size, share in shares.by_print_size(of.firsts).items())
    yield Section("ways", "Ways and print", (*ways, *sizes) or ("Nothing was answered.",))
    yield Section("mistakes", "Mistakes that could be", tuple(mistakes(of.firsts)))
    offers = [one for one in of.source.not_done if one.day in of.period]
    yield Section("attendance", "Attendance", tuple(said_review.attendance_said(of.practised, offers)))
