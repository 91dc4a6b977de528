"""A talk about a pattern: stories by hand, resume, leaving it, and what is skipped with the true word."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import TypeGuard

import pytest

from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Grid, Order
from saythesum.core.meanings import Command, Given, Number
from saythesum.core.patterns.finding import patterns_of
from saythesum.core.patterns.moves import talk_about
from saythesum.core.records.rows import Answer, Ask, End, EndReason, Support
from saythesum.core.sums import ExerciseName, Part
from saythesum.dialogue.turns.effects import Ear, Settle
from saythesum.dialogue.tutor.pattern_talk import standing_move
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.settings import Patterns, Settings
from tests.talk import PRACTICE, Talk, plan_of

OFFER = ("That's all four done.", "Shall we look for a pattern? Yes or no.")
READY = "Say go on, or press Enter."
LISTEN = f"Listen. Add five: forty-three, sixty-two. Add eight: forty-six, sixty-five. What stays the same? {READY}"
HOW_MUCH = "In row thirty-eight, from forty-three to forty-six, how much more?"
EVERY_ROW = "And in row fifty-seven, from sixty-two to sixty-five, how much more?"
WHY = f"Why is that? Say it, or just think. {READY}"
BECAUSE = "The start is the same, and add eight makes three more than add five."
OWN = "Make one yourself. Say a start from twenty to ninety-nine."
BYE = "Bye for now."
MOVES = [part for part in Part if list(Part).index(part) >= list(Part).index(Part.LISTEN)]


def finished(*, ear: Ear = Ear.TEXT, length: str = "short") -> Talk:
    """At the offer, after four sums right."""
    talk = Talk(plan_of((38, 57), (5, 8), length=length, offers_patterns=True), ear)  # type: ignore[arg-type]
    talk.begin()
    for total in (43, 46, 62, 65):
        talk.type(Number(total))
    return talk


def told(talk: Talk, line: str) -> tuple[str, ...]:
    before = len(talk.said)
    talk.type(line)
    return tuple(talk.said[before:])


def story(talk: Talk, *turns: tuple[str, Sequence[str]]) -> None:
    for line, replies in turns:
        assert told(talk, line) == tuple(replies), line


def predict(talk: Talk) -> tuple[str, int]:
    """The talk's own question about a row that is not there, and its answer."""
    _, _, question = standing_move(talk.state.plan, talk.state.progress)
    assert question is not None
    return talk.said[-1], question.right


# ---- stories by hand


def test_a_pupil_who_sees_it() -> None:
    talk = finished()
    assert tuple(talk.said[-2:]) == OFFER
    story(
        talk,
        ("yes", [LISTEN]),
        ("they both go up", [HOW_MUCH]),
        ("3", ["Yes.", EVERY_ROW]),
        ("3", ["Yes, in both rows.", "A new row: twenty-seven add five makes thirty-two. What would add eight make?"]),
        ("35", ["Yes. Still three more.", WHY]),
        (
            "because eight is three more than five",
            [BECAUSE, "Now turn it round: eighty-two add eight makes ninety. What would add five make?"],
        ),
        ("87", ["Yes.", OWN]),
        ("46", ["Yes.", "I'll start: forty-six add five makes fifty-one. What would add eight make?"]),
        ("54", ["Yes. That one is your own.", "That's the pattern.", BYE]),
    )
    assert talk.finished
    parts = [row.part for row in talk.rows if isinstance(row, Ask) and row.exercise is ExerciseName.PATTERN]
    assert parts == [*MOVES, Part.MAKE_ONE]
    assert all(row.row is row.column is None for row in filter(_is_of_talk, talk.rows))
    ends = [row for row in talk.rows if isinstance(row, End)]
    assert [(end.cells, end.right_first_time, end.reason) for end in ends] == [(4, 4, EndReason.FINISHED)]


def test_a_pupil_who_guesses() -> None:
    talk = finished()
    told(talk, "yes")
    story(
        talk,
        ("go on", [HOW_MUCH]),
        (
            "5",
            [
                "Not yet.",
                "Forty-three and five is forty-eight, past forty-six.",
                "Forty-three and one is forty-four. Go on counting.",
                HOW_MUCH,
            ],
        ),
        ("1", ["Not yet.", "From forty-three to forty-six is three.", EVERY_ROW]),
        (
            "help me",
            [
                "Start at sixty-two and go up to sixty-five.",
                EVERY_ROW.removeprefix("And i").replace("n row", "In row", 1),
            ],
        ),
    )
    assert told(talk, "3")[0] == "Yes, in both rows."
    asked = [row for row in talk.rows if isinstance(row, Ask) and row.part is Part.EVERY_ROW]
    assert [row.support for row in asked] == [Support.INDEPENDENT, Support.ENCOURAGED]


def test_a_pupil_who_says_nothing_is_not_asked_again_nor_left() -> None:
    """By voice: silence changes nothing, and a refused sound in the open ear may come from anybody."""
    talk = finished(ear=Ear.OPEN)
    talk.answer("yes")
    assert talk.said[-1] == LISTEN
    said, rows = len(talk.said), len(talk.rows)
    talk.wait(3_600_000)
    talk.hear("the window is open", 0.2)
    talk.wait()
    assert (len(talk.said), len(talk.rows)) == (said, rows)
    assert talk.listen is not None and not talk.finished
    talk.press()
    assert talk.said[-1] == HOW_MUCH


def test_a_pupil_who_stops_in_the_middle_and_comes_back_next_day() -> None:
    talk = finished()
    for line in ("yes", "go on", "3"):
        talk.type(line)
    question = talk.said[-1]
    assert told(talk, "stop there") == ("We'll stop there. Four done. Bye for now.",)
    assert talk.finished and not talk.state.channel.open_ear
    again = talk.again()
    again.begin()
    assert again.said == ["Yes.", question]
    for line in ("3", "35", "go on", "87", "46", "54"):
        again.type(line)
    assert again.finished and again.said[-2:] == ["That's the pattern.", BYE]


def test_by_voice_numbers_are_said_back_and_can_be_put_right() -> None:
    talk = finished(ear=Ear.OPEN)
    talk.answer("yes")
    talk.hear("go on")
    talk.wait()
    talk.hear("five")
    talk.wait()
    assert talk.said[-1] == "Five."
    talk.hear("no, three")
    talk.wait()
    assert talk.said[-1] == "Three."
    talk.wait()
    assert talk.said[-2:] == ["Yes.", EVERY_ROW]
    answers = [row for row in talk.rows if isinstance(row, Answer) and row.part is Part.HOW_MUCH_MORE]
    assert [(row.given, row.right) for row in answers] == [(3, True)]


def test_what_is_thought_aloud_is_neither_kept_nor_logged() -> None:
    talk = finished(ear=Ear.OPEN)
    talk.answer("yes")
    talk.press()
    for line in ("3", "3"):
        talk.type(line)
    talk.type(Number(predict(talk)[1]))
    assert talk.said[-1] == WHY
    effects = talk.hear("because mum says eight is three more") + talk.wait()
    assert [(effect.text, type(effect.heard).__name__) for effect in effects if isinstance(effect, Settle)] == [
        ("", "Unclear")
    ]
    assert BECAUSE in talk.said


# ---- resume


LINES = (
    "yes",
    "go on",
    "5",
    "1",
    "I don't know",
    "I don't know",
    "3",
    "1",
    "2",
    "go on",
    "help me",
    "1",
    "2",
    "46",
    "54",
)


def test_resume_in_every_move_gives_the_same_words() -> None:
    talk = finished()
    for line in LINES:
        again = talk.again()
        again.begin()
        assert again.said[-1] == talk.said[-1]
        talk.type(line)
    assert talk.finished


def test_killed_at_every_row_it_ends_in_the_same_rows() -> None:
    whole = finished()
    for line in LINES:
        whole.type(line)
    for cut in range(8, len(whole.rows)):
        again = replace_rows(whole, cut)
        again.begin()
        _go_on_as_before(again, whole, cut)
        assert [_plain(row) for row in again.rows] == [_plain(row) for row in whole.rows], cut


def replace_rows(talk: Talk, cut: int) -> Talk:
    return Talk(talk.plan, talk.ear, rows=list(talk.rows[:cut]))


def _go_on_as_before(talk: Talk, whole: Talk, cut: int) -> None:
    """The pupil gives the answers, calls for help and goes on as the rows of the whole practice tell."""
    while not talk.finished and len(talk.rows) < len(whole.rows):
        row = whole.rows[len(talk.rows)]
        if isinstance(row, Answer):
            talk.type(Number(row.given))
        elif isinstance(row, Ask) and row.part is Part.LISTEN:
            talk.type("yes")
        elif isinstance(row, Ask) and row.because == "dont-know":
            talk.type("I don't know")
        elif isinstance(row, Ask) and row.because == "help":
            talk.type("help me")
        else:
            talk.type("go on")


def _plain(row: object) -> object:
    return replace(row, heard=None, took_ms=None) if isinstance(row, Answer) else row


# ---- leaving it, and commands


@pytest.mark.parametrize("moves", range(7))
@pytest.mark.parametrize("word", ["no", "no more patterns", "skip this one"])
def test_it_can_be_left_at_any_move_and_nothing_is_lost(moves: int, word: str) -> None:
    talk = finished()
    talk.type("yes")
    for _ in range(moves):
        _, _, question = standing_move(talk.state.plan, talk.state.progress)
        talk.type("go on" if question is None else Number(question.right))
    assert told(talk, word)[-2:] == ("We'll leave the pattern.", BYE)
    assert talk.finished and isinstance(talk.rows[-1], End)
    assert talk.state.progress.answered_in({0}) == 4


def test_no_to_the_offer_ends_the_practice_and_keeps_nothing_of_a_talk() -> None:
    talk = finished()
    assert told(talk, "no") == (BYE,)
    assert talk.finished and not any(_is_of_talk(row) for row in talk.rows)


def test_stop_at_the_offer_is_one_line_and_the_grid_is_finished() -> None:
    talk = finished()
    assert told(talk, "stop there") == (BYE,)
    last = talk.rows[-1]
    assert isinstance(last, End) and last.reason is EndReason.FINISHED


def test_killed_at_the_offer_it_is_offered_again() -> None:
    again = finished().again()
    again.begin()
    assert tuple(again.said) == OFFER


def test_every_command_is_answered_in_every_move() -> None:
    for moves in range(8):
        for command in Command:
            talk = finished()
            talk.type("yes")
            for _ in range(moves):
                _, _, question = standing_move(talk.state.plan, talk.state.progress)
                talk.type("go on" if question is None else Number(question.right))
            before = len(talk.said)
            talk.type(Given(command))
            assert len(talk.said) > before or command is Command.HUSH, (moves, command)


def test_what_was_kept_can_be_taken_back() -> None:
    talk = finished()
    for line in ("yes", "go on", "5"):
        talk.type(line)
    assert told(talk, "not what I said") == ("Taken back.", HOW_MUCH)
    assert told(talk, "3")[0] == "Yes."
    assert told(talk, "I said 4")[:2] == ("Taken back.", "Not yet.")
    assert [cell for cell in talk.state.progress.closed] and talk.state.progress.answered_in({0}) == 4


def test_a_pupil_who_knows_nothing_to_say_is_thanked_and_let_go() -> None:
    talk = finished()
    talk.said.clear()
    for line in ("yes", *["dunno"] * 4):
        talk.type(line)
    assert talk.finished
    assert talk.said[-2:] == ["Thank you for thinking about it. We'll look another day.", BYE]
    words = len(" ".join(talk.said).replace("-", " ").split())
    assert words < 130, "under a minute at 130 words a minute"


# ---- when, and what is skipped with the true word


def test_asked_for_in_the_middle_it_reads_only_what_is_done_and_goes_back_to_the_sum() -> None:
    talk = Talk(plan_of((38, 57, 46), (5, 8), offers_patterns=True), Ear.TEXT)
    talk.begin()
    talk.type("43")
    assert told(talk, "patterns") == (
        "There's no pattern to hear yet. We'll need more sums done.",
        "Thirty-eight add eight.",
    )
    for line in ("46", "62", "65"):
        talk.type(line)
    question = talk.said[-1]
    assert "forty-three, forty-six" in told(talk, "patterns")[0]
    assert not any("fifty-one" in line for line in talk.said)
    assert told(talk, "no")[-1] == question == "Forty-six add five."
    again = talk.again()
    again.begin()
    assert again.said[-1] == question
    again.type("51")
    assert again.answers[-1].support is Support.REPEATED and again.answers[-1].right


@pytest.mark.parametrize(
    ("starts", "amounts", "word"),
    [((38,), (5,), "One sum alone has no pattern."), ((38,), (5, 8), ""), ((38, 57), (5,), "")],
)
def test_a_small_grid_is_not_offered_a_talk(starts: Iterable[int], amounts: Iterable[int], word: str) -> None:
    talk = Talk(plan_of(starts, amounts, offers_patterns=True), Ear.TEXT)
    talk.begin()
    if word:
        assert told(talk, "patterns")[0] == word
    while not talk.finished:
        ask = talk.state.progress.ask
        assert ask is not None
        talk.type(
            Number(
                talk.plan.activities[0].grid.starts[ask.place[0]] + talk.plan.activities[0].grid.amounts[ask.place[1]]
            )
        )
    assert talk.said[-1].endswith(BYE) and "pattern" not in talk.said[-1]


def test_after_a_grid_left_unfinished_nothing_is_offered() -> None:
    talk = Talk(plan_of((38, 57), (5, 8), offers_patterns=True), Ear.TEXT)
    talk.begin()
    for line in ("43", "skip this one", "62", "65", "skip this one"):
        talk.type(line)
    assert talk.finished and "Shall we" not in " ".join(talk.said)


def test_equal_columns_say_the_one_true_thing() -> None:
    grid = Grid("Rows of oars", (38, 57), (5, 5), Order.ROWS)
    equal = next(one for one in patterns_of(grid) if one.name == "columns-apart")
    assert [move.part for move in talk_about(grid, equal).moves] == [Part.LISTEN, Part.WHY]


def test_the_offer_can_be_switched_off_and_a_talk_be_asked_for_still() -> None:
    talk = Talk(plan_of((38, 57), (5, 8)), Ear.TEXT)
    talk.begin()
    for line in ("43", "46", "62"):
        talk.type(line)
    assert told(talk, "patterns")[0].startswith("Listen.")
    talk.type("no")
    assert told(talk, "65")[-1] == "That's all four done. Bye for now."


def test_a_talk_that_is_planned_follows_its_grid() -> None:
    grid = Grid("Seats on the ferry", (47, 59), (5, 8), Order.ROWS)
    bakery = Grid("Rolls in the bakery", (28,), (6,), Order.ROWS)
    activities = [activity(grid, 0), activity(grid, 0, Aim.TALK), activity(bakery, 0)]
    talk = Talk(planned(PRACTICE, activities, Settings(patterns=Patterns())), Ear.TEXT)
    talk.begin()
    for line in ("52", "55", "64"):
        talk.type(line)
    assert told(talk, "67")[1:] == (
        "That's all four done.",
        f"Listen. Add five: fifty-two, sixty-four. Add eight: fifty-five, sixty-seven. What stays the same? {READY}",
    )
    again = talk.again()
    again.begin()
    assert again.said[-1].startswith("Listen.")
    assert told(again, "no") == ("We'll leave the pattern.", "One row, one sum.", "Twenty-eight add six.")
    assert told(again, "34")[-1] == "That one's done. Bye for now."


def test_a_talk_that_is_planned_after_a_grid_of_one_sum_is_skipped_with_the_true_word() -> None:
    grid = Grid("Rolls in the bakery", (28,), (6,), Order.ROWS)
    talk = Talk(planned(PRACTICE, [activity(grid, 0), activity(grid, 0, Aim.TALK)], Settings()), Ear.TEXT)
    talk.begin()
    assert told(talk, "34") == ("Yes.", "One sum alone has no pattern.", "That one's done. Bye for now.")


def _is_of_talk(row: object) -> TypeGuard[Ask | Answer]:
    return isinstance(row, Ask | Answer) and row.exercise is ExerciseName.PATTERN
