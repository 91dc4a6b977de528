"""For the adult: what a pupil's mistake could be, with the answers for and against it. Never told to the pupil."""

from collections.abc import Iterable, Mapping, Sequence

from saythesum.core.records.rows import Answer, RowId
from saythesum.core.sums import Part
from saythesum.learner.evidence import Evidence
from saythesum.learner.findings import Finding
from saythesum.wording.for_adults.mistake_words import mistake_said
from saythesum.wording.numbers import words
from saythesum.wording.speak.exercises.said_exercises import words_of


def finding_said(finding: Finding, answers: Mapping[RowId, Answer]) -> tuple[str, ...]:
    """A few plain lines. `answers` has all that the finding refers to."""
    last = answers[finding.for_[-1]]
    pattern = next(one for one in last.asked.patterns if one.name == finding.mistake)
    agreeing, able = len(finding.for_), len(finding.for_) + len(finding.against)
    of_sums = f"{words(agreeing)} of the last {words(able)} sums that could show it"
    return (
        f"Could be {mistake_said(finding.mistake)}: {of_sums} agree. {pattern.cause}",
        f"For it: {_given(finding.for_, answers)}.",
        f"Against it: {_given(finding.against, answers) or 'none'}.",
        f"To say next, for example: {pattern.advice(last.asked, last.given)}",
    )


def nothing_shows(evidence: Sequence[Evidence]) -> str:
    first = [one for one in evidence if one.part is Part.WHOLE]
    right = sum(one.is_right for one in first)
    return f"Nothing shows: no mistake comes again. First answers without help: {len(first)}, right: {right}."


def _given(ids: Iterable[RowId], answers: Mapping[RowId, Answer]) -> str:
    given = (answers[id] for id in ids)
    return ", ".join(f"{words_of(answer.asked).whole(answer.asked, str)} answered {answer.given}" for answer in given)
