"""The file of a plan: what is typed is understood, what is wrong is told, what is written reads back."""

from datetime import date
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from saythesum.office.plans.week import DOINGS, Day, DayPlan, Ways, WeekPlan, text_of, week_from, without_pupil
from saythesum.settings import Settings

TYPED = """\
title   = "The week of the harbour"
pupils  = ["RK-7", "mo", "rk-7"]
note    = "The headset is in the blue box."
by      = "keys"
wording = "brief"
sums    = 12
from    = 2031-05-12
until   = 2031-05-16

[monday]
do = ["harbour", "probe"]

[wednesday]
do      = ["choice"]
by      = "voice"
minutes = 8
"""


def test_what_a_teacher_types_is_understood() -> None:
    week, problems = week_from(TYPED)
    assert problems == ()
    assert week.pupils == ("rk-7", "mo")
    assert week.note == "The headset is in the blue box."
    assert week.on(date(2031, 5, 12)) == DayPlan(("harbour", "probe"), Ways("keys", "brief", 12))
    assert week.on(date(2031, 5, 14)) == DayPlan(("choice",), Ways("voice", "brief", 12, 8))
    assert week.on(date(2031, 5, 13)) is None
    assert week.on(date(2031, 5, 19)) is None, "a Monday after the last day"


def test_what_is_wrong_is_told_with_its_line_and_the_rest_is_used() -> None:
    week, problems = week_from(
        'pupils = ["rk-7", "Róisín"]\nby = "song"\nsums = 0\nwho = "me"\n'
        'note = "one\\nmore"\nfrom = "Monday"\n'
        "[monday]\ndo = []\n[tuesday]\ndo = ['ferry', 'two words']\nminute = 3\n"
    )
    assert week.pupils == ("rk-7",)
    assert dict(week.days) == {Day.TUESDAY: DayPlan(("ferry",))}
    told = "\n".join(problems)
    for line, words in [
        (1, 'The pupil\'s code "Róisín" must be'),
        (2, 'by has "song"; it is "voice" or "keys"'),
        (3, "sums has 0; it is a whole number from 1 to 500"),
        (4, "who is not part of a plan; there are title"),
        (5, 'note has "one?more"; it is one line'),
        (6, 'from has "Monday"; it is a day such as 2031-05-12'),
        (8, 'monday has no activities; do is a list of 1 to 8, such as ["ferry", "probe"].'),
        (10, 'do has "two words"; it is the name of a grid, or one of choice, probe, find-out, '),
        (11, "minute is not part of a day; did you mean minutes?"),
    ]:
        assert f"Line {line}: {words}" in told, told
    assert len(problems) == 9


def test_a_plan_without_days_and_one_that_ends_before_it_begins() -> None:
    assert "There is no day in the plan" in week_from('pupils = ["mo"]')[1][0]
    _, (problem,) = week_from('pupils = ["mo"]\nfrom = 2031-05-12\nuntil = 2031-05-11\n[monday]\ndo = ["ferry"]')
    assert problem == "Line 3: until has 2031-05-11, which is before from, 2031-05-12."


@given(st.text(max_size=200))
def test_no_text_is_a_fault(text: str) -> None:
    week, problems = week_from(text)
    assert problems or (week.pupils and week.days)


_WAYS = st.builds(
    Ways,
    by=st.sampled_from([None, "voice", "keys"]),
    wording=st.sampled_from([None, "brief", "short", "full"]),
    sums=st.none() | st.integers(1, 500),
    minutes=st.none() | st.integers(1, 120),
)
_DAYS = st.builds(
    DayPlan,
    do=st.lists(st.sampled_from(["ferry", "rows-of-oars", *DOINGS]), min_size=1, max_size=8).map(tuple),
    ways=_WAYS,
)
_WEEKS = st.builds(
    WeekPlan,
    pupils=st.lists(st.sampled_from(["rk-7", "zq-5", "b2"]), min_size=1, unique=True).map(tuple),
    days=st.dictionaries(st.sampled_from(Day), _DAYS, min_size=1),
    title=st.text(st.characters(categories=("L", "N", "P")), max_size=40),
    ways=_WAYS,
    first=st.none() | st.just(date(2031, 5, 12)),
    last=st.none() | st.just(date(2031, 6, 30)),
)


@given(_WEEKS)
@settings(max_examples=60)
def test_what_is_written_reads_back(week: WeekPlan) -> None:
    assert week_from(text_of(week)) == (week, ())


@given(_WEEKS)
@settings(max_examples=30)
def test_a_pupil_taken_out_leaves_no_trace_and_all_else_as_it_was(week: WeekPlan) -> None:
    left = without_pupil(text_of(week), week.pupils[0])
    if len(week.pupils) == 1:
        assert left is None
    else:
        assert left is not None and week.pupils[0] not in left
        assert week_from(left)[0].days == week.days


def test_days_follow_the_calendar() -> None:
    """ISO 8601: Monday 12 May 2031 begins week 20. Source of the day: the proleptic Gregorian calendar of Python's
    standard library, `date.isocalendar`."""
    for day, place in product([date(2031, 5, 12)], range(7)):
        that = date.fromordinal(day.toordinal() + place)
        assert Day.of(that) is [*Day][that.isocalendar().weekday - 1]


def test_ways_left_open_stay_as_the_pupils_settings_say() -> None:
    own = Settings()
    assert Ways().applied_to(own) == own
    changed = Ways("keys", "full", 5, 9).applied_to(own)
    assert (changed.start.by, changed.wording.length) == ("keys", "full")
    assert (changed.sitting.most_sums, changed.sitting.most_minutes) == (5, 9)
