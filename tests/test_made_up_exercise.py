"""An exercise of our own, "double it", that the program does not know: a class and its words, and nothing else.

It is practised, helped with, kept, resumed, chosen by what the pupil knows, and shown like any other.
"""

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from saythesum.app.setup.planning import Wanted, gone_on, new_practice, plan_of
from saythesum.core.aims import Aim
from saythesum.core.exercises.exercise import Exercise, Operator
from saythesum.core.exercises.registry import EXERCISES
from saythesum.core.exercises.skills import Item, Skill
from saythesum.core.grids.file_format import grid_from, text_of
from saythesum.core.grids.grid import Grid, Order
from saythesum.core.mistakes.anywhere import ANYWHERE
from saythesum.core.mistakes.pattern import HelpFrom, Pattern
from saythesum.core.records.rows import Answer
from saythesum.core.sums import Part
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.dialogue.tutor.progress import cell_of, known
from saythesum.keyboard.answer_entry import Typing
from saythesum.scene.scene import scene
from saythesum.settings import Length, Settings, Wording
from saythesum.store.records import SqliteStore
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.exercise_words import ExerciseWords
from saythesum.wording.speak.exercises.said_exercises import EXERCISE_WORDS
from saythesum.wording.speak.lengths import capital
from tests.talk import PRACTICE, Talk

LOAVES = """
title = "Loaves for two ovens"
double = [1]
start = [26, 37]
"""


class Double(Exercise):
    """A number doubled `amount` times."""

    __slots__ = ()

    operation = "double"
    operator = Operator("×", "double", "doubling")
    amounts = range(1, 2)
    patterns = (
        Pattern(
            "D1",
            "ones-left-alone",
            lambda occasion: (2 * occasion.asked.start - occasion.asked.start % 10,),
            HelpFrom.STEPS,
            "Only the tens were doubled.",
            "Two trays of {start}: what do the ones come to?",
        ),
        *ANYWHERE,
    )

    @property
    def total(self) -> int:
        return self.start << self.amount

    @property
    def parts(self) -> tuple[Part, ...]:
        return (Part.ONES, Part.TOTAL) if self.start > 10 and self.start % 10 else ()

    def answer_to(self, part: Part) -> int:
        return (self.start % 10) << self.amount if part is Part.ONES else super().answer_to(part)

    @property
    def shown(self) -> str:
        return f"2 × {self.start}"


class DoubleWords(ExerciseWords[Double]):
    def whole(self, asked: Double, number: object = None) -> str:
        return f"double {words(asked.start)}"

    def in_row(self, asked: Double, number: object = None) -> str:
        return "double it"

    def part_question(self, asked: Double, part: Part, length: Length) -> str:
        if part is Part.ONES:
            return f"Ones first: double {words(asked.start % 10)}?"
        ones = asked.answer_to(Part.ONES)
        return capital(f"{words(asked.total - ones)} and {words(ones)}?")

    def part_done(self, asked: Double, part: Part, length: Length) -> str:
        return f"I'll do this bit. Double {words(asked.start % 10)} is {words(asked.answer_to(part))}."


@pytest.fixture(autouse=True)
def registered(monkeypatch: pytest.MonkeyPatch) -> None:
    kind: type[Exercise] = Double
    monkeypatch.setitem(EXERCISES, (Double.operation, Double.name, Double.hidden), kind)
    monkeypatch.setitem(EXERCISE_WORDS, kind, DoubleWords())


def loaves(*, length: Length = "short", order: Order = Order.ROWS, ear: Ear = Ear.TEXT) -> Talk:
    grid = Grid("Loaves for two ovens", (26, 37), (1,), order, ("double",))
    return Talk(planned(PRACTICE, [activity(grid, 0)], Settings(wording=Wording(length=length))), ear)


def told(talk: Talk, line: str) -> list[str]:
    before = len(talk.said)
    talk.type(line)
    return talk.said[before:]


def test_a_grid_file_asks_it() -> None:
    grid = grid_from(LOAVES)
    assert grid == Grid("Loaves for two ovens", (26, 37), (1,), operations=("double",))
    assert grid_from(text_of(grid)) == grid


def test_a_grid_file_may_ask_two_exercises_side_by_side() -> None:
    both = grid_from("double = [1]\nadd = [5, 8]\nstart = [26]")
    assert both.operations == ("double", "add", "add")
    assert grid_from(text_of(both)) == both
    talk = Talk(planned(PRACTICE, [activity(both, 0)], Settings(wording=Wording(length="full"))), Ear.TEXT)
    talk.begin()
    assert "We'll double it, then add five, then eight." in talk.said[0]
    assert told(talk, "52")[-1] == "Twenty-six add five."


def test_practised_and_helped_to_the_end() -> None:
    talk = loaves()
    talk.begin()
    assert talk.said == ["Two rows, one sum in each.", "Double twenty-six."]
    assert told(talk, "46") == ["Not yet.", "Ones first: double six?"]
    assert told(talk, "12") == ["Twelve.", "Forty and twelve?"]
    assert told(talk, "52") == ["Yes.", "New row, thirty-seven.", "Double thirty-seven."]
    assert told(talk, "I don't know") == ["That's fine.", "Ones first: double seven?"]
    assert told(talk, "9") == ["Ones first: double seven?"]
    assert told(talk, "9") == ["I'll do this bit. Double seven is fourteen.", "Sixty and fourteen?"]
    assert told(talk, "help me") == ["Double thirty-seven is seventy-four. Now you: double thirty-seven?"]
    assert told(talk, "74") == ["Yes.", "That's both done. Bye for now."]
    assert talk.finished


def test_moved_about_in_and_stopped() -> None:
    talk = loaves(length="full")
    talk.begin()
    assert talk.said[0].startswith("Two rows today, twenty-six and thirty-seven. We'll double it.")
    assert told(talk, "52")[0] == "Yes. Double twenty-six is fifty-two."
    assert told(talk, "where am I")[0] == "Row thirty-seven, double it. One of two done."
    assert told(talk, "read this column")[0] == "Double it. Row twenty-six, fifty-two. Row thirty-seven, not done."
    told(talk, "75")
    assert told(talk, "stop") == ["We'll stop there. We'll come back to that one. Bye for now."]


def test_heard_said_back_and_put_right() -> None:
    talk = loaves(ear=Ear.OPEN)
    talk.begin()
    talk.hear("fifty")
    talk.wait()
    talk.answer("no, fifty-two")
    assert talk.said[-4:-2] == ["Fifty-two.", "Yes."]
    assert [(answer.given, answer.right) for answer in talk.answers] == [(52, True)]


def test_kept_as_what_it_is() -> None:
    talk = loaves()
    talk.begin()
    for line in ("46", "12", "52"):
        talk.type(line)
    kept = [(row.operation, row.part, row.right_answer, row.could_be) for row in talk.rows if isinstance(row, Answer)]
    assert kept == [
        ("double", Part.WHOLE, 52, ("ones-left-alone",)),
        ("double", Part.ONES, 12, ()),
        ("double", Part.TOTAL, 52, ()),
    ]
    assert all(answer.asked == Double(26, 1) for answer in talk.answers)


@pytest.fixture
def store(tmp_path: Path) -> Iterator[SqliteStore]:
    records = SqliteStore(tmp_path / "records.db")
    yield records
    records.close()


def test_resumed_from_the_records_after_every_row_in_the_same_words(store: SqliteStore, tmp_path: Path) -> None:
    now = datetime(2031, 5, 12, 9, 30, tzinfo=UTC)
    stored = new_practice(store, "pupil-1", Wanted(Aim.PRACTISE, grid_from(LOAVES), 1), Settings(), now)
    store.begin(stored)
    plan = plan_of(stored, store, tmp_path)
    talk = Talk(plan, Ear.TEXT)
    talk.begin()
    kept = 0
    for line in ("46", "12", "52", "help me", "14", "74"):
        for row in talk.rows[kept:]:
            store.keep(plan.practice, row, at="2031-05-12T09:30:00.250Z", at_ms=1)
        kept = len(talk.rows)
        asked = talk.said[-1]
        gone = gone_on(store, "pupil-1", Wanted(Aim.PRACTISE, None, None))
        assert gone is not None
        again = Talk(plan_of(gone, store, tmp_path), Ear.TEXT, rows=list(gone.rows))
        again.begin()
        assert again.said[-1] == asked
        talk.type(line)
    assert talk.finished


def test_counted_by_the_learner_and_chosen_by_what_is_known() -> None:
    talk = loaves(order=Order.CHOSEN)
    talk.begin()
    first = talk.state.progress.ask
    assert first is not None
    asked = talk.plan.exercise_at(cell_of(first))
    item = Item(Skill.ANSWER, (asked.start, 1), "double")
    before = known(talk.plan, talk.state.progress).belief(item)
    talk.type(str(asked.total))
    after = known(talk.plan, talk.state.progress).belief(item)
    assert after.known > before.known and after.answers == 1
    last = talk.state.progress.ask
    assert last is not None and last.row != first.row


def test_a_step_is_counted_as_its_own() -> None:
    talk = loaves()
    talk.begin()
    talk.type("I don't know")
    talk.type("13")
    pupil = known(talk.plan, talk.state.progress)
    assert pupil.broken == Item(Skill.STEP, (), "double ones")


def test_shown_in_its_own_signs() -> None:
    talk = loaves()
    talk.begin()
    shown = scene(talk.state, Typing())
    assert shown.sum
    assert (shown.sum.text, shown.sum.name, shown.line) == ("2 × 26", "double twenty-six", None)
    assert [row.text for row in shown.grid.rows] == ["26", "37"]
    assert [column.name for column in shown.grid.columns] == ["double it"]
    assert [[cell.text for cell in row] for row in shown.grid.cells] == [[""], [""]]
    talk.type("52")
    after = scene(talk.state, Typing())
    assert after.verdict
    assert after.verdict.name == "Double twenty-six is fifty-two. Yes."
    assert [[cell.text for cell in row] for row in after.grid.cells] == [["52"], [""]]
