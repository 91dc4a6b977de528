"""Answers from paper: the same rows as by keys, but `paper`, and apart from all that is known of the pupil."""

from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from random import Random
from uuid import UUID

import pytest

from saythesum.core.aims import Aim
from saythesum.core.grids.file_format import text_of
from saythesum.core.meanings import Command, Given, Number
from saythesum.core.records.rows import Answer, By, HeardId, Note, NoteKind, Purpose, Row
from saythesum.dialogue.step import opened, step
from saythesum.dialogue.turns.effects import Ear
from saythesum.dialogue.turns.events import Began, Entered
from saythesum.dialogue.tutor.plan import activity, planned
from saythesum.dialogue.tutor.progress import Progress
from saythesum.errors import CallerError
from saythesum.learner.pupil import Pupil
from saythesum.learner.replay import Kept, learned
from saythesum.office.correcting import take_back
from saythesum.office.papers.paper_answers import Written, keep_paper, paper_rows
from saythesum.office.papers.sheets import KeptSheet, code_for, keep_sheet, sheet_of
from saythesum.office.pupils import add_pupil
from saythesum.settings import Settings
from saythesum.store.reading import open_to_read
from tests.office.places import home_in
from tests.reports.sheets.made_sheets import FERRY, WIDE

NOW = datetime(2031, 5, 14, 8, 0, tzinfo=UTC)
PRACTICE = UUID("6f2a8c1e-94b7-4d0a-8a55-0f6f2b1c7d3e")
SHEET = KeptSheet("gymyu", FERRY, "rk-7", "2031-05-14T08:00:00.000Z")


def made_up_answers(sheet: KeptSheet, seed: int) -> list[int | None]:
    """A pupil who is right mostly, loses a ten now and then, and leaves a cell empty."""
    dice = Random(seed)
    totals = [sheet.grid.exercise_at(cell).total for cell in sheet.cells]
    return [dice.choice((total, total, total, total - 10 if total > 10 else total, None)) for total in totals]


def by_keys(sheet: KeptSheet, answers: list[int | None]) -> tuple[Row, ...]:
    """A probe of the same sums, answered on keys at its own pace."""
    plan = planned(PRACTICE, [activity(sheet.grid, 0, Aim.PROBE, sheet.cells)], Settings())
    state = opened(plan, Progress(), Ear.KEYS)
    state, _ = step(state, Began(0))
    for place, answer in enumerate(answers):
        at_ms = 4000 * (place + 1)
        heard = Given(Command.SKIP) if answer is None else Number(answer)
        state, _ = step(state, Entered(heard, "", By.KEYS, at_ms, at_ms - 500, HeardId(f"paper {place}")))
    return state.progress.live


@pytest.mark.parametrize("seed", range(8))
def test_the_rows_are_those_of_keys_but_for_their_purpose(seed: int) -> None:
    for sheet in (SHEET, replace(SHEET, grid=WIDE)):
        answers = made_up_answers(sheet, seed)
        *rows, note = paper_rows(sheet, answers, Written.BRAILLER, PRACTICE)
        as_paper = [
            replace(row, purpose=Purpose.PAPER, took_ms=None) if isinstance(row, Answer) else row
            for row in by_keys(sheet, answers)
        ]
        assert rows == as_paper
        assert [row.given for row in rows if isinstance(row, Answer)] == [one for one in answers if one is not None]
        assert isinstance(note, Note) and (note.what, note.value) == (NoteKind.WORKED_WITH, "brailler")


def test_a_filled_sheet_is_kept_and_changes_nothing_that_is_known(tmp_path: Path) -> None:
    home = home_in(tmp_path)
    add_pupil(home, "rk-7", NOW)
    code = code_for(home, FERRY)
    keep_sheet(home, "rk-7", code, FERRY, NOW)
    sheet = sheet_of(home, code.upper())
    assert text_of(sheet.grid) == text_of(FERRY) and sheet.pupil == "rk-7"
    kept = keep_paper(home, "rk-7", sheet, [52, 55, 41, None, 67, 52, 41, 44, 29], Written.HAND, PRACTICE, NOW)
    assert (kept.answered, kept.right, kept.empty) == (8, 7, 1)
    reader = open_to_read(home.records_file)
    stored = reader.practice(PRACTICE)
    assert stored.is_from_paper and reader.unfinished("rk-7") is None and reader.unreadable() == ()
    assert learned(Kept(row, NOW, FERRY) for row in stored.rows) == Pupil()
    answer = next(row for row in stored.rows if isinstance(row, Answer))
    reader.close()
    take_back(home, answer.id, NOW)
    reader = open_to_read(home.records_file)
    assert reader.unfinished("rk-7") is None  # also where an answer of it was taken back
    reader.close()


def test_the_same_grid_has_the_same_code_and_another_one_another(tmp_path: Path) -> None:
    home = home_in(tmp_path)
    code = code_for(home, FERRY)
    keep_sheet(home, "rk-7", code, FERRY, NOW)
    assert code_for(home, FERRY) == code != code_for(home, WIDE)


def test_a_code_that_another_grid_has_is_passed_over(tmp_path: Path) -> None:
    home = home_in(tmp_path)
    taken = code_for(home, WIDE)
    keep_sheet(home, "rk-7", taken, FERRY, NOW)
    assert code_for(home, WIDE) != taken


@pytest.mark.parametrize(
    ("answers", "says"),
    [
        ([52], "has 9 sums, and 1 answers were given"),
        ([None] * 9, "No answer was given"),
        ([1100] + [None] * 8, "The answer to 47 . 5 is 1100"),
    ],
)
def test_wrong_answers_are_refused_and_nothing_is_kept(answers: list[int | None], says: str, tmp_path: Path) -> None:
    home = home_in(tmp_path)
    with pytest.raises(CallerError, match=says):
        keep_paper(home, "rk-7", SHEET, answers, Written.HAND, PRACTICE, NOW)
    assert not home.records_file.exists()


@pytest.mark.parametrize(("given", "says"), [("gymyx", "no sheet's code"), ("aaaaa", "No sheet aaaaa was made here")])
def test_an_unknown_code_is_refused(given: str, says: str, tmp_path: Path) -> None:
    with pytest.raises(CallerError, match=says):
        sheet_of(home_in(tmp_path), given)
