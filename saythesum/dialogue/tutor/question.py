"""The words of the question that stands, from its row alone: so they are the same after any stop."""

from dataclasses import dataclass, replace

from saythesum.core.aims import Aim
from saythesum.core.records.rows import Answer, Ask, Form, Reason
from saythesum.core.sums import CLOSING_PARTS, Kind, Part, Sum
from saythesum.dialogue import messages as say
from saythesum.dialogue.tutor.feedback import first_help, how_it_stands, names_the_ten
from saythesum.dialogue.tutor.feedback_on_steps import about_part, is_ones_for_gap
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import Progress, cell_of
from saythesum.learner.assessment.finding_out import MOST


@dataclass(frozen=True, slots=True)
class Question:
    opening: tuple[say.Message, ...]
    """Why it is asked: the verdict, a true thing about the number, the way to a new place."""
    asking: tuple[say.Message, ...]

    @property
    def whole(self) -> tuple[say.Message, ...]:
        return self.opening + self.asking

    @property
    def again(self) -> tuple[say.Message, ...]:
        """The same words on request, but for the verdict: heard once more it would be a second miss."""
        return tuple(message for message in self.whole if not isinstance(message, say.NotYet))

    @property
    def alone(self) -> tuple[say.Message, ...]:
        """What is asked, in words that lean on nothing said before: "One of six done. How many are left?" is another
        question."""
        return tuple(_alone(message) for message in self.asking)


def _alone(message: say.Message) -> say.Message:
    match message:
        case say.AskGap():
            return replace(message, is_ten_just_said=False, is_ten_just_told=False)
        case say.AskRest(amount=amount):
            return say.AskRest(amount)
        case _:
            return message


def standing_question(plan: Plan, progress: Progress) -> Question:
    """The words of the last live question: they follow from its row and from the answer that it was asked because of.

    So a repeated question has the words it had the first time.
    """
    ask = progress.ask
    assert ask is not None, "a practice begins with a question"
    asked = plan.sum_at(cell_of(ask))
    if ask.because is None or isinstance(ask.because, Reason):
        return _asked_unprompted(plan, ask, asked)
    answer = progress.answer(ask.because)
    assert answer is not None, "a live question leads back to live answers only"
    return _asked_after(answer, ask, asked)


def _asked_unprompted(plan: Plan, ask: Ask, asked: Sum) -> Question:
    """A new place, or help that was called for: no answer led there."""
    whole, whole_in_row = say.AskWhole(asked), say.AskWhole(asked, is_same_row=True)
    match ask.form:
        case Form.FIRST:
            return Question((_introduction(plan),), (whole,))
        case Form.NEW_ROW:
            return Question((say.NewRow(asked.start),), (whole,))
        case Form.NEXT_ALONG:
            return Question((say.NextAlong(),), (whole_in_row,))
        case Form.SAME_ROW:
            return Question((), (whole_in_row,))
        case Form.BACK:
            return Question((say.BackToOneLeft(),), (whole,))
        case Form.BACK_IN_ROW:
            return Question((say.BackToOneLeft(),), (whole_in_row,))
        case Form.CALLED:
            return _called_help(ask, asked)
        case Form.STEP_DONE:
            return _step_done(ask, asked)
        case Form.WORKED:
            return Question((), (say.Worked(asked),))
        case _:
            return Question((), (whole,))


def _introduction(plan: Plan) -> say.Message:
    match plan.aim:
        case Aim.PRACTISE:
            return say.GridIntro(plan.grid.starts, plan.grid.amounts)
        case Aim.PROBE:
            return say.ProbeIntro(len(plan.cells))
        case Aim.FIND_OUT:
            return say.FindOutIntro(MOST)


def _called_help(ask: Ask, asked: Sum) -> Question:
    has_steps = ask.part is not Part.TOTAL
    opening: tuple[say.Message, ...] = (say.StepByStep(),) if has_steps else ()
    if ask.because is Reason.DONT_KNOW:
        opening = (say.ThatsFine(has_steps),)
    return Question(opening, (_part_question(asked, ask.part),))


def _asked_after(answer: Answer, ask: Ask, asked: Sum) -> Question:
    """Help with a wrong answer, or the next step after a right one."""
    is_missed = answer.part in CLOSING_PARTS and not answer.right
    verdict: tuple[say.Message, ...] = (say.NotYet(),) if is_missed else ()
    match ask.form:
        case Form.AFTER_RIGHT:
            return _after_right_part(answer, ask, asked)
        case Form.STEP_DONE:
            done = _step_done(ask, asked)
            return Question(verdict + done.opening, done.asking)
        case Form.LOOK_AGAIN:
            return Question((*verdict, *_told_of(answer, ask), say.LookAgain()), (say.AskWhole(asked),))
        case Form.WORKED:
            return Question(verdict, (say.Worked(asked),))
        case _:
            return _part_after_wrong(verdict, answer, ask, asked)


def _after_right_part(answer: Answer, ask: Ask, asked: Sum) -> Question:
    is_ten_by_pupil = ask.about == Part.NEXT_TEN
    match answer.part:
        case Part.NEXT_TEN:
            return Question((say.TenGiven(asked.next_ten),), (say.AskGap(asked, is_ten_just_said=True),))
        case Part.GAP if asked.kind is Kind.CROSSING:
            rest = say.AskRest(asked.amount, is_gap_just_said=True, is_ten_by_pupil=is_ten_by_pupil)
            return Question((say.GapGiven(asked, is_ten_by_pupil=is_ten_by_pupil),), (rest,))
        case Part.GAP:
            return Question((say.GapGiven(asked, is_ten_by_pupil=False),), (say.AskTotal(asked),))
        case Part.ONES:
            return Question((say.OnesGiven(answer.given),), (say.AskTotal(asked),))
        case _:
            return Question((), (say.AskTotal(asked),))


def _part_after_wrong(verdict: tuple[say.Message, ...], answer: Answer, ask: Ask, asked: Sum) -> Question:
    telling, is_again = _told_of(answer, ask), ask.form is Form.AGAIN
    if ask.part is Part.GAP and not is_again and names_the_ten(telling):
        return Question(verdict + telling, (say.AskGap(asked, is_ten_just_told=True),))
    if ask.part is Part.GAP and is_ones_for_gap(asked, answer.part, answer.given):
        return Question(telling, (say.AskBond(asked.ones),))
    return Question(verdict + telling, (_part_question(asked, ask.part, is_again=is_again),))


def _told_of(answer: Answer, ask: Ask) -> tuple[say.Message, ...]:
    """What help says of a wrong whole answer belongs to the question that it leads to; elsewhere how it stands."""
    if answer.part is not Part.WHOLE:
        return about_part(answer.sum, answer.part, answer.given)
    help = first_help(answer)
    is_its_question = help.part is ask.part and ask.form is not Form.AGAIN
    return help.telling if is_its_question else how_it_stands(answer.sum, answer.given)


def _step_done(ask: Ask, asked: Sum) -> Question:
    """The tool did the part that the question is about."""
    match ask.about:
        case Part.NEXT_TEN:
            return Question((say.DoNextTen(asked),), (_part_question(asked, ask.part, is_again=True),))
        case Part.GAP:
            return Question((say.DoGap(asked),), (say.AskTotal(asked),))
        case Part.REST:
            return Question((say.DoRest(asked),), (say.AskTotal(asked),))
        case _:
            return Question((say.DoOnes(asked),), (say.AskTotal(asked),))


def _part_question(asked: Sum, part: Part, *, is_again: bool = False) -> say.Message:
    match part:
        case Part.NEXT_TEN:
            return say.AskNextTen(asked.start)
        case Part.GAP:
            return say.AskGap(asked, is_again=is_again)
        case Part.REST:
            return say.AskRest(asked.amount)
        case Part.ONES:
            return say.AskOnes(asked.ones, asked.amount)
        case Part.TOTAL:
            return say.AskTotal(asked)
        case Part.WHOLE:
            return say.AskWhole(asked)
