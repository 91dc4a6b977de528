"""Every mark of the adult's turn: given by a digit, taken back by the same, given again; nothing of it is said."""

from dataclasses import replace

import pytest

from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Cell, Grid
from saythesum.core.records.marks import KINDS, Mark
from saythesum.core.records.rows import Answer, Ask, End, Note, NoteKind, Row, Settled, Support, Void
from saythesum.dialogue.turns.effects import Ear, Say
from saythesum.dialogue.turns.events import AdultMarked
from saythesum.dialogue.turns.stack import AdultsTurn
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.dialogue.tutor.progress import folded, known_here
from saythesum.scene.scene import for_adult
from saythesum.settings import Settings
from tests.talk import PRACTICE, Talk

FERRY = activity(Grid("Seats on the ferry", (47, 36), (5, 8)), 0)


def begun(*lines: str, ear: Ear = Ear.KEYS) -> Talk:
    talk = Talk(planned(PRACTICE, [FERRY], Settings()), ear)
    talk.begin()
    for line in lines:
        talk.type(line)
    return talk


def marks(talk: Talk, *digits: int) -> tuple[Row, ...]:
    """The rows that came of it. Nothing is said meanwhile."""
    before = len(talk.rows)
    for digit in digits:
        effects = talk.post(AdultMarked(digit, talk.now_ms))
        assert not any(isinstance(effect, Say) for effect in effects)
    return tuple(talk.rows[before:])


def listed(talk: Talk) -> str:
    return "\n".join(for_adult(talk.state))


def notes(rows: tuple[Row, ...]) -> list[tuple[str, str]]:
    return [(row.what.value, row.value) for row in rows if isinstance(row, Note)]


def test_that_was_right_goes_on_with_the_next_sum_and_is_taken_back_to_the_help() -> None:
    talk = begun("42")
    assert talk.said[-1] == "Seven and five?"
    talk.adult_takes()
    assert "The last answer: 47 + 5, 42, not right." in listed(talk)
    assert notes(marks(talk, 1)) == [("was-right", "yes")]
    assert "1 that was right: noted" in listed(talk)
    assert "47 + 5, 52, right." in listed(talk)
    assert notes(marks(talk, 1)) == [("was-right", "")]
    assert "42, not right." in listed(talk)
    assert notes(marks(talk, 1)) == [("was-right", "yes")]
    talk.adult_gives()
    assert talk.said[-1] == "Forty-seven add eight."
    (answer,) = known_here(talk.plan, talk.state.progress).evidence
    assert answer.is_right
    talk.adult_takes()
    marks(talk, 1)
    talk.adult_gives()
    assert talk.said[-1] == "Forty-seven add eight.", "the question that stands"
    for line in ("55", "41", "44"):
        talk.type(line)
    assert "forty-seven" in talk.said[-1].lower() and talk.said[-1].endswith("add five."), "and the other comes back"


def test_an_answer_that_counted_as_right_needs_no_mark() -> None:
    talk = begun("52")
    talk.adult_takes()
    assert marks(talk, 1) == ()


def test_what_was_not_said_is_void_and_comes_back_as_it_was() -> None:
    talk = begun("42")
    talk.adult_takes()
    (void,) = marks(talk, 2)
    assert isinstance(void, Void) and void.why == "not-said"
    assert "2 that was not said: noted" in listed(talk)
    (again,) = marks(talk, 2)
    first = next(row for row in talk.rows if isinstance(row, Answer))
    assert again == replace(first, id=again.id)
    marks(talk, 2)
    talk.adult_gives()
    assert talk.said[-1].endswith("Forty-seven add five.")
    assert known_here(talk.plan, talk.state.progress) == known_here(talk.plan, folded(()))


@pytest.mark.parametrize("digit, mark", [(3, Mark.HELPED), (4, Mark.WORKED_WITH), (5, Mark.WAY)])
def test_marks_of_a_kind_are_given_changed_and_taken_back(digit: int, mark: Mark) -> None:
    talk = begun("52")
    talk.adult_takes()
    for place, value in enumerate(KINDS[mark], 1):
        assert [row.value for row in marks(talk, digit, place) if isinstance(row, Note)] == [value]
    assert "noted" in listed(talk).splitlines()[digit]
    assert [row.value for row in marks(talk, digit, len(KINDS[mark])) if isinstance(row, Note)] == [""]
    assert "noted" not in listed(talk)
    assert marks(talk, digit, 9, 0) == () and "1 that was right" in listed(talk)


def test_help_of_the_adult_ends_independence_and_nothing_else() -> None:
    talk = begun("52")
    talk.adult_takes()
    marks(talk, 3, 1)
    assert known_here(talk.plan, talk.state.progress).evidence == ()
    marks(talk, 3, 1)
    assert len(known_here(talk.plan, talk.state.progress).evidence) == 1


def test_longer_waits_are_twice_as_long_until_the_same_digit() -> None:
    talk = begun(ear=Ear.OPEN)
    usual = talk.plan.settings.waits
    talk.adult_takes()
    assert notes(marks(talk, 6)) == [("waits", "longer")]
    talk.adult_gives()
    assert talk.state.channel.waits.after_number_ms == 2 * (usual.after_number_ms or 0)
    assert talk.again().state.channel.waits == talk.state.channel.waits, "after a stop as well"
    talk.adult_takes()
    assert notes(marks(talk, 6)) == [("waits", "")]
    assert talk.state.channel.waits == usual


def test_skipping_is_silent_and_goes_back() -> None:
    talk = begun()
    talk.adult_takes()
    (ask,) = marks(talk, 7)
    assert isinstance(ask, Ask) and ask.because == "skipped" and ask.place == (0, 1)
    (back,) = marks(talk, 7)
    assert isinstance(back, Ask) and back.place == (0, 0)
    marks(talk, 7)
    talk.adult_gives()
    assert talk.said[-1].endswith("add eight.")


def test_from_here_on_nothing_counts_but_that_it_was_done() -> None:
    talk = begun("52")
    talk.adult_takes()
    assert notes(marks(talk, 8)) == [("not-counted", "from-here")]
    talk.adult_gives()
    for line in ("55", "41", "44", "no"):
        talk.type(line)  # no talk about the rows afterwards
    assert talk.finished
    end = talk.rows[-1]
    assert isinstance(end, End) and (end.cells, end.right_first_time) == (4, 1)
    answers = [row for row in talk.rows if isinstance(row, Answer)]
    beside = [row.of for row in talk.rows if isinstance(row, Note) and row.of]
    assert beside == [answer.id for answer in answers[1:]]
    assert [row.id for row in talk.rows] == [talk.plan.next_id(place) for place in range(len(talk.rows))]
    assert len(known_here(talk.plan, folded(talk.rows)).evidence) == 1


def test_it_counts_again_from_where_that_is_taken_back() -> None:
    talk = begun("52")
    talk.adult_takes()
    assert notes(marks(talk, 8, 8)) == [("not-counted", "from-here"), ("not-counted", "counts")]
    talk.adult_gives()
    talk.type("55")
    assert len(known_here(talk.plan, talk.state.progress).evidence) == 2


def test_digits_that_stand_for_nothing_and_marks_before_any_answer_change_nothing() -> None:
    talk = begun()
    talk.adult_takes()
    assert marks(talk, 0, 9, 1, 2, 3, 4, 5) == ()
    assert "Nothing was answered yet." in listed(talk)
    talk.adult_gives()
    assert marks(talk, 6) == (), "outside the adult's turn a digit marks nothing"
    assert for_adult(talk.state) == ()


def test_after_the_end_nothing_is_marked_here() -> None:
    """What comes to mind later is noted on the desk."""
    talk = begun("52", "stop there")
    assert talk.finished
    talk.adult_takes()
    assert marks(talk, 1, 2, 3, 1, 6, 7, 8) == () and for_adult(talk.state) == ()
    assert isinstance(talk.rows[-1], End)


@pytest.mark.parametrize("digits", [(1,), (2,), (3, 1), (3, 4), (4, 2), (5, 2), (6,), (7,), (8,)])
def test_killed_after_any_mark_it_goes_on_as_if_nothing_had_happened(digits: tuple[int, ...]) -> None:
    talk = begun("42")
    talk.adult_takes()
    marks(talk, *digits)
    again = talk.again()
    again.begin()
    talk.adult_gives()
    assert again.said[-1].lower().endswith(talk.said[-1].rpartition(", ")[2].lower())
    assert again.state.progress == talk.state.progress


def test_a_probe_can_be_marked_as_well() -> None:
    probe = activity(Grid("Rolls in the bakery", (28, 65), (6,)), 0, Aim.PROBE, (Cell(1, 0), Cell(0, 0)))
    talk = Talk(planned(PRACTICE, [probe], Settings()), Ear.KEYS)
    talk.begin()
    talk.type("70")
    talk.adult_takes()
    marks(talk, 1)
    assert isinstance(talk.state.talk.topics[-1], AdultsTurn)
    talk.adult_gives()
    assert "Twenty-eight add six." in talk.said[-1]
    (kept,) = [row for row in talk.state.progress.live if isinstance(row, Answer)]
    assert (kept.right, kept.settled, kept.support) == (True, Settled.ADULT, Support.INDEPENDENT)
    assert NoteKind.WAS_RIGHT in {row.what for row in talk.rows if isinstance(row, Note)}
