"""A probe: eight sums, no help, no verdict between them; it never shows what was right."""

from collections.abc import Callable

import pytest

from saythesum.core.meanings import Choice, Command, Given, Meaning, Number, Unclear
from saythesum.core.records.rows import UNAIDED, Answer, Ask, End, EndReason, Purpose, Row, Void
from saythesum.core.sums import Part
from saythesum.dialogue import messages as say
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.progress import cell_of, folded
from saythesum.keyboard.answer_entry import Typing
from saythesum.scene.scene import scene
from saythesum.settings import Length
from saythesum.wording.numbers import words
from tests.dialogue.made_plans import probe_plan
from tests.dialogue.made_topics import hear, open_ear
from tests.dialogue.test_no_silence import MEANINGS, is_answered, is_dead
from tests.same_rows import without_ids
from tests.talk import Talk

SUMS = tuple(probe_plan().exercise_at(cell) for cell in probe_plan().activities[0].cells)
Answering = Callable[[Talk, int], None]


def begun(ear: Ear = Ear.OPEN, *, length: Length = "short") -> Talk:
    talk = Talk(probe_plan(length=length), ear)
    talk.begin()
    return talk


def by_voice(talk: Talk, number: int) -> None:
    talk.answer(words(number))


def unsurely(talk: Talk, number: int) -> None:
    """Once more, once more, then yes; the keys are offered once a practice."""
    for _ in range(3):
        hear(talk, Number(number), 0.5)
        if talk.messages[-1] == say.WasIt(number):
            hear(talk, "yes")
            return


def by_line(talk: Talk, number: int) -> None:
    talk.type(str(number))


WAYS: dict[str, tuple[Ear, Answering]] = {
    "by voice": (Ear.OPEN, by_voice),
    "heard unsurely": (Ear.OPEN, unsurely),
    "by keys": (Ear.KEYS, by_line),
    "by text": (Ear.TEXT, by_line),
}


def played(way: str, wrong: frozenset[int], *, length: Length = "short", killed: bool = False) -> Talk:
    """The sums at the places in `wrong` are answered by ten less."""
    ear, answer = WAYS[way]
    talk = begun(ear, length=length)
    for place, asked in enumerate(SUMS):
        answer(talk, asked.total - 10 if place in wrong else asked.total)
        if killed and not talk.finished:
            talk = talk.again()
            talk.begin()
    assert talk.finished
    return talk


def without_numbers(talk: Talk) -> list[say.Message | str]:
    heard = say.SaidBack | say.WasIt
    return [type(one).__name__ if isinstance(one, heard) else one for one in talk.messages]


# ---- nothing tells ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("length", ["brief", "short", "full"])
@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("wrong", [frozenset(range(8)), frozenset({0, 3, 7})], ids=["all wrong", "some wrong"])
def test_right_and_wrong_are_met_with_the_same(way: str, wrong: frozenset[int], length: Length) -> None:
    all_right, with_wrong = played(way, frozenset(), length=length), played(way, wrong, length=length)
    assert without_numbers(with_wrong) == without_numbers(all_right)
    assert with_wrong.now_ms == all_right.now_ms


def test_no_right_answer_is_in_any_sentence_before_the_pupil_has_said_it() -> None:
    talk = begun(Ear.TEXT)
    for asked in SUMS:
        for line in ("where am I", "how many more", "read this row", "say that again", "what", "5000"):
            talk.type(line)
        talk.type(str(asked.total - 10))
    totals = {words(asked.total) for asked in SUMS}
    told = {word.strip(".?,").lower() for line in talk.said for word in line.split()}
    assert told & totals <= {words(asked.start) for asked in SUMS}


def test_the_window_shows_no_verdict_no_line_and_no_grid() -> None:
    right, wrong = begun(Ear.KEYS), begun(Ear.KEYS)
    for asked in SUMS[:4]:
        right.type(str(asked.total))
        wrong.type("9")
        one, other = (scene(talk.state, Typing()) for talk in (right, wrong))
        assert one.line is other.line is None
        assert one.grid == other.grid
        assert len(one.grid.cells) == len(one.grid.cells[0]) == 1
        assert (one.caption, one.sum, one.now) == (other.caption, other.sum, other.now)
        assert one.verdict
        assert other.verdict
        assert one.verdict.is_right is other.verdict.is_right is False
        assert one.verdict.text.endswith(f": {asked.total}. Thank you.")
        assert other.verdict.text.endswith(": 9. Thank you.")


def test_the_end_is_one_plain_line_without_a_score() -> None:
    talk = played("by text", frozenset({2}))
    assert talk.said[-2:] == ["Thank you.", "That's all eight. Bye for now."]
    (end,) = (row for row in talk.rows if isinstance(row, End))
    assert (end.cells, end.right_first_time, end.reason) == (8, 7, EndReason.FINISHED)


# ---- without help ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("command", [Command.HELP, Command.DONT_KNOW, Command.SKIP])
def test_who_does_not_know_goes_on_without_help(command: Command) -> None:
    talk = begun(Ear.TEXT)
    for _ in SUMS:
        talk.type(Given(command))
    assert talk.finished
    asks = [row for row in talk.rows if isinstance(row, Ask)]
    assert [cell_of(ask) for ask in asks] == list(talk.plan.activities[0].cells)
    assert all(ask.part is Part.WHOLE and ask.support in UNAIDED for ask in asks)
    assert not talk.answers
    assert talk.said.count("We'll leave that one.") == 8
    assert talk.said[-1] == "That's all eight. Bye for now."


def test_nothing_is_asked_twice_nor_in_another_order() -> None:
    talk = begun(Ear.TEXT)
    for line in ("27", "help", "go back", "right", "51", "up", "I don't know", "read this column", "1", "2", "3", "4"):
        talk.type(line)
    assert talk.finished
    asked = [cell_of(row) for row in talk.rows if isinstance(row, Ask)]
    assert asked == list(talk.plan.activities[0].cells)


def test_every_row_says_that_it_is_a_probe() -> None:
    assert {row.purpose for row in played("by voice", frozenset({1, 2})).answers} == {Purpose.PROBE}


# ---- what is allowed -------------------------------------------------------------------------------------


def test_hearing_it_again_waiting_and_slower() -> None:
    talk = begun(Ear.TEXT)
    talk.type("27")
    question = talk.said[-1]
    for line in ("say that again", "slower please"):
        talk.type(line)
        assert talk.said[-1] == question
    talk.type("please wait")
    talk.type("go on")
    assert talk.said[-1] == question
    talk.type("61")
    assert [answer.support for answer in talk.answers] == ["independent", "repeated"]


def test_stop_means_stop_and_the_next_start_asks_the_same() -> None:
    talk = begun(Ear.TEXT)
    talk.type("26")
    question = talk.said[-1]
    talk.type("stop")
    assert talk.said[-1] == "We'll stop there. One done. Bye for now."
    again = talk.again()
    again.begin()
    assert again.said == [question]


def test_what_is_said_back_wrongly_is_put_right_in_the_pause() -> None:
    talk = begun()
    hear(talk, "twenty-six")
    talk.hear("no, twenty-seven")
    talk.wait()
    talk.wait()
    assert [(answer.given, answer.support) for answer in talk.answers] == [(27, "independent")]


@pytest.mark.parametrize("ear", [Ear.OPEN, Ear.TEXT])
def test_the_last_answer_can_be_taken_back_while_the_next_sum_is_asked(ear: Ear) -> None:
    talk = begun(ear)
    talk.type("26")
    talk.type(Given(Command.NOT_WHAT_I_SAID))
    assert talk.said[-1] == "Twenty-three add four."
    talk.type("27")
    assert talk.said[-1] == "Fifty-four add seven."
    assert [answer.given for answer in talk.answers] == [27]
    assert sum(isinstance(row, Void) for row in talk.rows) == 1


def test_after_a_sum_that_was_left_a_number_is_about_the_sum_that_is_asked() -> None:
    talk = begun(Ear.TEXT)
    talk.type("26")
    talk.type("I don't know")
    talk.type(Number(93, objecting=True))
    assert [(answer.start, answer.given) for answer in talk.answers] == [(23, 26), (86, 93)]


def test_the_adults_turn_changes_nothing() -> None:
    talk = begun()
    question = talk.said[-1]
    rows = list(talk.rows)
    talk.adult_takes()
    talk.hear("twenty-seven")
    talk.adult_gives()
    assert talk.said[-1] == question
    assert talk.rows == rows


# ---- whatever a pupil does ---------------------------------------------------------------------------------


PLACES: dict[str, tuple[Meaning, ...]] = {
    "first": (),
    "second": (Number(26),),
    "after one that was left": (Number(27), Given(Command.HELP)),
    "last": tuple(Number(asked.total) for asked in SUMS[:-1]),
    "paused": (Given(Command.WAIT),),
}


def at(place: str, ear: Ear) -> Talk:
    talk = begun(ear)
    for meaning in PLACES[place]:
        talk.type(meaning)
    return talk


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("ear", Ear)
def test_a_key_or_a_line_is_answered(place: str, ear: Ear) -> None:
    for meaning in MEANINGS:
        talk = at(place, ear)
        effects = talk.type(meaning)
        if ear is Ear.PRESS and meaning == Given(Command.HUSH):
            continue  # nothing is being said and no ear is open: silence is the answer
        assert is_answered(talk, effects), meaning
        assert all(isinstance(row, Ask | Answer | Void | End) for row in talk.rows)
        assert {row.part for row in talk.rows if isinstance(row, Ask | Answer)} == {Part.WHOLE}


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("certainty", [0.4, 0.9])
def test_speech_is_answered(place: str, certainty: float) -> None:
    for meaning in MEANINGS:
        talk = at(place, Ear.OPEN)
        open_ear(talk)
        talk.hear(meaning, certainty)
        effects = talk.wait()
        assert is_answered(talk, effects) or (isinstance(meaning, Unclear) and not is_dead(talk)), meaning


# ---- cut anywhere --------------------------------------------------------------------------------------------


@pytest.mark.parametrize("way", WAYS)
def test_killed_after_every_answer_it_goes_on_with_the_same_rows(way: str) -> None:
    wrong = frozenset({1, 4, 5})
    killed, whole = played(way, wrong, killed=True), played(way, wrong)
    if way == "heard unsurely":  # the keys are offered once a run
        assert [(row.given, row.could_be) for row in killed.answers] == [
            (row.given, row.could_be) for row in whole.answers
        ]
    else:
        assert without_ids(killed.rows) == without_ids(whole.rows)


LINES: tuple[str | Meaning, ...] = (
    *("26", "what", "say that again", "61", Given(Command.NOT_WHAT_I_SAID), "51", "help", "slower please", "40", "12"),
    *(Number(10, objecting=True), Choice(True), "skip", "71", "3"),
)


def test_cut_after_any_row_the_same_question_is_asked_in_the_same_words() -> None:
    for cut in range(len(LINES)):
        talk = begun(Ear.TEXT)
        for line in LINES[:cut]:
            talk.type(line)
        again = talk.again()
        again.begin()
        asked = next(text for text in reversed(talk.said) if not text.startswith("A number, please"))
        assert again.said[-1] == asked
        assert (again.state.progress, again.rows) == (talk.state.progress, talk.rows)
        for line in LINES[cut:]:
            talk.type(line)
            again.type(line)
        assert without_ids(again.rows) == without_ids(talk.rows)
        assert again.finished == talk.finished


def test_any_cut_of_the_rows_folds_to_the_state_it_had() -> None:
    talk = begun(Ear.TEXT)
    states = [talk.state.progress]
    rows: list[Row] = list(talk.rows)
    for line in LINES:
        talk.type(line)
        if talk.rows != rows:
            rows = list(talk.rows)
            states.append(talk.state.progress)
    for state in states:
        assert folded(talk.rows[: state.kept]) == state
