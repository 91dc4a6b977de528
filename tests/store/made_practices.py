"""Practices of a ferry's seats, and rows for them."""

from dataclasses import replace
from uuid import UUID, uuid5

from saythesum.core.aims import Aim
from saythesum.core.grids.facts import FACT_ACTIVITIES
from saythesum.core.grids.file_format import text_of
from saythesum.core.grids.grid import Cell
from saythesum.core.records.rows import (
    Answer,
    Ask,
    By,
    End,
    EndReason,
    Form,
    HeardId,
    Note,
    NoteKind,
    Reason,
    Row,
    RowId,
    Settled,
    Support,
    Void,
    VoidReason,
    Way,
    row_id,
)
from saythesum.core.sums import ExerciseName, Hidden, Part
from saythesum.ports import StoredActivity, StoredPractice
from saythesum.settings import Settings, Speech

FERRY = 'title = "Seats on the ferry"\nadd = [5, 8]\nstart = [47, 59]\n'
BAKERY = 'title = "Rolls in the bakery"\nadd = [6, 7]\nstart = [28, 65]\n'
LISTED = 'title = "Passengers"\nsums = ["47+?=52", "?+5=52", "47+25"]\n'
AT = "2031-05-12T09:30:00.250Z"
_FAMILY = UUID("6f2a8c1e-94b7-4d0a-8a55-0f6f2b1c7d3e")


def practice(name: str = "first", *, pupil: str = "pupil-1", grid_text: str = FERRY) -> StoredPractice:
    return StoredPractice(
        id=uuid5(_FAMILY, name),
        pupil=pupil,
        began_at="2031-05-12T09:29:58.000Z",
        grid_text=grid_text,
        seed=31,
        settings=Settings(speech=Speech(rate_wpm=170)),
        program_version="0.1.0",
    )


def probe() -> StoredPractice:
    """Of the bakery's four cells three are asked, the last one first."""
    cells = (Cell(1, 1), Cell(0, 0), Cell(0, 1))
    return replace(practice("probe", grid_text=BAKERY), aim=Aim.PROBE, cells=cells)


def two_activities() -> StoredPractice:
    """The ferry's grid, then two sums of the bakery's as a probe."""
    then = StoredActivity(Aim.PROBE, BAKERY, (Cell(1, 1), Cell(0, 0)))
    return replace(practice("two activities"), then=(then,))


def asked(of: StoredPractice, serial: int) -> Ask:
    return Ask(row_id(of.id, serial), serial % 2, serial % 3, Part.WHOLE, Support.INDEPENDENT, None)


def ended(of: StoredPractice, serial: int, reason: EndReason = EndReason.FINISHED) -> End:
    return End(row_id(of.id, serial), 4, 3, reason)


def noted(of: StoredPractice, serial: int) -> Note:
    return Note(row_id(of.id, serial), None, NoteKind.TEXT, "counted on her fingers … \u2713")


def voided(of: StoredPractice, serial: int, answer: RowId) -> Void:
    return Void(row_id(of.id, serial), answer, VoidReason.WRONG_PUPIL)


def answered(of: StoredPractice, serial: int) -> Answer:
    return Answer(
        id=row_id(of.id, serial),
        row=1,
        column=0,
        start=59,
        amount=5,
        part=Part.WHOLE,
        right_answer=64,
        given=54,
        right=False,
        support=Support.INDEPENDENT,
        tries=1,
        certainty=0.93,
        close_to=(64,),
        heard=HeardId(str(uuid5(of.id, "heard"))),
        took_ms=1840,
        could_be=("new-ten-lost", "subtracted"),
        by=By.VOICE,
        settled=Settled.SAID_BACK,
        sure=True,
    )


def in_forms(of: StoredPractice) -> tuple[Row, ...]:
    """Help with fifty-nine and five, with the fields that rows have from format 4 on."""
    whole = replace(asked(of, 0), row=1, column=0, form=Form.FIRST)
    wrong = answered(of, 1)
    gap = replace(whole, id=row_id(of.id, 2), part=Part.GAP, support=Support.ASKED, because=wrong.id)
    unsure = replace(
        wrong,
        id=row_id(of.id, 3),
        part=Part.GAP,
        right_answer=1,
        given=2,
        support=Support.ASKED,
        certainty=0.9,
        close_to=(),
        could_be=("gap-off-by-one",),
        settled=Settled.FOLLOWED,
        sure=False,
    )
    again = replace(gap, id=row_id(of.id, 4), because=unsure.id, form=Form.AGAIN)
    total = replace(gap, id=row_id(of.id, 5), part=Part.TOTAL, because=Reason.HELP, form=Form.STEP_DONE, about="gap")
    return whole, wrong, replace(gap, form=Form.AFTER_WRONG), unsure, again, total


def told_apart(of: StoredPractice) -> tuple[Row, ...]:
    """A small question about fifty-nine and five, with the parts, forms and ways that rows have from format 6 on."""
    whole = replace(asked(of, 0), row=1, column=0, form=Form.EASIER)
    wrong = answered(of, 1)
    because = row_id(of.id, 1)
    small = replace(whole, support=Support.ASKED, because=because, form=Form.TELLING_APART, about="new-ten-lost")
    asks = [replace(small, id=row_id(of.id, 2 + at), part=part) for at, part in enumerate(_SMALL_PARTS)]
    counted = replace(wrong, id=row_id(of.id, 2 + len(asks)), given=64, right=True, could_be=(), way=Way.COUNTED)
    return (whole, wrong, *asks, counted)


_SMALL_PARTS = (Part.ONES, Part.TENS, Part.ONE_MORE, Part.TENS_OF_ONES)


def talked(of: StoredPractice) -> tuple[Row, ...]:
    """A talk about two columns, with the parts that rows have from format 9 on: they stand in no cell."""
    listen = replace(asked(of, 0), row=None, column=None, part=Part.LISTEN, exercise=ExerciseName.PATTERN)
    listen = replace(listen, form=Form.FRESH, about="columns-apart", lines=(0, 1))
    more = replace(listen, id=row_id(of.id, 1), part=Part.HOW_MUCH_MORE)
    answer = replace(answered(of, 2), row=None, column=None, start=52, amount=3, part=Part.HOW_MUCH_MORE)
    answer = replace(answer, right_answer=3, given=3, right=True, could_be=(), exercise=ExerciseName.PATTERN)
    others = [Part.EVERY_ROW, Part.PREDICT, Part.WHY, Part.TURN_ROUND, Part.MAKE_ONE]
    asks = [replace(more, id=row_id(of.id, 3 + at), part=part) for at, part in enumerate(others)]
    return (listen, more, answer, *asks)


def bonds() -> StoredPractice:
    """A minute of bonds of ten."""
    grid_text = text_of(FACT_ACTIVITIES[0].grid)
    return replace(practice("bonds", grid_text=grid_text), aim=Aim.FACTS)


def led_back(of: StoredPractice) -> tuple[Row, ...]:
    """From the ferry's sums to a bond, as rows have it from format 8 on: in an activity beside the plan's own."""
    whole = replace(asked(of, 0), form=Form.FIRST)
    aside = replace(whole, id=row_id(of.id, 1), row=0, column=6, activity=1, exercise=ExerciseName.BOND)
    answer = replace(answered(of, 2), row=0, column=6, start=10, amount=7, right_answer=3, given=3, right=True)
    answer = replace(answer, could_be=(), close_to=(), activity=1, exercise=ExerciseName.BOND, operation="bond")
    back = replace(whole, id=row_id(of.id, 3), column=1, form=Form.BACK_TO_SUMS)
    return (whole, replace(aside, form=Form.FRESH), answer, back)


def other_sums(of: StoredPractice) -> tuple[Row, ...]:
    """Of a list: a missing amount, a missing start and an amount with tens, as rows have them from format 10 on."""
    amount = replace(asked(of, 0), row=0, column=0, hidden=Hidden.AMOUNT)
    start = replace(asked(of, 2), row=1, column=0, hidden=Hidden.START)
    tens = replace(asked(of, 4), row=2, column=0, part=Part.AFTER_TENS)
    whole = replace(answered(of, 1), row=0, column=0, start=47, amount=5, part=Part.WHOLE, could_be=())
    whole = replace(whole, right_answer=5, given=5, right=True, hidden=Hidden.AMOUNT)
    of_start = replace(whole, id=row_id(of.id, 3), row=1, right_answer=47, given=47, hidden=Hidden.START)
    of_tens = replace(whole, id=row_id(of.id, 5), row=2, amount=25, part=Part.AFTER_TENS, hidden=Hidden.TOTAL)
    return (amount, whole, start, of_start, tens, replace(of_tens, right_answer=67, given=67))


def one_of_each(of: StoredPractice) -> tuple[Row, ...]:
    answer = answered(of, 1)
    return (
        asked(of, 0),
        answer,
        voided(of, 2, answer.id),
        noted(of, 3),
        ended(of, 4, EndReason.STOPPED),
    )
