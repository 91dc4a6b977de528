"""What comes next, from the kept rows alone: so it is the same live and after a stop.

The ladder is least-to-most prompting: a fresh look, a direct question for one part, the tool does one part,
the worked line. Source: system of least prompts, University of Nevada, Reno (NDSIP), "Using the system of
least-to-most prompts".
"""

from dataclasses import replace

from saythesum.core.exercises.exercise import Exercise
from saythesum.core.records.rows import Answer, Ask, EndReason, Form, Reason, Support
from saythesum.core.sums import CLOSING_PARTS, Part
from saythesum.dialogue import messages as say
from saythesum.dialogue.tutor.another_way import another_way
from saythesum.dialogue.tutor.feedback import first_reply
from saythesum.dialogue.tutor.next_cell import Because, Next, TalkOver, cell_asked, next_cell
from saythesum.dialogue.tutor.pattern_talk import Over, next_in_talk
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import Progress, answers_in, cell_of, ended, is_help, known, number_before


def what_next(plan: Plan, progress: Progress, *, is_enough: bool = False) -> Next | TalkOver | None:
    """What to ask after the last kept row; None where its question still stands.

    `is_enough`: the tool has talked for long enough about this cell, so help ends with the worked line.
    """
    if progress.is_talking:
        next = next_in_talk(plan, progress)
        return talk_over(plan, progress, next.said) if isinstance(next, Over) else next
    last = progress.last
    if last is None:
        return next_cell(plan, progress, None)
    if isinstance(last, Ask):
        return _after_told(plan, progress, last)
    if cell_of(last) in progress.closed:
        return next_cell(plan, progress, None)
    if last.right:
        return _next_part(plan, progress, last, is_enough=is_enough)
    return help_with(plan, progress, last.id, is_enough=is_enough)


def talk_over(plan: Plan, progress: Progress, said: tuple[say.Message, ...]) -> TalkOver:
    """Back to where the talk began: the question in the grid that still stands is asked again, with a row of its own,
    so that the rows alone say that the talk is over."""
    beneath = replace(progress, is_talking=False)
    then = what_next(plan, beneath)
    assert not isinstance(then, TalkOver), "beneath a talk there is none"
    return TalkOver(said, then or asked_again_in_grid(plan, progress))


def asked_again_in_grid(plan: Plan, progress: Progress) -> Ask:
    """The same question once more. Hearing it again is not help."""
    ask = progress.ask
    assert ask is not None, "a talk comes after a question in its grid"
    support = Support.REPEATED if ask.support is Support.INDEPENDENT else ask.support
    return replace(ask, id=plan.next_id(progress.kept), support=support)


def _after_told(plan: Plan, progress: Progress, ask: Ask) -> Next | None:
    """A pupil who stopped at a missed cell was told its answer: it is asked anew, as a whole.

    After a practice that was played to its end, the cells that were left for another day are asked.
    """
    match ended(progress):
        case EndReason.STOPPED if is_help(ask):
            return cell_asked(plan, progress, cell_of(ask), None)
        case EndReason.FINISHED:
            return next_cell(plan, progress, None)
        case _:
            return None


def help_with(plan: Plan, progress: Progress, because: Because, *, is_enough: bool = False) -> Next:
    """One step down the ladder, after a wrong answer or a call for help. In a probe nobody is helped."""
    if not plan.activity_on(progress.ask).aim.is_helped:
        assert isinstance(because, Reason), "in a probe an answer closes its cell"
        return next_cell(plan, progress, because)
    ask = progress.ask
    assert ask is not None
    asked = plan.exercise_of(ask)
    parts = asked.parts
    if ask.support is Support.MODELLED:
        return next_cell(plan, progress, Reason.SKIPPED)
    turns = _help_turns(progress)
    if is_enough or turns >= plan.settings.helping.most_help_turns:
        return _modelled(plan, progress, because)
    if ask.part is Part.WHOLE:
        answer = progress.answer(because) if because and not isinstance(because, Reason) else None
        is_sure = answer is None or not answer.close_to
        if turns == 0 and is_sure and (way := another_way(progress, asked)):
            here = replace(ask, exercise=way.name)
            return _same_cell(plan, progress, way.parts[0], Support.ASKED, because, Form.OTHER_WAY, here=here)
        if answer:
            return _met(plan, progress, answer, is_looked_at_again=turns > 0)
        if not parts:
            return _modelled(plan, progress, because)
        return _same_cell(plan, progress, parts[0], Support.ASKED, because, Form.CALLED)
    if not isinstance(because, Reason) and _sure_misses(progress, ask.part) <= 1:
        about = begun_with(asked, progress)
        return _same_cell(plan, progress, ask.part, ask.support, because, Form.AGAIN, about)
    return _do_the_part(plan, progress, ask, because)


def _met(plan: Plan, progress: Progress, answer: Answer, *, is_looked_at_again: bool) -> Next:
    """A wrong whole answer: the help starts from the mistake, or asks what tells it from others."""
    occasion = plan.occasion_at(cell_of(answer), answer.by, number_before(progress))
    weights = known(plan, progress).could_be(occasion, answer.given)
    reply = first_reply(answer, weights, progress.replied, is_looked_at_again=is_looked_at_again)
    if reply.part is not Part.WHOLE:
        return _same_cell(plan, progress, reply.part, Support.ASKED, answer.id, reply.form, reply.about)
    if is_looked_at_again:
        return _modelled(plan, progress, answer.id)
    return _same_cell(plan, progress, Part.WHOLE, Support.ENCOURAGED, answer.id, reply.form, reply.about)


def _next_part(plan: Plan, progress: Progress, answer: Answer, *, is_enough: bool) -> Next:
    if is_enough or _help_turns(progress) >= plan.settings.helping.most_help_turns:
        return _modelled(plan, progress, answer.id)
    part = answer.asked.part_after(answer.part)
    ask = progress.ask
    assert ask is not None
    about = begun_with(answer.asked, progress)
    return _same_cell(plan, progress, part, ask.support, answer.id, Form.AFTER_RIGHT, about)


def begun_with(asked: Exercise, progress: Progress) -> Part | None:
    """Of the parts that the pupil was asked for in this visit, the one that changes how later ones are asked."""
    return asked.begun({row.part for row in progress.visit if isinstance(row, Ask)})


def _do_the_part(plan: Plan, progress: Progress, ask: Ask, because: Because) -> Next:
    asked = plan.exercise_of(ask)
    if ask.part in CLOSING_PARTS or not asked.can_do(ask.part):
        return _modelled(plan, progress, because)
    part = asked.part_after_doing(ask.part)
    return _same_cell(plan, progress, part, Support.FIRST_STEP, because, Form.STEP_DONE, ask.part)


def _help_turns(progress: Progress) -> int:
    helped = (Support.ENCOURAGED, Support.ASKED, Support.FIRST_STEP)
    return sum(is_help(row) and row.support in helped for row in progress.visit)


def _sure_misses(progress: Progress, part: Part) -> int:
    """Wrong answers to this part's question. An unsure hearing raises no support."""
    misses = 0
    is_this_part = False
    for row in progress.visit:
        if isinstance(row, Ask):
            is_this_part = row.part is part
        elif is_this_part and not row.right and row.is_relied_on:
            misses += 1
    return misses


def _modelled(plan: Plan, progress: Progress, because: Because) -> Ask:
    return _same_cell(plan, progress, Part.TOTAL, Support.MODELLED, because, Form.WORKED)


def _same_cell(  # noqa: PLR0917
    plan: Plan,
    progress: Progress,
    part: Part,
    support: Support,
    because: Because,
    form: Form,
    about: str | None = None,
    here: Ask | None = None,
) -> Ask:
    """`here`: the question that it takes the cell and the way from; None: the last one."""
    here = here or progress.ask
    assert here is not None
    id = plan.next_id(progress.kept)
    return replace(here, id=id, part=part, support=support, because=because, form=form, about=about)


def tries_so_far(progress: Progress, part: Part) -> int:
    return sum(answer.part is part for answer in answers_in(progress.visit))
