"""A talk about a pattern: what it asks next and in which words, from its kept rows alone.

The pattern and its moves follow from the grid and from what a question's row names; so the words are the same after any
stop. Hints go from vague to plain; after two misses the tool shows it and goes on.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Cell
from saythesum.core.meanings import HowHeard, Number
from saythesum.core.patterns import remarks
from saythesum.core.patterns.moves import Talk, pattern_named, talk_about
from saythesum.core.patterns.questions import Kept, OwnStart, Question
from saythesum.core.records.rows import Answer, Ask, End, EndReason, Form, Reason, RowId, Settled, Support
from saythesum.core.sums import ExerciseName, Part
from saythesum.dialogue import messages as say
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import Progress, answers_in
from saythesum.learner.worth_finding import Talked, WorthFinding, worth_finding

MOST_MISSES = 2
MOST_DONT_KNOWS = 3
"""So many one after the other, and the pupil is thanked and let go: our own choice."""
LEAST_OFFERED = 2
"""Rows, and columns: in a smaller grid little stays the same."""


# ---- which pattern


def found_in(plan: Plan, progress: Progress, activity: int) -> WorthFinding | None:
    """The pattern worth talking about in this activity's grid. Only numbers that the pupil has found are read out."""
    of_grid = _practised(plan, activity)
    if plan.activities[activity].grid.is_one_by_one:
        return None
    return worth_finding(
        plan.activities[activity].grid,
        progress.live,
        (*plan.talked, *_talked_here(plan, progress)),
        plan.began_at.date(),
        activity=of_grid,
        readable={Cell(cell.row, cell.column) for cell in progress.closed if cell.activity == of_grid},
    )


def _practised(plan: Plan, activity: int) -> int:
    """The activity in which a talk's grid was practised: its own, or the nearest before it with the same grid."""
    grid = plan.activities[activity].grid
    before = [(at, plan.activities[at]) for at in reversed(range(activity + 1))]
    return next((at for at, one in before if one.has_grid and one.grid == grid), activity)


def _talked_here(plan: Plan, progress: Progress) -> Iterator[Talked]:
    for row in progress.talked:
        if isinstance(row, Ask) and row.about is not None:
            yield Talked(row.about, row.lines, plan.began_at.date())


def why_none(plan: Plan, progress: Progress, activity: int) -> say.WhyNoPattern:
    grid = plan.activities[activity].grid
    if grid.is_one_by_one:
        return say.WhyNoPattern.NO_GRID
    if len(grid.starts) * len(grid.amounts) == 1:
        return say.WhyNoPattern.ONE_SUM
    if progress.closed_in(_practised(plan, activity)) < len(grid.starts) * len(grid.amounts):
        return say.WhyNoPattern.NOT_YET
    return say.WhyNoPattern.NO_OTHER


def is_worth_offering(plan: Plan, progress: Progress, activity: int) -> bool:
    """Once, after a grid of some size whose every sum was answered; not where the plan has a talk about it anyway."""
    of = plan.activities[activity]
    if not plan.settings.patterns.offer or not of.has_grid or progress.has_talked_about(activity):
        return False
    if min(len(of.grid.starts), len(of.grid.amounts)) < LEAST_OFFERED:
        return False
    if any(one.aim is Aim.TALK and one.grid == of.grid for one in plan.activities):
        return False
    is_finished_before = any(isinstance(row, End) and row.reason is EndReason.FINISHED for row in progress.live)
    is_all_answered = progress.answered_in({activity}) == len(of.cells)
    return is_all_answered and not is_finished_before and found_in(plan, progress, activity) is not None


# ---- what is asked next


@dataclass(frozen=True, slots=True)
class Over:
    """The talk has come to its end."""

    said: tuple[say.Message, ...]


def first_of_talk(plan: Plan, progress: Progress, activity: int, found: WorthFinding) -> Ask:
    return Ask(
        plan.next_id(progress.kept),
        None,
        None,
        Part.LISTEN,
        Support.INDEPENDENT,
        None,
        activity=activity,
        exercise=ExerciseName.PATTERN,
        form=Form.FRESH,
        about=found.pattern.name,
        lines=found.pattern.lines,
    )


def next_in_talk(plan: Plan, progress: Progress) -> Ask | Over | None:
    """None where the question stands."""
    talk, last = standing_talk(plan, progress), progress.talked[-1]
    if talk is None:
        return Over(())  # a pattern that this version does not find
    if isinstance(last, Ask):
        return None
    if last.right:
        return _after_right(plan, progress, talk, last)
    return helped_in_talk(plan, progress, last.id)


def gone_on_in_talk(plan: Plan, progress: Progress) -> Ask | Over:
    """After a move in which nothing was asked; after "why" the tool says the reason."""
    talk, ask = _now(plan, progress)
    move = talk.after(ask.part)
    if move is not None:
        return _asked(plan, progress, move.part, None, Form.FRESH)
    return Over((remarks.Because(talk.pattern),) if ask.part is Part.WHY else ())


def helped_in_talk(plan: Plan, progress: Progress, because: RowId | Reason) -> Ask | Over:
    """A hint, or the tool shows it and goes on. A pupil who knows nothing to say is let go."""
    talk, ask = _now(plan, progress)
    if because is Reason.DONT_KNOW and _dont_knows(progress) + 1 >= MOST_DONT_KNOWS:
        return Over((remarks.Shown(_question(progress, talk, ask)), say.PatternThanks()))
    misses, hints = _misses(progress), _hints(progress)
    if isinstance(because, Reason) and hints < len(_HINTS):
        return _asked(plan, progress, ask.part, because, Form.CALLED, _HINTS[hints])
    if not isinstance(because, Reason) and misses < MOST_MISSES:
        return _asked(plan, progress, ask.part, because, Form.AGAIN, Support.ASKED)
    move = talk.after(ask.part)
    if move is not None:
        return _asked(plan, progress, move.part, because, Form.STEP_DONE)
    verdict: tuple[say.Message, ...] = () if isinstance(because, Reason) else (say.NotYet(),)
    return Over((*verdict, remarks.Shown(_question(progress, talk, ask)), say.PatternOver()))


_HINTS = (Support.ENCOURAGED, Support.ASKED)
"""The levels of the vague hint and of the plain one."""


def _after_right(plan: Plan, progress: Progress, talk: Talk, answer: Answer) -> Ask | Over:
    own = [row for row in answers_in(progress.talk) if row.part is Part.MAKE_ONE and row.right]
    if own == [answer]:  # the pupil's start; now its row is filled
        return _asked(plan, progress, Part.MAKE_ONE, answer.id, Form.AFTER_RIGHT)
    move = talk.after(answer.part)
    if move is not None:
        return _asked(plan, progress, move.part, answer.id, Form.AFTER_RIGHT)
    question = _question(progress, talk, _now(plan, progress)[1])
    return Over((remarks.RightMove(answer.part, question, talk.pattern), say.PatternOver()))


def _asked(  # noqa: PLR0917
    plan: Plan,
    progress: Progress,
    part: Part,
    because: RowId | Reason | None,
    form: Form,
    support: Support = Support.INDEPENDENT,
) -> Ask:
    ask = progress.talk_ask
    assert ask is not None, "a talk begins with a question"
    return replace(ask, id=plan.next_id(progress.kept), part=part, because=because, form=form, support=support)


def _since_asked(progress: Progress) -> list[Ask | Answer]:
    """The rows since the question that stands was asked first."""
    rows: list[Ask | Answer] = []
    for row in reversed(progress.talk):
        rows.append(row)
        if isinstance(row, Ask) and row.form in (Form.FRESH, Form.AFTER_RIGHT, Form.STEP_DONE):
            break
    return rows


def _misses(progress: Progress) -> int:
    """An unsure hearing is no miss."""
    return sum(not row.right and row.is_relied_on for row in answers_in(_since_asked(progress)))


def _hints(progress: Progress) -> int:
    return sum(isinstance(row, Ask) and row.form in (Form.CALLED, Form.AGAIN) for row in _since_asked(progress))


def _dont_knows(progress: Progress) -> int:
    """One after the other, up to now."""
    count = 0
    for row in reversed(progress.talk):
        if isinstance(row, Answer):
            break
        count += row.because is Reason.DONT_KNOW and row.support is not Support.REPEATED
    return count


# ---- the words


@dataclass(frozen=True, slots=True)
class TalkQuestion:
    opening: tuple[say.Message, ...]
    asking: tuple[say.Message, ...]


def talk_question(plan: Plan, progress: Progress) -> TalkQuestion:
    """The words of the talk's question that stands, from its row."""
    talk, ask = _now(plan, progress)
    return TalkQuestion(_opening(progress, talk, ask), (_asking(progress, talk, ask),))


def _asking(progress: Progress, talk: Talk, ask: Ask) -> say.Message:
    if ask.part is Part.LISTEN:
        return remarks.ListenTo(talk.heard)
    if ask.part is Part.WHY:
        return remarks.AskWhy()
    leans = ask.form in (Form.AFTER_RIGHT, Form.STEP_DONE)
    return remarks.AskMove(ask.part, _question(progress, talk, ask), leans=leans)


def _opening(progress: Progress, talk: Talk, ask: Ask) -> tuple[say.Message, ...]:
    before = talk.before(ask.part)
    missed = _answer_before(progress, ask)
    match ask.form:
        case Form.FRESH if before and before.part is Part.WHY:
            return (remarks.Because(talk.pattern),)
        case Form.AFTER_RIGHT:
            answered = talk.at(missed.part if missed else ask.part)
            assert answered is not None and answered.question is not None, "an answer is to a move that asks"
            return (remarks.RightMove(answered.part, answered.question, talk.pattern),)
        case Form.AGAIN if missed is not None:
            question = _question(progress, talk, ask)
            return (say.NotYet(), remarks.OfGiven(question, missed.given), remarks.Hint(question, is_plain=True))
        case Form.CALLED:
            hint = remarks.Hint(_question(progress, talk, ask), is_plain=ask.support is Support.ASKED)
            return (*_fine(ask), hint)
        case Form.STEP_DONE:
            assert before is not None and before.question is not None, "what was shown is an asking move"
            verdict: tuple[say.Message, ...] = (say.NotYet(),) if missed else _fine(ask)
            return (*verdict, remarks.Shown(before.question))
        case _:
            return ()


def _fine(ask: Ask) -> tuple[say.Message, ...]:
    return (say.ThatsFine(has_steps=False),) if ask.because is Reason.DONT_KNOW else ()


def _answer_before(progress: Progress, ask: Ask) -> Answer | None:
    """The answer that the question was asked because of."""
    return next((row for row in answers_in(progress.talk) if row.id == ask.because), None)


def standing_talk(plan: Plan, progress: Progress) -> Talk | None:
    ask = progress.talk_ask
    assert ask is not None and ask.about is not None, "a talk's questions name their pattern"
    grid = plan.activity_on(ask).grid
    pattern = pattern_named(grid, ask.about, ask.lines)
    return talk_about(grid, pattern) if pattern else None


def standing_move(plan: Plan, progress: Progress) -> tuple[Talk, Ask, Question | None]:
    """The talk that goes on, its question's row, and what is asked; None where nothing is."""
    talk, ask = _now(plan, progress)
    is_asking = ask.part not in (Part.LISTEN, Part.WHY)
    return talk, ask, _question(progress, talk, ask) if is_asking else None


def moves_left(plan: Plan, progress: Progress) -> int:
    """The one that stands included."""
    talk, ask = _now(plan, progress)
    parts = [move.part for move in talk.moves]
    return len(parts) - parts.index(ask.part)


def _now(plan: Plan, progress: Progress) -> tuple[Talk, Ask]:
    talk, ask = standing_talk(plan, progress), progress.talk_ask
    assert talk is not None and ask is not None, "what goes on is a talk about a pattern of its grid"
    return talk, ask


def _question(progress: Progress, talk: Talk, ask: Ask) -> Question:
    move = talk.at(ask.part)
    assert move is not None and move.question is not None, "this move asks nothing"
    start = _own_start(progress) if move.fill else None
    return move.fill(start) if move.fill and start is not None else move.question


def _own_start(progress: Progress) -> int | None:
    """The start that the pupil has named."""
    return next((row.given for row in answers_in(progress.talk) if row.part is Part.MAKE_ONE and row.right), None)


# ---- what is kept


def answer_in_talk(plan: Plan, progress: Progress, number: Number, how: HowHeard, settled: Settled) -> Answer:
    """It belongs to no cell, and counts as evidence of nothing but the talk."""
    talk, ask = _now(plan, progress)
    question = _question(progress, talk, ask)
    is_right = question.is_right(number.value)
    is_own = isinstance(question, OwnStart) and is_right
    kept = Kept(number.value, 0, "add") if is_own else question.kept
    return Answer(
        id=plan.next_id(progress.kept),
        row=None,
        column=None,
        start=kept.start,
        amount=kept.amount,
        part=ask.part,
        right_answer=number.value if is_own else question.right,
        given=number.value,
        right=is_right,
        support=ask.support,
        tries=len(answers_in(_since_asked(progress))) + 1,
        certainty=number.certainty,
        close_to=number.close_to,
        heard=how.id,
        took_ms=None if ask.support is Support.REPEATED else how.took_ms,
        could_be=(),
        by=how.by,
        settled=settled,
        sure=number.sure,
        operation=kept.operation,
        purpose=plan.activity_on(ask).aim.purpose,
        activity=ask.activity,
        exercise=ask.exercise,
    )
