"""The words of the question that stands, from the kept rows alone: so they are the same after any stop."""

from dataclasses import dataclass, replace

from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Order
from saythesum.core.records.rows import Answer, Ask, End, Reason, Support
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
    """The words of the last live question. A repeated one has the words it had the first time."""
    asks = [row for row in progress.live if isinstance(row, Ask)]
    at = len(asks) - 1
    while at > 0 and asks[at].support is Support.REPEATED:
        at -= 1
    ask = asks[at]
    before = asks[at - 1] if at else None
    asked = plan.sum_at(cell_of(ask))
    if ask.because is None or isinstance(ask.because, Reason):
        if ask.part is Part.WHOLE:
            return _new_place(plan, progress, ask, before)
        return _called_help(asked, ask, before)
    answer = progress.answer(ask.because)
    assert answer is not None, "a live question leads back to live answers only"
    if answer.right:
        return _after_right_part(asked, ask, answer, is_ten_asked=_is_ten_asked(progress))
    return _after_wrong(asked, ask, answer, before)


def _new_place(plan: Plan, progress: Progress, ask: Ask, before: Ask | None) -> Question:
    asked = plan.sum_at(cell_of(ask))
    if not plan.aim.has_grid:
        return Question(_one_by_one(plan, before), (say.AskWhole(asked),))
    if before is None:
        return Question((say.GridIntro(plan.grid.starts, plan.grid.amounts),), (say.AskWhole(asked),))
    if _is_come_back_to(progress, ask):
        return Question((say.BackToOneLeft(),), (say.AskWhole(asked, is_same_row=before.row == ask.row),))
    if before.row != ask.row:
        opening = (say.NewRow(asked.start),) if _is_new_row(plan, progress, ask) else ()
        return Question(opening, (say.AskWhole(asked),))
    is_same_row = before.column != ask.column and not _is_end_between(progress, before, ask)
    is_next = is_same_row and before.column + 1 == ask.column
    return Question((say.NextAlong(),) if is_next else (), (say.AskWhole(asked, is_same_row=is_same_row),))


def _one_by_one(plan: Plan, before: Ask | None) -> tuple[say.Message, ...]:
    match plan.aim:
        case Aim.PROBE if before is None:
            return (say.ProbeIntro(len(plan.cells)),)
        case Aim.FIND_OUT if before is None:
            return (say.FindOutIntro(MOST),)
        case _:
            return ()


def _is_new_row(plan: Plan, progress: Progress, ask: Ask) -> bool:
    """Down the side is a new row for every question, and a row come back to is not new."""
    is_by_rows = plan.grid.order is Order.ROWS and ask.because is not Reason.MOVED
    before = progress.live[: progress.live.index(ask)]
    return is_by_rows and not any(isinstance(row, Ask) and row.row == ask.row for row in before)


def _is_come_back_to(progress: Progress, ask: Ask) -> bool:
    """By the tool: whoever moves there knows."""
    before = progress.live[: progress.live.index(ask)]
    is_known = any(isinstance(row, Ask) and cell_of(row) == cell_of(ask) for row in before)
    is_left = any(isinstance(row, Ask) and cell_of(row) != cell_of(ask) for row in before)
    return is_known and is_left and ask.because is not Reason.MOVED


def _is_end_between(progress: Progress, before: Ask, ask: Ask) -> bool:
    between = progress.live[progress.live.index(before) : progress.live.index(ask)]
    return any(isinstance(row, End) for row in between)


def _is_ten_asked(progress: Progress) -> bool:
    return any(isinstance(row, Ask) and row.part is Part.NEXT_TEN for row in progress.visit)


def _called_help(asked: Sum, ask: Ask, before: Ask | None) -> Question:
    if ask.support is Support.MODELLED:
        return Question((), (say.Worked(asked),))
    if ask.support is Support.FIRST_STEP and before:
        return _part_done_for_them(asked, ask, before)
    has_steps = ask.part is not Part.TOTAL
    opening: tuple[say.Message, ...] = (say.StepByStep(),) if has_steps else ()
    if ask.because is Reason.DONT_KNOW:
        opening = (say.ThatsFine(has_steps),)
    return Question(opening, (_part_question(asked, ask.part),))


def _after_right_part(asked: Sum, ask: Ask, answer: Answer, *, is_ten_asked: bool) -> Question:
    if ask.support is Support.MODELLED:
        return Question((), (say.Worked(asked),))
    match answer.part:
        case Part.NEXT_TEN:
            return Question((say.TenGiven(asked.next_ten),), (say.AskGap(asked, is_ten_just_said=True),))
        case Part.GAP if asked.kind is Kind.CROSSING:
            rest = say.AskRest(asked.amount, is_gap_just_said=True, is_ten_by_pupil=is_ten_asked)
            return Question((say.GapGiven(asked, is_ten_by_pupil=is_ten_asked),), (rest,))
        case Part.GAP:
            return Question((say.GapGiven(asked, is_ten_by_pupil=False),), (say.AskTotal(asked),))
        case Part.ONES:
            return Question((say.OnesGiven(answer.given),), (say.AskTotal(asked),))
        case _:
            return Question((), (say.AskTotal(asked),))


def _after_wrong(asked: Sum, ask: Ask, answer: Answer, before: Ask | None) -> Question:
    verdict: tuple[say.Message, ...] = (say.NotYet(),) if answer.part in CLOSING_PARTS else ()
    if ask.support is Support.MODELLED:
        return Question(verdict, (say.Worked(asked),))
    if before and before.part is not ask.part and before.part not in CLOSING_PARTS:
        done = _part_done_for_them(asked, ask, before)
        return Question(verdict + done.opening, done.asking)
    telling = _told_of(ask, answer, before)
    if ask.support is Support.ENCOURAGED:
        return Question((*verdict, *telling, say.LookAgain()), (say.AskWhole(asked),))
    is_again = before is not None and before.part is ask.part
    if ask.part is Part.GAP and not is_again and names_the_ten(telling):
        return Question(verdict + telling, (say.AskGap(asked, is_ten_just_told=True),))
    if ask.part is Part.GAP and is_ones_for_gap(asked, answer.part, answer.given):
        return Question(telling, (say.AskBond(asked.ones),))
    return Question(verdict + telling, (_part_question(asked, ask.part, is_again=is_again),))


def _told_of(ask: Ask, answer: Answer, before: Ask | None) -> tuple[say.Message, ...]:
    """What help says of a wrong whole answer belongs to the question that it leads to; elsewhere how it stands."""
    if answer.part is not Part.WHOLE:
        return about_part(answer.sum, answer.part, answer.given)
    help = first_help(answer)
    is_its_question = help.part is ask.part and not _is_guided(before)
    return help.telling if is_its_question else how_it_stands(answer.sum, answer.given)


def _is_guided(ask: Ask | None) -> bool:
    return ask is not None and ask.part is not Part.WHOLE


def _part_done_for_them(asked: Sum, ask: Ask, before: Ask) -> Question:
    match before.part:
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
