"""The words of the question that stands, from its row alone: so they are the same after any stop."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from saythesum.core.aims import Aim
from saythesum.core.exercises.exercise import Exercise, Lead, Remark
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import Answer, Ask, Form, Reason
from saythesum.core.sums import CLOSING_PARTS, Hidden, Part
from saythesum.dialogue import messages as say
from saythesum.dialogue.tutor.feedback import kept_help
from saythesum.dialogue.tutor.pattern_talk import talk_question
from saythesum.dialogue.tutor.plan import Activity, Plan
from saythesum.dialogue.tutor.progress import Progress
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
        """The same words on request, without the verdict: heard again, it would sound like a second miss."""
        return tuple(message for message in self.whole if not isinstance(message, say.NotYet))

    @property
    def alone(self) -> tuple[say.Message, ...]:
        """What is asked, in words that lean on nothing said before: "One of six done. How many are left?" is another
        question."""
        return tuple(message.alone if isinstance(message, Remark) else message for message in self.asking)


def standing_question(plan: Plan, progress: Progress) -> Question:
    """The words of the last live question: they follow from its row and from the answer that it was asked because of.

    So a repeated question has the words it had the first time.
    """
    if progress.is_talking:
        in_talk = talk_question(plan, progress)
        return Question(in_talk.opening, in_talk.asking)
    ask = progress.ask
    assert ask is not None, "a practice begins with a question"
    asked = plan.exercise_of(ask)
    if ask.because is None or isinstance(ask.because, Reason):
        return _asked_unprompted(plan, ask, asked)
    answer = progress.answer(ask.because)
    assert answer is not None, "a live question leads back to live answers only"
    return _asked_after(plan, answer, ask, asked)


def _asked_unprompted(plan: Plan, ask: Ask, asked: Exercise) -> Question:
    """A new place, or help that was called for: no answer led there."""
    whole, whole_in_row = say.AskWhole(asked), say.AskWhole(asked, is_same_row=True)
    match ask.form:
        case Form.FIRST:
            return Question((_introduction(plan.activity_on(ask)),), (whole,))
        case Form.NEW_ROW:
            return Question((say.NewRow(asked.start),), (whole,))
        case Form.NEXT_ALONG:
            return Question((say.NextAlong(),), (whole_in_row,))
        case Form.SAME_ROW:
            return Question((), (whole_in_row,))
        case Form.BACK | Form.EASIER | Form.BACK_TO_SUMS:
            return Question((_OPENINGS[ask.form],), (whole,))
        case Form.BACK_IN_ROW:
            return Question((say.BackToOneLeft(),), (whole_in_row,))
        case Form.CALLED:
            return _called_help(ask, asked)
        case Form.OTHER_WAY:
            fine = (say.ThatsFine(has_steps=False),) if ask.because is Reason.DONT_KNOW else ()
            return Question((*fine, say.AnotherWay()), (asked.question_for(ask.part),))
        case Form.STEP_DONE:
            return _step_done(ask, asked)
        case Form.WORKED:
            return Question(along_the_line(plan, asked), (say.Worked(asked),))
        case _:
            return Question((), (whole,))


_OPENINGS: Mapping[Form, say.Message] = {
    Form.BACK: say.BackToOneLeft(),
    Form.EASIER: say.ThisOneFirst(),
    Form.BACK_TO_SUMS: say.BackToSums(),
}


def _introduction(activity: Activity) -> say.Message:
    match activity.aim:
        case Aim.PRACTISE:
            grid = activity.grid
            if grid.is_one_by_one:
                return say.ListIntro(len(activity.cells), is_number_missing=_is_number_missing(activity))
            columns = range(grid.columns)
            return say.GridIntro(grid.starts, tuple(grid.exercise_at(Cell(0, column)) for column in columns))
        case Aim.PROBE:
            return say.ProbeIntro(len(activity.cells))
        case Aim.FIND_OUT:
            return say.FindOutIntro(MOST)
        case Aim.FACTS:
            return say.FactsIntro(activity.grid.exercise_at(activity.cells[0]).name, _most(activity))
        case Aim.TALK:
            raise AssertionError("a talk asks no sums that need an introduction")


def _most(activity: Activity) -> int:
    return min(activity.most or len(activity.cells), len(activity.cells))


def _is_number_missing(activity: Activity) -> bool:
    """In each of its sums."""
    return all(activity.grid.exercise_at(cell).hidden is not Hidden.TOTAL for cell in activity.cells)


def _called_help(ask: Ask, asked: Exercise) -> Question:
    has_steps = ask.part is not Part.TOTAL
    opening: tuple[say.Message, ...] = (say.StepByStep(),) if has_steps else ()
    if ask.because is Reason.DONT_KNOW:
        opening = (say.ThatsFine(has_steps),)
    return Question(opening, (asked.question_for(ask.part),))


def _asked_after(plan: Plan, answer: Answer, ask: Ask, asked: Exercise) -> Question:
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
            return Question((*verdict, *_remarks_on(answer, ask), say.LookAgain()), (say.AskWhole(asked),))
        case Form.TELLING_APART:
            lead = Lead(answer.part, answer.given, mistake=ask.about)
            remarks = asked.before_telling(ask.part, answer.given)
            lead = replace(lead, remarks=remarks)
            return Question(verdict + remarks, (asked.question_for(ask.part, lead),))
        case Form.OTHER_WAY:
            return Question((*verdict, say.AnotherWay()), (asked.question_for(ask.part),))
        case Form.WORKED:
            return Question(verdict + along_the_line(plan, asked), (say.Worked(asked),))
        case _:
            return _part_after_wrong(verdict, answer, ask, asked)


def along_the_line(plan: Plan, asked: Exercise) -> tuple[say.Message, ...]:
    """Where the pupil's settings want it heard, and a line helps."""
    is_heard = plan.settings.helping.number_line != "off" and bool(asked.on_line.jumps)
    return (say.AlongTheLine(asked),) if is_heard else ()


def _after_right_part(answer: Answer, ask: Ask, asked: Exercise) -> Question:
    lead = Lead(answer.part, answer.given, is_right=True, begun_with=Part(ask.about) if ask.about else None)
    return Question(asked.after_right(lead), (asked.question_for(ask.part, lead),))


def _part_after_wrong(verdict: tuple[say.Message, ...], answer: Answer, ask: Ask, asked: Exercise) -> Question:
    remarks = _remarks_on(answer, ask)
    if ask.form is Form.AGAIN:
        begun_with = Part(ask.about) if ask.about else None
        lead = Lead(answer.part, answer.given, remarks=remarks, is_again=True, begun_with=begun_with)
    else:
        lead = Lead(answer.part, answer.given, remarks=remarks, mistake=ask.about)
    return Question(verdict + remarks, (asked.question_for(ask.part, lead),))


def _remarks_on(answer: Answer, ask: Ask) -> tuple[Remark, ...]:
    """The remarks of help belong to the question that help leads to; before any other, how the number compares."""
    asked = answer.asked
    if answer.part is Part.TOTAL and ask.about == Part.ONES:
        return asked.compared(answer.given)
    if answer.part is not Part.WHOLE:
        return asked.about_part(answer.part, answer.given)
    help = kept_help(answer, ask.about if ask.form is not Form.AGAIN else None)
    is_its_question = help.part is ask.part and ask.form is not Form.AGAIN
    return help.remarks if is_its_question else asked.compared(answer.given)


def _step_done(ask: Ask, asked: Exercise) -> Question:
    """The tool did the part that the question is about."""
    assert ask.about is not None, "a question after a step that was done keeps which it was"
    lead = Lead(is_again=True, begun_with=asked.begun({Part(ask.about)}))
    return Question((asked.done(Part(ask.about)),), (asked.question_for(ask.part, lead),))
