"""Another way than through the ten: by settings, or where that has not helped twice; and which way is kept."""

from saythesum.core.grids.grid import Grid
from saythesum.core.records.rows import Ask, Form, Way
from saythesum.core.sums import ExerciseName
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.settings import Helping, Settings, Wording
from tests.talk import PRACTICE, Talk


def talk_of(
    starts: tuple[int, ...],
    amounts: tuple[int, ...],
    helping: Helping = Helping(),  # noqa: B008 - a frozen value
) -> Talk:
    grid = Grid("Bags of flour", starts, amounts)
    settings = Settings(wording=Wording(length="short"), helping=helping)
    talk = Talk(planned(PRACTICE, [activity(grid, 0)], settings), Ear.TEXT)
    talk.begin()
    return talk


def told(talk: Talk, *lines: str) -> list[str]:
    before = 0
    for line in lines:
        before = len(talk.said)
        talk.type(line)
    return talk.said[before:]


def worked_through(talk: Talk) -> None:
    """Help is called for until the tool says the whole way; the pupil says the answer after it."""
    for _ in range(8):
        told(talk, "help me")
        ask = talk.state.progress.ask
        assert ask is not None
        if ask.form is Form.WORKED:
            told(talk, str(talk.plan.exercise_of(ask).total))
            return
    raise AssertionError("help never ends")


def test_after_two_sums_in_vain_a_nine_is_talked_through_by_ten_and_back() -> None:
    talk = talk_of((47, 58, 36), (9,))
    worked_through(talk)
    worked_through(talk)
    assert told(talk, "46") == ["Not yet.", "Here's another way.", "Thirty-six add ten?"]
    assert told(talk, "46") == ["Forty-six.", "We're adding nine: how many too many?"]
    assert told(talk, "1") == ["One.", "Forty-six take away one?"]
    assert told(talk, "45")[0] == "Yes."
    assert talk.answers[-1].way is Way.COMPENSATED
    assert talk.answers[-1].exercise is ExerciseName.COMPENSATED


def test_once_is_not_enough() -> None:
    talk = talk_of((47, 58), (9,))
    worked_through(talk)
    assert told(talk, "help me")[-1] == "What's the next ten after fifty-eight?"


def test_called_for_it_says_that_all_is_fine() -> None:
    talk = talk_of((38, 47, 28), (5,))
    worked_through(talk)
    worked_through(talk)
    assert told(talk, "I don't know") == ["That's fine.", "Here's another way.", "Eight and five?"]


def test_killed_on_another_way_it_goes_on_with_the_same_words() -> None:
    talk = talk_of((47, 58, 36), (9,))
    worked_through(talk)
    worked_through(talk)
    for line in ("46", "46", "2", "1", "44"):
        said = told(talk, line)[-1]
        again = talk.again()
        again.begin()
        assert again.said[-1] == said


def test_the_settings_way_is_helps_way_and_a_right_answer_needs_none() -> None:
    talk = talk_of((47, 58), (9,), Helping(adding="ten and back"))
    assert told(talk, "help me")[-1] == "Forty-seven add ten?"
    assert told(talk, "56")[0] == "Yes.", "ahead of the steps"
    assert told(talk, "67")[0] == "Yes."


def test_a_near_double_and_counting_on() -> None:
    double = talk_of((37,), (8, 3), Helping(adding="near doubles"))
    assert told(double, "help me")[-1] == "Seven and seven?"
    assert told(double, "14") == ["Fourteen.", "One more: seven and eight?"]
    assert told(double, "15") == ["Fifteen.", "Thirty and fifteen?"]
    assert told(double, "45")[0] == "Yes."
    assert double.answers[-1].way is Way.DOUBLED
    count = talk_of((49,), (3, 8), Helping(adding="counting on"))
    told(count, "help me")
    assert told(count, "50") == ["Fifty.", "And two more?"]
    assert told(count, "52")[0] == "Yes."
    assert count.answers[-1].way is Way.COUNTED


def test_by_way_of_the_ten_is_kept_as_bridged() -> None:
    talk = talk_of((47,), (5, 8))
    assert told(talk, "help me", "50", "3", "2", "52")[0] == "Yes."
    assert talk.answers[-1].way is Way.BRIDGED


def test_a_step_that_is_missed_twice_is_done_and_the_next_is_asked() -> None:
    talk = talk_of((47,), (9, 5), Helping(adding="ten and back"))
    told(talk, "help me", "58")
    done = told(talk, "58")
    assert done == ["I'll do this bit. Forty-seven add ten is fifty-seven.", "We're adding nine: how many too many?"]
    asks = [row for row in talk.rows if isinstance(row, Ask)]
    assert {ask.exercise for ask in asks} == {ExerciseName.COMPENSATED}
