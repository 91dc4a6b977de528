"""The memory model against its authors' own test values, and our use of it by days."""

from datetime import date, timedelta

import pytest

from saythesum.learner.memory import LONGEST_DAYS, SCHEDULER, Recalled, Trace, recall, remembered
from saythesum.learner.review_schedule import Upkeep, kept_up
from tests.learner.published import (
    FSRS_DIFFICULTY,
    FSRS_INTERVALS_DAYS,
    FSRS_STABILITY,
    FSRS_TOLERANCE,
    RECALL_AFTER_DAYS,
    fsrs_intervals_days,
    fsrs_memory,
)

DAY = date(2026, 3, 2)


def days(number: int) -> date:
    return DAY + timedelta(days=number)


def test_published_intervals_and_stability() -> None:
    assert fsrs_intervals_days() == FSRS_INTERVALS_DAYS
    assert fsrs_memory() == pytest.approx((FSRS_STABILITY, FSRS_DIFFICULTY), abs=FSRS_TOLERANCE)


def test_recall_is_the_published_curve() -> None:
    trace = Trace(10.0, 5.0, DAY)
    for wait, expected in {0: 1.0, 10: 0.9, **RECALL_AFTER_DAYS}.items():
        assert recall(trace, days(wait)) == pytest.approx(expected, abs=5e-5)


def test_right_on_day_after_day_lasts_longer_each_time() -> None:
    trace, lasting = None, []
    for number in (0, 2, 9, 30):
        trace = remembered(trace, days(number), Recalled.AT_ONCE)
        lasting.append(trace.stability_days)
    assert lasting == sorted(lasting)
    assert trace is not None
    lost = remembered(trace, days(60), Recalled.NOT)
    worked_out = remembered(trace, days(60), Recalled.WORKED_OUT)
    at_once = remembered(trace, days(60), Recalled.AT_ONCE)
    assert lost.stability_days < trace.stability_days < worked_out.stability_days < at_once.stability_days


def test_the_first_answer_of_a_day_counts() -> None:
    once = remembered(None, DAY, Recalled.AT_ONCE)
    assert remembered(once, DAY, Recalled.NOT) == once


def test_a_clock_set_back_changes_nothing() -> None:
    once = remembered(None, DAY, Recalled.AT_ONCE)
    assert remembered(once, days(-3), Recalled.NOT) == once
    assert recall(once, days(-3)) == 1.0


def test_no_dice_and_an_end_to_waiting() -> None:
    assert not SCHEDULER.enable_fuzzing and SCHEDULER.maximum_interval == LONGEST_DAYS


def test_upkeep_after_one_two_and_four_weeks() -> None:
    """Common practice: questions to keep up what is known, after 1, 2 and 4 weeks."""
    kept = None
    for number in (0, 2, 4):
        kept = kept_up(kept, days(number), right=True)
    assert kept is not None and kept.is_sure
    on = 4
    for weeks in (1, 2, 4, 4):
        assert not kept.is_due(days(on + 7 * weeks - 1))
        on += 7 * weeks
        assert kept.is_due(days(on))
        kept = kept_up(kept, days(on), right=True)
    assert not kept_up(kept, days(on), right=False).is_sure


def test_upkeep_counts_days_and_not_answers() -> None:
    once = kept_up(None, DAY, right=True)
    assert once == kept_up(once, DAY, right=True) == Upkeep(1, DAY)
    assert kept_up(once, DAY, right=False) == Upkeep(0, DAY)
