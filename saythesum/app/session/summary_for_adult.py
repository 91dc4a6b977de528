"""What an adult is told when a practice is over: plain lines, after the pupil has been told that it is."""

from collections.abc import Iterator

from saythesum.app.session.log import Log
from saythesum.app.session.runner import Runner
from saythesum.core.aims import Aim
from saythesum.core.grids.grid import Order
from saythesum.core.records.rows import Answer
from saythesum.dialogue.step import State
from saythesum.dialogue.tutor.plan import Plan
from saythesum.dialogue.tutor.progress import Progress, known_here
from saythesum.learner.findings import findings
from saythesum.wording.for_adults.said_findings import finding_said, nothing_shows

HEADING = "For the adult. This is practice, not assessment or diagnosis."


def told_to_the_adult(runner: Runner, log: Log | None, *, tells_why: bool) -> tuple[str, ...]:
    state = runner.state
    lines = (*_found_out(state, log), *(_why_these(state, runner) if tells_why else ()))
    return (HEADING, *lines) if lines else ()


def _found_out(state: State, log: Log | None) -> Iterator[str]:
    """What a practice whose purpose was to find out has found; nothing after any other."""
    if any(one.aim is Aim.FIND_OUT for one in state.plan.activities):
        yield from what_was_found(state.plan, state.progress, log)


def what_was_found(plan: Plan, progress: Progress, log: Log | None = None) -> Iterator[str]:
    """From the kept rows: so it can be told again whenever it is asked for."""
    evidence = known_here(plan, progress).evidence
    answers = {row.id: row for row in progress.live if isinstance(row, Answer)}
    found = findings(evidence)
    for finding in found:
        lines = finding_said(finding, answers)
        if log:
            log.finding(finding, " ".join(lines))
        yield from lines
    if not found:
        yield nothing_shows(evidence)


def _why_these(state: State, runner: Runner) -> Iterator[str]:
    yield from _why_these_sums(state, runner.whys)
    if runner.pattern_whys:
        yield "Why this pattern:"
        yield from runner.pattern_whys


def _why_these_sums(state: State, whys: list[str]) -> Iterator[str]:
    """Of what was asked in this run; what was asked before a stop is told at that stop."""
    activity = state.plan.activity_on(state.progress.ask)
    if whys:
        yield "Why these sums:"
        yield from whys
    elif activity.aim is Aim.PROBE:
        yield "The sums were not chosen: a probe has its own."
    elif activity.aim is Aim.FIND_OUT or activity.grid.order is Order.CHOSEN:
        yield "No sum was chosen anew: the one that was asked had been chosen before the last stop."
    else:
        yield f"The sums were not chosen: the order was {activity.grid.order}."
