"""Which rows go when an answer is voided."""

from collections.abc import Sequence

from saythesum.core.records.rows import Answer, Ask, Reason, Row, RowId

_CALLS_FOR_HELP = (Reason.DONT_KNOW, Reason.HELP)


def gone_with(of: RowId, since: Sequence[Row]) -> frozenset[RowId]:
    """The voided answer and all that leads back to it. `since` begins with that answer.

    A question leads back through its `because`, or, where the pupil called for help, through the question before
    it; an answer leads back through its question.
    """
    gone = {of}
    is_ask_gone = False
    for row in since:
        if isinstance(row, Ask):
            is_ask_gone = row.because in gone or (is_ask_gone and row.because in _CALLS_FOR_HELP)
        if is_ask_gone and isinstance(row, Ask | Answer):
            gone.add(row.id)
    return frozenset(gone)
