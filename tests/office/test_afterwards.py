"""The two minutes after a practice."""

from contextlib import closing
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from uuid import UUID

import pytest

from saythesum.app.setup.folders import Places
from saythesum.core.grids.file_format import text_of
from saythesum.core.records.rows import Answer, Note, NoteKind, Row, Void
from saythesum.dialogue.turns.effects import Ear
from saythesum.errors import CallerError
from saythesum.office.afterwards import (
    MOST_DOUBTFUL,
    Judgement,
    doubtful,
    judge,
    own_words,
    today_of,
    today_said,
    words_kept,
)
from saythesum.office.correcting import does_not_count, was_helped
from saythesum.office.moving import move
from saythesum.office.plans.today import not_done
from saythesum.office.pupils import add_pupil
from saythesum.store.reading import open_to_read
from saythesum.wording.for_adults.said_marks import notes_said
from tests.office.places import home_in
from tests.office.school import NOW, keeps
from tests.store.made_practices import practice
from tests.talk import Talk, plan_of

DAY = datetime(2031, 5, 12, 9, 29, 58, tzinfo=UTC).astimezone().date()


def practised(places: Places, *, unsure: int = 0) -> UUID:
    """Six sums of which the second is answered wrongly at first; so many are heard unsurely."""
    stored = practice("afterwards", pupil="rk-7")
    plan = replace(plan_of((38, 57), (3, 5, 8)), practice=stored.id)
    talk = Talk(plan, Ear.KEYS)
    talk.begin()
    for number in (41, 45, 2, 3, 43, 46, 60, 62, 65):
        talk.type(str(number))
    assert talk.finished
    heard = 0
    rows: list[Row] = []
    for row in talk.rows:
        if isinstance(row, Answer) and heard < unsure:
            rows.append(replace(row, certainty=0.5 + heard / 100, sure=False))
            heard += 1
        else:
            rows.append(row)
    stored = replace(stored, grid_text=text_of(plan.activities[0].grid))
    keeps(places, stored, tuple(rows))
    return stored.id


def rows_of(places: Places, id: UUID) -> tuple[object, ...]:
    with closing(open_to_read(places.records_file)) as reader:
        return reader.practice(id).rows


def test_the_least_sure_answers_are_asked_about_five_at_most_in_their_order(tmp_path: Path) -> None:
    places = home_in(tmp_path)
    practised(places, unsure=8)
    found = doubtful(places, "rk-7", DAY)
    assert len(found) == MOST_DOUBTFUL == 5
    assert [one.answer.certainty for one in found] == [0.5, 0.51, 0.52, 0.53, 0.54]
    assert doubtful(places, "rk-7", DAY + timedelta(days=1)) == ()
    judge(places, "rk-7", found[0].answer.id, Judgement.SAID_SO, NOW)
    judge(places, "rk-7", found[1].answer.id, Judgement.NOT_SAID, NOW)
    assert [one.judged for one in doubtful(places, "rk-7", DAY)][:1] == [True]
    assert found[1].answer.id not in {one.answer.id for one in doubtful(places, "rk-7", DAY)}


def test_each_judgement_is_a_row_of_its_own(tmp_path: Path) -> None:
    places = home_in(tmp_path)
    id = practised(places, unsure=4)
    found = doubtful(places, "rk-7", DAY)
    before = rows_of(places, id)
    for one, judgement in zip(found, Judgement, strict=False):
        judge(places, "rk-7", one.answer.id, judgement, NOW)
    after = rows_of(places, id)
    assert after[: len(before)] == before
    said, right, void, helped = after[len(before) :]
    assert isinstance(said, Note) and (said.what, said.value) == (NoteKind.TEXT, "said so")
    assert isinstance(right, Note) and (right.what, right.value) == (NoteKind.WAS_RIGHT, "yes")
    assert isinstance(void, Void) and void.why == "not-said"
    assert isinstance(helped, Note) and helped.value == "adult-help words"
    with pytest.raises(CallerError, match="was taken back already"):
        judge(places, "rk-7", void.of, Judgement.WITH_HELP, NOW)
    with pytest.raises(CallerError, match="is not an answer's id"):
        judge(places, "rk-7", "forty-one", Judgement.SAID_SO, NOW)


def test_of_two_adults_the_newer_mark_holds_and_the_older_one_is_told(tmp_path: Path) -> None:
    """One beside the pupil, one at the desk; or two at two desks."""
    places = home_in(tmp_path)
    id = practised(places, unsure=2)
    one, other = (found.answer.id for found in doubtful(places, "rk-7", DAY))
    assert judge(places, "rk-7", one, Judgement.WITH_HELP, NOW) == ()
    assert notes_said(judge(places, "rk-7", one, Judgement.SAID_SO, NOW)) == ("with an adult's help (words)",)
    told = judge(places, "rk-7", one, Judgement.NOT_SAID, NOW)
    assert notes_said(told) == ("with an adult's help (words)", "said so")
    before = rows_of(places, id)
    with pytest.raises(CallerError, match="taken back already, and nothing was changed"):
        judge(places, "rk-7", one, Judgement.WAS_RIGHT, NOW)
    add_pupil(places, "mo", NOW)
    move(places, id, "mo", NOW)
    with pytest.raises(CallerError, match=r"is mo's by now.* mark it on the page of mo"):
        judge(places, "rk-7", other, Judgement.SAID_SO, NOW)
    assert rows_of(places, id) == before
    judge(places, "mo", other, Judgement.SAID_SO, NOW)


def test_the_pupils_words_are_kept_also_where_the_last_answer_was_taken_back(tmp_path: Path) -> None:
    places = home_in(tmp_path)
    id = practised(places)
    last = [row for row in rows_of(places, id) if isinstance(row, Answer)][-1]
    judge(places, "rk-7", last.id, Judgement.NOT_SAID, NOW)
    own_words(places, id, "Boats", NOW)
    assert words_kept(places, id) == "Boats"


def test_today_in_one_line(tmp_path: Path) -> None:
    places = home_in(tmp_path)
    id = practised(places)
    assert today_said(today_of(places, "rk-7", DAY)) == (
        f"rk-7, {DAY}: 6 sums, 5 of 6 right at the first try and unaided."
    )
    answers = [row for row in rows_of(places, id) if isinstance(row, Answer)]
    was_helped(places, answers[0].id, NOW)
    does_not_count(places, answers[-1].id, NOW)
    own_words(places, id, "  I like the boats ", NOW)
    assert words_kept(places, id) == "I like the boats"
    assert today_said(today_of(places, "rk-7", DAY)) == (
        f'rk-7, {DAY}: 6 sums, 3 of 5 right at the first try and unaided. 1 not counted. The pupil: "I like the boats"'
    )
    judge(places, "rk-7", answers[1].id, Judgement.WAS_RIGHT, NOW)
    assert today_of(places, "rk-7", DAY).unaided == 4


def test_a_day_on_which_nothing_was_done(tmp_path: Path) -> None:
    places = home_in(tmp_path)
    add_pupil(places, "rk-7", NOW)
    other = date(2031, 5, 13)
    assert today_said(today_of(places, "rk-7", other)) == "rk-7, 2031-05-13: nothing practised."
    not_done(places, "rk-7", other, "unwell", NOW)
    assert today_said(today_of(places, "rk-7", other)) == "rk-7, 2031-05-13: Offered and not done: unwell."


def test_half_a_practice_is_the_other_pupils_day_and_back(tmp_path: Path) -> None:
    places = home_in(tmp_path)
    id = practised(places)
    add_pupil(places, "mo", NOW)
    end = len(rows_of(places, id)) - 1
    whole = today_of(places, "rk-7", DAY)
    move(places, id, "mo", NOW, first=end // 2, last=end)
    halves = [today_of(places, code, DAY).sums for code in ("rk-7", "mo")]
    assert sum(halves) in (6, 7) and all(halves), "a sum that was parted in the middle is of both"
    move(places, id, "rk-7", NOW + timedelta(minutes=1), first=end // 2, last=end)
    assert today_of(places, "rk-7", DAY) == whole
    assert today_of(places, "mo", DAY).sums == 0


def test_words_that_are_no_line_are_refused(tmp_path: Path) -> None:
    places = home_in(tmp_path)
    id = practised(places)
    for text in ("x" * 501, "two\nlines"):
        with pytest.raises(CallerError, match="must be one line"):
            own_words(places, id, text, NOW)
    assert words_kept(places, id) == ""
