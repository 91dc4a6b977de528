"""Back to the fact that broke, and forward to the sums again."""

import pytest

from saythesum.core.grids.grid import Grid
from saythesum.core.records.rows import Ask, End, Form
from saythesum.core.sums import ExerciseName, Part
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.stack import OfferingFacts
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.dialogue.tutor.progress import cell_of
from saythesum.settings import Settings, Wording
from tests.talk import PRACTICE, Talk

TO_THE_OFFER = ("45", "3", "3", "43")


def ferry(ear: Ear = Ear.TEXT, *, amounts: tuple[int, ...] = (5, 8, 3)) -> Talk:
    grid = Grid("Seats on the ferry", (38,), amounts)
    return Talk(planned(PRACTICE, [activity(grid, 0)], Settings(wording=Wording(length="short"))), ear)


def told(talk: Talk, *lines: str) -> list[str]:
    """What is said after the last of these."""
    before = 0
    for line in lines:
        before = len(talk.said)
        talk.type(line)
    return talk.said[before:]


@pytest.fixture
def offered() -> Talk:
    talk = ferry()
    talk.begin()
    assert told(talk, *TO_THE_OFFER) == ["Yes. Two, then three.", "Let's make some tens first. Yes or no?"]
    return talk


def test_to_the_bond_that_broke_first_and_after_four_back_to_the_sums(offered: Talk) -> None:
    said = [told(offered, "yes")]
    for _ in range(4):
        ask = offered.state.progress.ask
        assert ask is not None
        assert ask.exercise is ExerciseName.BOND
        said.append(told(offered, str(offered.plan.exercise_at(cell_of(ask)).total)))
    assert said[0] in (["Eight and how many make ten?"], ["Two and how many make ten?"])
    assert said[-1] == ["Yes.", "Back to the sums.", "Thirty-eight add eight."]
    assert told(offered, "46", "41") == ["Yes.", "That's all three done. Bye for now."]
    end = offered.rows[-1]
    assert isinstance(end, End)
    assert (end.cells, end.right_first_time) == (3, 2), "the bonds are no sums of the grid"


@pytest.mark.parametrize("line", ["no", "I don't know", "skip this one"])
def test_whoever_does_not_want_to_goes_on_with_the_next_sum(offered: Talk, line: str) -> None:
    assert told(offered, line) == ["Thirty-eight add eight."]
    assert not any(isinstance(row, Ask) and row.exercise is ExerciseName.BOND for row in offered.rows)


def test_stop_at_the_offer_stops(offered: Talk) -> None:
    assert told(offered, "stop") == ["We'll stop there. One done. Bye for now."]


def test_said_again_it_is_offered_again(offered: Talk) -> None:
    assert told(offered, "say that again") == ["Making ten. Yes or no?"]


def test_by_keys_alone_enter_is_the_yes() -> None:
    talk = ferry(Ear.KEYS)
    talk.begin()
    told(talk, *TO_THE_OFFER)
    before = len(talk.said)
    talk.press()
    assert talk.said[before:] in (["Eight and how many make ten?"], ["Two and how many make ten?"])


def test_one_miss_leads_nowhere() -> None:
    talk = ferry()
    talk.begin()
    assert told(talk, "45", "3", "2", "3", "43") == ["Yes. Two, then three.", "Thirty-eight add eight."]


def test_two_misses_in_two_sums_lead_back_after_the_second() -> None:
    talk = ferry()
    talk.begin()
    told(talk, "45", "3", "2", "3", "43")
    assert told(talk, "help me", "40", "3", "2", "6", "46")[-1] == "Let's make some tens first. Yes or no?"


def test_after_the_last_sum_nothing_is_offered() -> None:
    talk = ferry(amounts=(5,))
    talk.begin()
    assert told(talk, *TO_THE_OFFER)[-1] == "That one's done. Bye for now."


def test_a_wrong_bond_is_helped_with_and_leads_to_no_further_offer(offered: Talk) -> None:
    told(offered, "yes")
    ask = offered.state.progress.ask
    assert ask is not None
    bond = offered.plan.exercise_at(cell_of(ask))
    assert told(offered, "9")[0] == "Not yet."
    assert told(offered, "9")[0] == "Not yet."
    assert told(offered, str(bond.total))[0] == "Yes."
    assert not isinstance(offered.state.talk.topics[-1], OfferingFacts)


def test_how_many_more_counts_the_few_bonds(offered: Talk) -> None:
    told(offered, "yes")
    assert told(offered, "how many more")[0] == "None done yet, four more."


def test_killed_after_any_row_it_goes_on_with_the_same_words(offered: Talk) -> None:
    told(offered, "yes")
    for _ in range(6):
        ask = offered.state.progress.ask
        assert ask is not None
        asked = offered.said[-1]
        again = offered.again()
        again.begin()
        assert again.said[-1] == asked
        told(offered, str(offered.plan.exercise_at(cell_of(ask)).total))


def test_killed_at_the_offer_it_is_offered_again_and_after_a_no_it_is_not(offered: Talk) -> None:
    again = offered.again()
    again.begin()
    assert again.said == ["Let's make some tens first. Yes or no?"]
    assert told(again, "no") == ["Thirty-eight add eight."]
    third = again.again()
    third.begin()
    assert third.said[-1] == "Thirty-eight add eight."


def test_an_answer_taken_back_takes_the_bond_with_it(offered: Talk) -> None:
    told(offered, "yes")
    assert told(offered, "not what I said")[-1] == "Forty and three?", "the total is asked again, and no bond stands"


def test_back_at_the_sums_the_row_says_so(offered: Talk) -> None:
    told(offered, "yes")
    while (ask := offered.state.progress.ask) and ask.exercise is ExerciseName.BOND:
        told(offered, str(offered.plan.exercise_at(cell_of(ask)).total))
    assert ask is not None
    assert (ask.form, ask.part, ask.column) == (Form.BACK_TO_SUMS, Part.WHOLE, 1)
