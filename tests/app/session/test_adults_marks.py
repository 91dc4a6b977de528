"""The adult's turn: marks are listed and kept, and the log has no `say` while they are made."""

import json
import subprocess
from pathlib import Path
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from saythesum.core.records.rows import Answer, Ask, Note, Row, Void
from saythesum.office.pupils import add_pupil
from tests.app.command import COMMAND, Person
from tests.desk.practising import answered, asked, practice_of, waited_for
from tests.office.places import home_in
from tests.office.school import NOW
from tests.tools.x_server import XServer, x_server

Picture: TypeAlias = NDArray[np.uint32]
STILL_LOOKS = 5
GIVEN_TAKEN_BACK_GIVEN = (
    *("1", "1", "1"),  # that was right
    *("3", "1", "3", "1", "3", "1"),  # with my help: words
    *("4", "2", "4", "2", "4", "2"),  # worked with fingers
    *("5", "3", "5", "3", "5", "3"),  # counted on
    *("2", "2", "2"),  # that was not said
    *("6", "6", "6"),  # longer waits
    *("7", "7", "7"),  # skip
    *("8", "8", "8"),  # doesn't count from here
)


def test_every_mark_by_its_digit_is_kept_and_never_said(tmp_path: Path) -> None:
    person = Person(tmp_path)
    marks = "3\n1\n4\n2\n5\n2\n6\n8\n"
    given = f"41\nadult\n{marks}adult\nstop there\n"
    came = person.runs("practise", "--by", "text", "--log", tmp_path / "log.jsonl", given=given)
    assert came.code == 0, came.told
    assert "The adult's turn. The last answer: 38 + 3, 41, right." in came.shown
    assert "3 with my help (words): noted" in came.shown
    assert "2 fingers" in came.shown and "4 worked with (fingers): noted" in came.shown
    log = [json.loads(line) for line in (tmp_path / "log.jsonl").read_text().splitlines()]
    kinds = [line["kind"] for line in log]
    first, last = kinds.index("note"), len(kinds) - 1 - kinds[::-1].index("note")
    assert "say" not in kinds[first : last + 1]
    notes = [(line["what"], line["value"]) for line in log if line["kind"] == "note"]
    assert notes == [
        *(("support", "adult-help words"), ("worked-with", "fingers"), ("way", "bridged")),
        *(("waits", "longer"), ("not-counted", "from-here")),
    ]
    assert all(line["by"] == "adult" and line["at"] for line in log if line["kind"] == "note")


def test_what_else_is_typed_in_the_adults_turn_goes_nowhere(tmp_path: Path) -> None:
    came = Person(tmp_path).runs("practise", "--by", "text", given="adult\n41\nhelp me\nadult\nstop there\n")
    assert "Yes." not in came.shown and came.shown[-1] == "We'll stop there. Bye for now."


def test_every_mark_in_the_window_is_given_taken_back_and_given_again_by_digits(tmp_path: Path) -> None:
    """Somebody presses F9 on a real keyboard beside a pupil who has just answered 47 + 5 with 42."""
    home = tmp_path / "home"
    home.mkdir()
    person = Person(home)
    add_pupil(home_in(home), "rk-7", NOW)
    person.writes("ferry.toml", 'title = "Seats on the ferry"\nadd = [5, 8]\nstart = [47, 36]\n')
    words = ("practise", "--by", "keys", "--pupil", "rk-7", "--grid", "ferry.toml", "--log", "log.jsonl")
    with x_server(tmp_path) as screen:
        practice = subprocess.Popen(
            [*COMMAND, *words],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            cwd=home,
            env=person.environment(screen.environment),
            text=True,
        )
        assert practice.stdout
        try:
            waited_for(lambda: asked(home, "rk-7"))
            screen.keys("4", "2", "Return")
            waited_for(lambda: answered(home, "rk-7"))
            before = len(waited_for(lambda: rows_after(home, 3)))  # the question that helps is asked
            screen.keys("F9")
            assert any("8 the practice doesn't count from here" in line for line in practice.stdout)
            listed = still(screen)
            screen.keys("1")
            waited_for(lambda: None if np.array_equal(screen.picture(), listed) else True)
            screen.keys("1")
            waited_for(lambda: True if np.array_equal(screen.picture(), listed) else None)
            screen.keys(*GIVEN_TAKEN_BACK_GIVEN)
            rows = waited_for(lambda: rows_after(home, before + 2 + 24))[before + 2 :]
        finally:
            practice.terminate()
            practice.communicate(timeout=30)
    notes = [(row.what.value, row.value) for row in rows if isinstance(row, Note)]
    assert notes == [
        *_thrice("was-right", "yes"),
        *_thrice("support", "adult-help words"),
        *_thrice("worked-with", "fingers"),
        *_thrice("way", "counted"),
        *_thrice("waits", "longer"),
        *_thrice("not-counted", "from-here", "counts"),
    ]
    void, again, gone = rows[12:15]
    assert isinstance(void, Void) and isinstance(again, Answer) and isinstance(gone, Void) and gone.of == again.id
    assert [(row.place, row.because) for row in rows if isinstance(row, Ask)] == [
        ((0, 1), "skipped"),
        ((0, 0), "moved"),
        ((0, 1), "skipped"),
    ]
    log = person.log()
    places = [place for place, line in enumerate(log) if line["kind"] == "note"]
    assert "say" not in [line["kind"] for line in log[places[0] : places[-1] + 1]]


def _thrice(what: str, value: str, off: str = "") -> list[tuple[str, str]]:
    return [(what, value), (what, off), (what, value)]


def rows_after(home: Path, count: int) -> tuple[Row, ...] | None:
    """All of the practice, once there are so many."""
    practice = practice_of(home, "rk-7")
    return practice.rows if practice and len(practice.rows) >= count else None


def still(screen: XServer) -> Picture:
    """The picture once it has not changed for half a second."""
    seen, same = screen.picture().copy(), 0

    def looked() -> Picture | None:
        nonlocal seen, same
        before, seen = seen, screen.picture().copy()
        same = same + 1 if np.array_equal(before, seen) else 0
        return seen if same == STILL_LOOKS else None

    return waited_for(looked)
