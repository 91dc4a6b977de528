"""Practices that a program without forms kept, with the words in which it asked: they go on in the same words.

`older_practices.jsonl` was written by such a program (format 2) and is never made again: a practice a line, its rows
and, by the number of rows kept so far, what it said when it was started again there.
"""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from uuid import UUID

import pytest

from saythesum.core.aims import Aim
from saythesum.core.grids.file_format import grid_from
from saythesum.core.grids.grid import Cell
from saythesum.core.records.codec import row_from_dict
from saythesum.core.records.rows import Ask, Form, Row
from saythesum.core.sums import LARGEST_START
from saythesum.dialogue.tutor.plan import Plan, activity, planned
from saythesum.settings import Settings
from tests.talk import Talk

KEPT = Path(__file__).with_name("older_practices.jsonl").read_text(encoding="utf-8").splitlines()


@dataclass(frozen=True)
class Practice:
    plan: Plan
    rows: list[Row]
    says: dict[int, list[str]]


def read(line: str) -> Practice:
    kept: dict[str, Any] = json.loads(line)
    grid = grid_from(kept["grid"], most_rows=LARGEST_START + 1)
    cells = tuple(Cell(*cell) for cell in kept["cells"]) if kept["cells"] else None
    plan = planned(UUID(kept["practice"]), [activity(grid, kept["seed"], Aim(kept["aim"]), cells)], Settings())
    assert all("form" not in row and "sure" not in row for row in kept["rows"])
    says = {int(count): texts for count, texts in kept["says"].items()}
    return Practice(plan, [row_from_dict(row) for row in kept["rows"]], says)


def gone_on(practice: Practice, count: int) -> Talk:
    talk = Talk(practice.plan, rows=practice.rows[:count])
    talk.begin()
    return talk


@pytest.mark.parametrize(
    "practice", [read(line) for line in KEPT], ids=lambda practice: str(practice.plan.practice)[:8]
)
def test_started_again_anywhere_it_asks_in_the_same_words(practice: Practice) -> None:
    for count, texts in practice.says.items():
        talk = gone_on(practice, count)
        assert talk.said == texts
        assert len(talk.rows) == count, "the question still stands, so it is not asked anew"
        talk.answer("say that again")
        repeated = [row for row in talk.rows[count:] if isinstance(row, Ask)]
        assert all(row.form for row in repeated)
        assert talk.said[len(texts) :] == [text for text in texts if text != "Not yet."]


NEWER = {Form.TELLING_APART, Form.EASIER, Form.BACK_TO_SUMS, Form.OTHER_WAY}


def test_every_form_of_question_was_kept() -> None:
    practices = [read(line) for line in KEPT]
    asks = [row for one in practices for row in gone_on(one, max(one.says)).state.progress.live if isinstance(row, Ask)]
    assert {ask.form for ask in asks} == set(Form) - NEWER
    assert {ask.about for ask in asks} == {None, "next-ten", "gap", "rest", "ones"}
