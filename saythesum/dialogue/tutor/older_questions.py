"""Questions that were kept before the form of their words was (format 3 and older): the rows before them tell it.

A practice begun by an older program goes on in the words it was asked in. No question asked today comes here.
"""

from dataclasses import replace

from saythesum.core.records.rows import Ask, Form, Reason, Support
from saythesum.core.sums import CLOSING_PARTS, Part
from saythesum.dialogue.tutor.next_cell import form_at
from saythesum.dialogue.tutor.next_step import begun_with
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import Progress, cell_of, with_row


def with_forms(plan: Plan, progress: Progress) -> Progress:
    """Every question gets its form, not only the last: an answer that is taken back lets an earlier one stand again."""
    if all(row.form for row in progress.live if isinstance(row, Ask)):
        return progress
    before = Progress()
    for row in progress.live:
        before = with_row(before, _with_form(plan, before, row) if isinstance(row, Ask) else row)
    return replace(before, kept=progress.kept, talked=progress.talked, is_talking=progress.is_talking)


def _with_form(plan: Plan, before: Progress, ask: Ask) -> Ask:
    if ask.form is not None:
        return ask
    if before.ask and ask.support is Support.REPEATED:
        return replace(ask, form=before.ask.form, about=before.ask.about)
    is_unprompted = ask.because is None or isinstance(ask.because, Reason)
    if is_unprompted and ask.part is Part.WHOLE:
        return replace(ask, form=form_at(plan, before, cell_of(ask), ask.because))
    if ask.support is Support.MODELLED:
        return replace(ask, form=Form.WORKED)
    if isinstance(ask.because, Reason):
        return _after_a_call(before.ask, ask)
    return _after_an_answer(before, ask)


def _after_a_call(previous: Ask | None, ask: Ask) -> Ask:
    if ask.support is Support.FIRST_STEP and previous:
        return replace(ask, form=Form.STEP_DONE, about=previous.part)
    return replace(ask, form=Form.CALLED)


def _after_an_answer(before: Progress, ask: Ask) -> Ask:
    answer = before.answer(ask.because) if ask.because and not isinstance(ask.because, Reason) else None
    if answer and answer.right:
        return replace(ask, form=Form.AFTER_RIGHT, about=begun_with(answer.asked, before))
    part = before.ask.part if before.ask else Part.WHOLE
    if part is not ask.part and part not in CLOSING_PARTS:
        return replace(ask, form=Form.STEP_DONE, about=part)
    if ask.support is Support.ENCOURAGED:
        return replace(ask, form=Form.LOOK_AGAIN)
    return replace(ask, form=Form.AGAIN if part is ask.part else Form.AFTER_WRONG)
